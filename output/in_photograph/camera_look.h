// How a camera draws: its grain, by what is left of flat parts when a plane is taken off; and its sharpness,
// by the edges of the sheet, straight lines that lie where the corners say (the slanted edge of ISO 12233,
// with the integral of a Gaussian fitted to it).
#pragma once

#include <array>
#include <cstdint>
#include <glm/glm.hpp>
#include <optional>
#include <vector>

namespace rakelight {

struct CameraLook {
    /// Grain of encoded red, green, blue (0..1): lower triangle of the root of its covariance (Cholesky).
    glm::dmat3 grain{0};
    double grain_along = 0;         ///< correlation of neighbouring pixels, -0.7..0.7
    std::optional<double> blur_px;  ///< standard deviation of a Gaussian; none = no edge to tell it
    double grain_sd() const;        ///< root mean square over the three
};

struct LookedAt {
    int width = 0, height = 0;
    const std::vector<glm::vec3>* rgb = nullptr;  ///< linear
    const std::vector<std::uint8_t>* spoilt = nullptr;
};

/// `corners_px`: of the sheet, clockwise.
CameraLook look_of(const LookedAt& picture, const std::array<glm::dvec2, 4>& corners_px);

/// Grain of that look at a pixel, to be added to encoded values. Always the same for the same seed.
class GrainOfCamera {
  public:
    GrainOfCamera(const CameraLook& look, std::uint64_t seed);
    glm::dvec3 at(int x, int y) const;

  private:
    glm::dmat3 root_;
    double side_ = 0, scale_ = 1;  // of neighbours that are mixed in
    std::uint64_t seed_;
};

}  // namespace rakelight
