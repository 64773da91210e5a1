// Discomfort by the unified glare rating: UGR = 8 log10((0.25 / Lb) sum(L^2 w / p^2)), CIE 117-1995. L:
// luminance of the luminous parts of a lamp as the eye sees them, w: their solid angle, p: their position
// index, Lb: the indirect illuminance at the eye over pi. L and w are integrals over the lamps' own shapes,
// by sampling them (a pixel half covered by a lamp would tell neither); Lb is over the whole hemisphere
// ahead.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <optional>
#include <span>
#include <vector>

#include "renderer/bvh.h"
#include "scene/light/emitter.h"
#include "scene/world/world.h"

namespace rakelight {

/// One bright thing in the field of view.
struct GlareSource {
    glm::dvec3 direction{};     ///< unit, from the eye, mean by flux
    double cd_per_m2 = 0;       ///< mean over its solid angle
    double solid_angle_sr = 0;  ///< of its luminous parts that nothing stands before
    double position = 1;        ///< Guth's index
    std::uint32_t group = 0;    ///< index in World::groups
};

/// The sum of the rating for sources before a background of `background_cd_per_m2` > 0; none without sources.
/// Below 10 it stands for no discomfort. CIE 117 means sources of 0.0003 to 0.1 sr; others are counted the
/// same way.
std::optional<double> unified_glare_rating(std::span<const GlareSource> sources, double background_cd_per_m2);

struct GlareView {
    std::vector<GlareSource> sources;  ///< the most disturbing first
    double background_cd_per_m2 = 0;   ///< of all that is no source
    std::optional<double> rating;      ///< UGR
};

/// How an eye looks; world coordinates, unit directions.
struct Gaze {
    glm::dvec3 eye_mm{};
    glm::dvec3 sight{0, 0, -1};
    glm::dvec3 up{0, 1, 0};
};

/// Every lamp that shines at the eye from ahead is a source. A window is one when it is brighter than
/// `times_mean` times the mean luminance of the view, else background: a view that CIE 117 does not speak of
/// (common practice, no published source). `windows`: groups whose emitters are windows, those of one group
/// one window. Left out, as by CIE 117: what lies farther aside than three times its distance ahead. What
/// glass mirrors of a lamp is indirect light here. The same to the bit on any number of threads.
GlareView glare_in_view(const World& world, const Bvh& bvh, std::span<const Emitter> lamps, const Gaze& gaze,
                        std::span<const std::uint32_t> windows = {}, double times_mean = 5);

}  // namespace rakelight
