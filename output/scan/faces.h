// What lines enclose: the faces of a planar graph by walking its half-edges (de Berg et al., Computational
// Geometry, 3rd edition, 2.2), with the holes that other lines make in them.
#pragma once

#include "output/scan/line_graph.h"
#include "scene/geometry/region.h"

namespace rakelight {

struct Face {
    Ring outer_mm;
    std::vector<Ring> holes_mm;
    std::vector<std::size_t> edges;  ///< of its outer ring
    double area_mm2 = 0;             ///< of its outer ring

    std::vector<Ring> rings_mm() const;
    bool contains(const glm::dvec2& p) const;
};

/// The faces of a graph. Lines that enclose nothing, loose or between two faces' borders, are taken out of
/// the graph and put into `open`.
std::vector<Face> faces_of(LineGraph& graph, std::vector<std::vector<glm::dvec2>>& open);

/// The same, after faces smaller than a square of `speck_mm` or narrower than `sliver_mm` have lost their
/// longest line to a neighbour. \return how many did in `merged`.
std::vector<Face> faces_without_specks(LineGraph& graph, double speck_mm, double sliver_mm,
                                       std::vector<std::vector<glm::dvec2>>& open, std::size_t& merged);

}  // namespace rakelight
