// The small shape of a face: how far it departs from its plane, and its slope there. What kind of face a
// material has follows from its family, weight and bedding.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <optional>
#include <vector>

#include "materials/optics/material.h"

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

/// How far the middle of a sheet's face stands above its edge, as a share of half its size, where nobody
/// said: sheet glass is never quite flat. Common practice, no published source.
inline constexpr float kUsualBulge = 0.012f;

/// Height over the plane of the face, mm, and its slope.
struct Relief {
    float height_mm = 0;
    glm::vec2 slope{0};
};

/// A shell broken off the arris, with ripples round the point of the blow as conchoidal breaks have.
struct Chip {
    glm::vec2 at_mm{0};  ///< where the blow fell
    float radius_mm = 0;
    float depth_mm = 0;
};

/// The relief of one face; coordinates are relative to its centre, x along its row.
class FaceRelief {
  public:
    /// `half_size_mm`: mean distance from the centre to the edge. `seed`: of the piece. `farthest_mm`: to the
    /// edge's farthest point, where it is known; long pieces are shaped no deeper than square ones.
    FaceRelief(const Material& material, float half_size_mm, std::uint64_t seed)
        : FaceRelief(face_kind(material), material, half_size_mm, seed) {}
    FaceRelief(FaceKind kind, const Material& material, float half_size_mm, std::uint64_t seed,
               float farthest_mm = 0);
    Relief at(const glm::vec2& p_mm) const;
    void add(const Chip& chip) { chips_.push_back(chip); }
    /// The shortest wave that needs points of its own, mm.
    float finest_wave_mm() const;
    /// The middle of the face stands `rise_mm` above the middles of its sides: 0 is flat. Without it glass
    /// bulges by kUsualBulge; faces that are uneven in other ways keep that.
    void set_dome(float rise_mm) { dome_mm_ = rise_mm; }
    FaceKind kind() const { return kind_; }

  private:
    Relief facet_at(const glm::vec2& p_mm) const;

    FaceKind kind_;
    float half_size_mm_;
    float reach_mm_;  // half size of a square piece that is as long
    float ripple_height_mm_ = 0;
    float ripple_size_mm_ = 8;
    std::uint32_t seed_ = 0;
    glm::vec3 shift_{0};
    std::optional<float> dome_mm_;
    std::vector<glm::vec3> facets_;  // riven: slope along x and y, height at the centre
    std::vector<Chip> chips_;
};

}  // namespace rakelight
