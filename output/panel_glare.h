// What a viewer is bothered by on a panel: where its pieces mirror lamps, how strongly and over how much of
// it, and how far mirrored light veils what lies beneath. Counted from a traced picture, in which every pixel
// knows how much of its luminance the first face mirrored.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "output/unified_glare.h"
#include "renderer/film.h"

namespace rakelight {

/// When glare is worth a word: common practice, no published source; every artist may set others.
struct GlareLimits {
    double hot = 10;       ///< a pixel is hot when it mirrors more than this many times the local body
    double blinding = 50;  ///< the same, far worse
    double patch_deg = 2;  ///< a connected hot patch larger than this is a complaint
    double least_sparks_per_m2 = 5;
    double most_sparks_per_m2 = 30;
    double veil = 1.5;   ///< (body + mirrored) / body above which dark glass looks washed out
    double rating = 19;  ///< unified glare rating; EN 12464-1 for reading and writing (from memory)
};

/// Light at the eye from which a point before a background is just seen, lux (IALA Recommendation E-200-2,
/// 2008, from memory). A flash is counted when it sends this many times as much: then nobody misses it.
double just_seen_lux(double background_cd_per_m2);
inline constexpr double kFlashTimes = 100;

/// Hot pixels that hang together to an eye: what is hot within half a degree of each other, joints and duller
/// pieces between included, is one patch (common practice, no published source).
struct HotPatch {
    double size_deg = 0;        ///< diameter of the disc of its solid angle
    double cd_per_m2 = 0;       ///< mean mirrored luminance
    double most_cd_per_m2 = 0;  ///< greatest
    bool blinding = false;      ///< whether any of it is
    std::uint32_t group = 0;    ///< index in Film::groups of what it mirrors, or mirrors most
    std::int32_t piece = 0;     ///< 1-based, of its brightest pixel
    glm::dvec2 pixel{};         ///< its middle, in pixels from the upper left
};

/// Light on one field.
struct FieldLight {
    std::uint32_t field = 0;    ///< index in Layout::fields
    double body_cd_per_m2 = 0;  ///< mean over its pixels, what the first face mirrored left out
    double mirrored_cd_per_m2 = 0;
    double veil() const { return body_cd_per_m2 > 0 ? 1 + mirrored_cd_per_m2 / body_cd_per_m2 : 0; }
};

struct PanelGlare {
    double hot_share = 0;  ///< of the panel's solid angle
    double blinding_share = 0;
    /// Pieces and stones whose hot places together are a flash, alone or in a patch of up to a quarter of
    /// `patch_deg`. By pieces and by light, so that it does not depend on how fine the film is.
    double sparks_per_m2 = 0;
    double score = 0;                ///< as LampEffect::score, of all light that the first face mirrors
    std::vector<HotPatch> patches;   ///< of all lamps together, the largest first
    std::vector<HotPatch> marks;     ///< of each lamp group by itself, the most light first
    std::vector<FieldLight> fields;  ///< those seen, in the order of the layout
};

/// `patches`: of the film, from seen_patches. What each lamp mirrors is Film::mirrored; without it the lamps
/// share what is mirrored as they share the light of the pixel. `field_of_piece`: index in Layout::fields of
/// every piece. `panel_m2`: area of the panel's face. The local body is the mean, over half a degree each
/// way, of what is not mirrored, and at least a twentieth of the panel's mean: an eye adapted to the panel
/// does not see into deeper black.
PanelGlare panel_glare(const Film& film, const std::vector<SeenPatch>& patches,
                       const std::vector<std::uint32_t>& field_of_piece, double panel_m2,
                       const GlareLimits& limits = {});

}  // namespace rakelight
