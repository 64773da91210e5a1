// Lines on paper as edges between nodes: freed of whiskers and of pixel stairs, gaps closed. Lengths are mm
// from the sheet's upper left corner, y down.
#pragma once

#include <functional>
#include <glm/glm.hpp>
#include <vector>

#include "output/scan/traced_page.h"

namespace rakelight {

struct GraphEdge {
    int from = 0, to = 0;
    std::vector<glm::dvec2> points_mm;  ///< both nodes included
    bool closing = false;               ///< a gap that was closed
    bool border = false;                ///< part of the sheet's edge
    bool gone = false;
};

class LineGraph {
  public:
    explicit LineGraph(const std::vector<TracedChain>& chains);

    /// Takes away loose ends shorter than `whisker_mm` and lone marks shorter than `mark_mm`, and joins edges
    /// that meet two at a node.
    void prune(double whisker_mm, double mark_mm);

    /// Draws nodes together that an edge shorter than `most_mm` joins: where two lines cross, thinning leaves
    /// two.
    void contract(double most_mm);

    /// At each node where three or more meet, joins those two and two that go on straight; what is left over
    /// ends there. For lines that cross without enclosing anything.
    void join_straight();

    /// Relaxes stairs of pixels like a rubber band that stays within `groove_mm` of where it was, then leaves
    /// out points that it does not need.
    void smooth(double pixel_mm, double groove_mm);

    /// Adds the sheet's edge as lines. Loose ends within `reach_mm` of it are led on to it.
    void add_border(const glm::dvec2& size_mm, double reach_mm);

    /// Joins loose ends that look at one another, then loose ends to the lines ahead of them, over at most
    /// `gap_mm`; never across a line.
    void close_gaps(double gap_mm);

    /// Joins loose ends that look at one another, with lines of another colour over all of what lies between.
    void go_under(const std::vector<TracedChain>& over, double most_mm);

    /// Takes an edge away.
    void remove(std::size_t edge) { edges_[edge].gone = true; }

    const std::vector<GraphEdge>& edges() const { return edges_; }
    glm::dvec2 node_mm(int node) const { return nodes_[static_cast<std::size_t>(node)]; }
    std::size_t nodes() const { return nodes_.size(); }
    /// How many edge ends meet in each node.
    std::vector<int> degrees() const;
    /// Joins edges that meet two at a node.
    void join();

  private:
    /// A loose end: an edge, and which of its ends.
    struct LooseEnd {
        std::size_t edge = 0;
        bool at_from = false;
    };
    /// Where an edge is met.
    struct Meeting {
        std::size_t edge = 0, segment = 0;
        glm::dvec2 at_mm{};
        double cost = 0;
    };
    std::vector<LooseEnd> loose_ends() const;
    int node_of(const LooseEnd& end) const;
    glm::dvec2 place_of(const LooseEnd& end) const { return node_mm(node_of(end)); }
    glm::dvec2 ahead_of(const LooseEnd& end) const;
    bool crosses(const glm::dvec2& a, const glm::dvec2& b) const;
    std::vector<Meeting> meetings(const LooseEnd& end, double reach_mm, bool border) const;
    int split(const Meeting& meeting);
    void lead_on(const std::vector<LooseEnd>& ends, double reach_mm, bool border);
    void join_ends(double most_mm, double least_facing,
                   const std::function<bool(const glm::dvec2&, const glm::dvec2&)>& allowed);
    void connect(int from, int to);
    glm::dvec2 tangent(std::size_t edge, bool at_from) const;

    std::vector<glm::dvec2> nodes_;
    std::vector<GraphEdge> edges_;
};

/// Length of a chain.
double length_mm(const std::vector<glm::dvec2>& points);

}  // namespace rakelight
