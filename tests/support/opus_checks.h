// What the tests of single opera measure.
#pragma once

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "scene/geometry/region.h"
#include "scene/laying/laying.h"

namespace rakelight {

/// Distance from a point to a ring's line.
inline double off_ring_mm(const Ring& ring, const glm::dvec2& p) {
    double least = 1e9;
    for (std::size_t i = 0; i < ring.size(); ++i)
        least = std::min(least, distance_mm(p, ring[i], ring[(i + 1) % ring.size()]));
    return least;
}

inline double off_region_line_mm(const Region& region, const glm::dvec2& p) {
    double least = 1e9;
    for (const auto& ring : region.rings) least = std::min(least, off_ring_mm(ring, p));
    return least;
}

/// The largest area that any two pieces share, mm2.
inline double largest_overlap_mm2(const std::vector<Piece>& pieces) {
    std::vector<Box> boxes;
    for (const auto& p : pieces) boxes.push_back(bounds(p.outline_mm));
    double most = 0;
    for (std::size_t i = 0; i < pieces.size(); ++i)
        for (std::size_t j = 0; j < i; ++j) {
            if (boxes[i].low.x > boxes[j].high.x || boxes[j].low.x > boxes[i].high.x ||
                boxes[i].low.y > boxes[j].high.y || boxes[j].low.y > boxes[i].high.y)
                continue;
            most = std::max(most, area_mm2(intersect({{pieces[i].outline_mm}}, {{pieces[j].outline_mm}})));
        }
    return most;
}

/// Distances from the middle of every edge longer than `least_edge_mm` to the nearest other piece, those
/// beyond `most_mm` (the outline, not a joint) left out.
inline std::vector<double> joints_mm(const std::vector<Piece>& pieces, double least_edge_mm, double most_mm) {
    std::vector<Box> boxes;
    for (const auto& p : pieces) {
        boxes.push_back(bounds(p.outline_mm));
        boxes.back().low -= most_mm;
        boxes.back().high += most_mm;
    }
    std::vector<double> joints;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const Ring& ring = pieces[i].outline_mm;
        for (std::size_t k = 0; k < ring.size(); ++k) {
            const glm::dvec2 &a = ring[k], &b = ring[(k + 1) % ring.size()];
            if (glm::distance(a, b) < least_edge_mm) continue;
            const glm::dvec2 p = (a + b) / 2.0;
            double least = 1e9;
            for (std::size_t j = 0; j < pieces.size(); ++j)
                if (j != i && p.x > boxes[j].low.x && p.y > boxes[j].low.y && p.x < boxes[j].high.x &&
                    p.y < boxes[j].high.y)
                    least = std::min(least, off_ring_mm(pieces[j].outline_mm, p));
            if (least < most_mm) joints.push_back(least);
        }
    }
    return joints;
}

/// Mean and standard deviation.
inline std::pair<double, double> mean_and_sd(const std::vector<double>& values) {
    double mean = 0, square = 0;
    const auto n = static_cast<double>(values.size());
    for (const double v : values) mean += v / n;
    for (const double v : values) square += (v - mean) * (v - mean) / n;
    return {mean, std::sqrt(square)};
}

}  // namespace rakelight
