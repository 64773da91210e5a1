// Light from all round, cut into patches that are sampled each as a lamp would be: bright spots, small and
// far brighter than the rest, one by one, and the rest in rectangles of the picture that are the smaller the
// more light comes from them. Which patch is aimed at is up to whoever sees some of them and not others;
// within a patch the direction is sampled by luminance, first the row, then the pixel of it (inversion of
// marginal and conditional distribution: Pharr, Jakob and Humphreys, "Physically Based Rendering", 2016,
// 14.2.4).
#pragma once

#include <memory>
#include <span>
#include <vector>

#include "scene/surround/surround_picture.h"

namespace rakelight {

/// A part of the picture: those pixels of a rectangle of it that carry its number. It may run over the right
/// edge to the left one.
struct SurroundPatch {
    int left = 0, top = 0, columns = 0, rows = 0;
    bool spot = false;  ///< a bright spot
    double flux = 0;    ///< luminance times solid angle, unit of the picture times sr
    double solid_angle_sr = 0;
    glm::dvec3 rgb{};               ///< colour times solid angle
    glm::dvec3 direction{0, 0, 1};  ///< unit, mean by flux, picture's frame
    double reach_rad = 0;           ///< no pixel of it lies farther from `direction`
    std::size_t first = 0;          ///< of its rows in the table of rows, and of its pixels in that of pixels
    std::size_t first_pixel = 0;
};

/// A direction towards a patch.
struct SampledPixel {
    glm::vec3 direction{};  ///< unit, picture's frame
    std::uint32_t pixel = 0;
};

/// A picture and its patches. Any number of threads may ask it at once.
class AllRound {
  public:
    /// `picture` must give some light, and have at most 2^23 pixels. `most_patches`: bright spots included.
    explicit AllRound(SurroundPicture picture, std::size_t most_patches = 48);

    const SurroundPicture& picture() const { return picture_; }
    std::span<const SurroundPatch> patches() const { return patches_; }

    /// Number of the patch that a pixel belongs to.
    std::uint32_t patch_of(std::uint32_t pixel) const { return patch_of_[pixel]; }

    float luminance(std::uint32_t pixel) const { return luminance_of(picture_.rgb[pixel]); }

    /// A direction towards a patch, by luminance, from two numbers in [0, 1).
    SampledPixel sample(std::size_t patch, const glm::vec2& u) const;

    /// Density per steradian with which `sample` gives a direction to a pixel of the patch.
    float pdf(std::size_t patch, std::uint32_t pixel) const {
        return luminance(pixel) / static_cast<float>(patches_[patch].flux);
    }

    /// Light on an unobstructed plane that faces `normal` (unit, picture's frame), unit of the picture times
    /// sr.
    double plane_light(const glm::dvec3& normal) const;

  private:
    void take_in(SurroundPatch patch, std::uint32_t number);

    SurroundPicture picture_;
    std::vector<SurroundPatch> patches_;
    std::vector<std::uint16_t> patch_of_;
    std::vector<float> rows_;    ///< of each patch rows + 1 sums, 0 to 1
    std::vector<float> pixels_;  ///< of each row of each patch columns + 1 sums, 0 to 1
};

}  // namespace rakelight
