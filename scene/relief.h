// The small shape of a face: how far it departs from its plane, and its slope there. What kind of face a
// material has follows from its family, weight and bedding.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <vector>

#include "materials/material.h"

namespace rakelight {

enum class FaceKind {
    fused,   ///< sheet glass from the kiln: nearly flat, rippled, edges fire-polished or nipped
    riven,   ///< split along its bedding: terraces and steps, chipped arrises
    lumpy,   ///< slag: shells of conchoidal breaks
    pitted,  ///< pumice, scoria: full of broken bubbles
    worn,    ///< river stone: domed and smooth
    sawn     ///< anything else of stone: flat and a little rough
};

FaceKind face_kind(const Material& material);

/// Height over the plane of the face, mm, and its slope.
struct Relief {
    float height_mm = 0;
    glm::vec2 slope{0};
};

/// A shell broken off near a corner.
struct Chip {
    glm::vec2 at_mm{0};
    float radius_mm = 0;
    float depth_mm = 0;
};

/// The relief of one face; coordinates are relative to its centre, x along its row.
class FaceRelief {
  public:
    /// `half_size_mm`: mean distance from the centre to the edge. `seed`: of the piece.
    FaceRelief(const Material& material, float half_size_mm, std::uint64_t seed);
    Relief at(const glm::vec2& p_mm) const;
    void add(const Chip& chip) { chips_.push_back(chip); }

    FaceKind kind() const { return kind_; }
    /// Radius of the rounded edge between face and side.
    float edge_radius_mm() const;
    /// How deep the arris is chipped back here and there.
    float ragged_mm() const;

  private:
    FaceKind kind_;
    float half_size_mm_;
    float ripple_height_mm_ = 0;
    float ripple_size_mm_ = 8;
    std::uint32_t seed_ = 0;
    glm::vec3 shift_{0};
    std::vector<Chip> chips_;
};

}  // namespace rakelight
