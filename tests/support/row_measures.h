// What a mosaicist sees at a glance, in figures: how heads stand to the heads of the next row, whether joints
// meet by threes or fours, how even a joint is, how wedged, how narrow and how sharp the pieces are.
// Joints are measured on their middle line: the Voronoi diagram of points along all outlines, in which a
// junction is a place as near to three pieces as to each other (Blum 1967, the medial axis of the gap).
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "scene/geometry/region.h"
#include "scene/laying/laying.h"

namespace rakelight {

/// Where the joints of three pieces meet.
struct Junction {
    glm::dvec2 at_mm{};
    std::array<std::uint32_t, 3> pieces{};  ///< indices, rising
};

/// The joint between two pieces that lie side by side.
struct Joint {
    std::uint32_t a = 0, b = 0;  ///< pieces, a < b
    glm::dvec2 middle_mm{};      ///< of its middle line
    glm::dvec2 along{1, 0};      ///< its direction
    double length_mm = 0;
    bool head = false;  ///< stands across the rows of both, which run the same way within 50 degrees
};

struct JointNet {
    std::vector<Joint> joints;        ///< by a, then b
    std::vector<Junction> junctions;  ///< where three different pieces meet
};

/// `reach_mm`: farther apart, pieces are not neighbours (an open place, not a joint); about twice the joint.
JointNet joint_net(std::span<const Piece> pieces, double reach_mm);

/// Distance from each T (two pieces of one row meeting a third) to the nearest head joint of that third piece
/// on the same side, as a share of `pitch_mm`, or of its own pitch where it is cut shorter. Evenly staggered
/// rows give 0.5, lined up ones 0.
struct HeadOffset {
    double share = 0;
    std::size_t joint = 0;  ///< the head joint whose end it is
};
std::vector<HeadOffset> head_offsets(std::span<const Piece> pieces, const JointNet& net, double pitch_mm);

/// For each piece: does it stand in a row, with a head joint at either end?
std::vector<char> in_row(std::span<const Piece> pieces, const JointNet& net);

/// Pairs of three-sided pieces that share a joint.
std::size_t triangles_together(std::span<const Piece> pieces, const JointNet& net);

/// Pairs of heads, next to each other in one row, that are both nearer than `share` to a head beside them.
std::size_t neighbours_nearer_than(double share, const JointNet& net, std::span<const HeadOffset> offsets);

/// Places where four pieces meet: two junctions that share two pieces, no farther apart than `within_mm`.
std::size_t crossings(const JointNet& net, double within_mm);

/// The three angles between the joints that leave each junction, degrees, sum 360; measured over the first
/// `over_mm` of each joint.
std::vector<double> junction_angles_deg(const JointNet& net, std::span<const Piece> pieces, double over_mm);

/// Widths of joints, mm: from points along every straight edge square across to an edge that faces it.
std::vector<double> joint_widths_mm(std::span<const Piece> pieces, double reach_mm);

/// Angle between the two head edges of a piece, degrees; 0 for a rectangle. None of its heads: 0.
double wedge_deg(const Piece& piece);
/// The narrowest a piece is in any direction (smallest distance of two parallel lines that hold it).
double least_width_mm(const Ring& outline);
double least_edge_mm(const Ring& outline);
double least_angle_deg(const Ring& outline);

struct Spread {
    std::size_t count = 0;
    double mean = 0, sd = 0, least = 0, most = 0;
};
Spread spread_of(std::span<const double> values);
/// Share of the values for which `is` holds; 0 of none.
template <class T, class Is>
double share_of(const std::vector<T>& values, Is&& is) {
    std::size_t n = 0;
    for (const auto& v : values) n += is(v) ? 1 : 0;
    return values.empty() ? 0 : static_cast<double>(n) / static_cast<double>(values.size());
}

/// Area of the pieces over that of the ground they were laid on.
double coverage(std::span<const Piece> pieces, double ground_mm2);

}  // namespace rakelight
