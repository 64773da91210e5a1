// Quick answers to "is there a piece or a stone here?" for very many places: outlines are kept in the square
// buckets that they reach into.
#pragma once

#include <cstdint>
#include <vector>

#include "scene/geometry/region.h"
#include "scene/laying/laying.h"

namespace rakelight {

class PieceBuckets {
  public:
    /// The laying must outlive the buckets.
    explicit PieceBuckets(const Laying& laying);
    bool covered(const glm::dvec2& p) const;

  private:
    std::size_t bucket(const glm::dvec2& p) const;

    std::vector<const Ring*> rings_;
    Box all_;
    double side_mm_ = 10;
    std::size_t columns_ = 1;
    std::size_t rows_ = 1;
    std::vector<std::vector<std::uint32_t>> buckets_;
};

}  // namespace rakelight
