// Discomfort by the unified glare rating: UGR = 8 log10((0.25 / Lb) sum(L^2 w / p^2)), CIE 117-1995. L:
// luminance of a source, w: its solid angle, p: its position index, Lb: luminance of the rest of the field of
// view, pi of which is its illuminance at the eye.
#pragma once

#include <glm/glm.hpp>
#include <optional>
#include <span>
#include <vector>

namespace rakelight {

/// What one pixel of a picture adds to the field of view.
struct SeenPatch {
    glm::dvec3 direction{0, 0, -1};  ///< unit, from the eye
    double cd_per_m2 = 0;
    double solid_angle_sr = 0;
};

/// One bright thing in the field of view, of one or many pixels.
struct GlareSource {
    glm::dvec3 direction{};  ///< unit, mean by flux
    double cd_per_m2 = 0;    ///< mean over its solid angle
    double solid_angle_sr = 0;
    double position = 1;  ///< Guth's index
};

/// The sum of the rating for sources before a background of `background_cd_per_m2` > 0; none without sources.
/// Below 10 it stands for no discomfort. CIE 117 means sources of 0.0003 to 0.1 sr; others are counted the
/// same way.
std::optional<double> unified_glare_rating(std::span<const GlareSource> sources, double background_cd_per_m2);

struct GlareView {
    std::vector<GlareSource> sources;  ///< the most disturbing first
    double background_cd_per_m2 = 0;   ///< of all that is no source
    double threshold_cd_per_m2 = 0;    ///< above it a pixel belongs to a source
    std::optional<double> rating;      ///< UGR
};

/// Finds the sources in a picture: connected pixels (by edges) brighter than `times_mean` times the mean
/// luminance of the view. `patches`: row by row, `width` to a row. `sight`, `up`: unit. Pixels outside the
/// hemisphere ahead do not count. What the picture does not show is taken to be of its background's
/// luminance.
GlareView glare_in_view(std::span<const SeenPatch> patches, int width, const glm::dvec3& sight,
                        const glm::dvec3& up, double times_mean = 5);

}  // namespace rakelight
