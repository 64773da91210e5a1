// Whose grout fills a joint. A joint between two fields is wholly of the one listed first, up to and a little
// under the pieces of the other: there a knife would run along the far side of the joint. The seam between
// two tints is drawn through the triangles of the joint surface, so that it is a clean line however coarse
// they are.
#pragma once

#include <array>
#include <cstdint>
#include <limits>
#include <span>
#include <vector>

#include "scene/geometry/lattice.h"
#include "scene/model/field.h"

namespace rakelight {

inline constexpr std::uint32_t kNoField = std::numeric_limits<std::uint32_t>::max();

/// The three fields whose pieces are nearest to a place, with the distances, and the field whose grout lies
/// there. Distances are negative inside a piece.
struct NearFields {
    std::array<std::uint32_t, 3> field{kNoField, kNoField, kNoField};
    std::array<float, 3> away_mm{1e30f, 1e30f, 1e30f};
    std::uint32_t owner = kNoField;

    void note(std::uint32_t f, float mm);
    /// Distance to the pieces of a field; huge when it is none of the three.
    float distance_mm(std::uint32_t f) const;
};

/// Distance from the pieces of `first` up to which the joint is theirs, where `later` is on the other side.
float reach_mm(const Field& first, const Field& later);

/// No distance beyond this needs to be known, for any two fields of the layout.
float farthest_reach_mm(const std::vector<Field>& fields, const Field& field);

/// Sets the owner of every node of the lattice. Where no field is near, it is that of the nearest node that
/// has one.
void settle_owners(const std::vector<Field>& fields, const Lattice& lattice, std::span<NearFields> nodes);

/// Where along the way from node `a` to node `b` their grouts meet, 0..1; they have different owners.
float seam_between(const std::vector<Field>& fields, const NearFields& a, const NearFields& b);

}  // namespace rakelight
