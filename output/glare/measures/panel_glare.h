// What a viewer is bothered by on a panel: where its pieces mirror lamps, how strongly and over how much of
// it, and how far mirrored light veils what lies beneath. Counted from a traced picture, in which every pixel
// knows how much of its luminance the first face mirrored.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "output/glare/measures/seen_patches.h"
#include "renderer/film.h"

namespace rakelight {

/// When glare is worth a word: common practice, no published source; every artist may set others.
struct GlareLimits {
    double bright_ratio = 10;    ///< a pixel is hot when it mirrors more than this many times the local body
    double dazzling_ratio = 50;  ///< the same, far worse
    /// A place is a bright patch when its mirrored light is more than this many times its body. As much
    /// mirrored as own light halves every contrast within the glass.
    double patch_ratio = 1;
    double bright_spot_deg = 2;  ///< a bright patch larger than this is a complaint
    double least_sparkles_per_m2 = 5;
    double most_sparkles_per_m2 = 30;
    double veil_ratio = 1.5;  ///< (body + mirrored) / body above which dark glass looks washed out
    double rating = 19;       ///< unified glare rating; EN 12464-1: 19 for reading and writing
    /// What is dimmer than this many times the mean of the view is no complaint: glare is of luminances
    /// "sufficiently greater" than those the eyes are adapted to (IES definition 5.9.11).
    double surround = 1;
    /// Nor is a patch of less than this, cd/m2, which is not ten times the view's mean either. EN 12464-1
    /// lets luminaires of 1000 cd/m2 be reflected in the least favourable screens; smooth glass reflects 4 %
    /// of it (Fresnel, index 1.5). Ten to one is the outermost of the luminance ratios 1:3:10 of IES
    /// practice.
    double least_cd_per_m2 = 40;
};

/// Whether a bright patch of this luminance can be complained of in a view of this mean luminance.
bool stands_out(const GlareLimits& limits, double cd_per_m2, double view_cd_per_m2);

/// A glare score in a word: none, slight, clear, strong, overwhelming. Steps of a factor of ten about a score
/// of one, at which a hundredth of the panel mirrors ten times what nobody minds; common practice, no
/// published source.
const char* score_word(double score);

/// What an eye takes together that looks at a panel and not for single glints: common practice, no published
/// source.
inline constexpr double kTogether_deg = 0.5;

/// A place where mirrored light outshines the pieces' own, as seen with kTogether_deg taken together.
struct BrightPatch {
    double size_deg = 0;      ///< diameter of the disc of its solid angle
    double cd_per_m2 = 0;     ///< mirrored luminance, mean over that disc
    double times = 0;         ///< greatest mirrored light over the body, kTogether_deg taken together
    std::uint32_t group = 0;  ///< index in Film::groups of what it mirrors, or mirrors most
    std::int32_t piece = 0;   ///< 1-based, the one that sends most of it
    glm::dvec2 pixel{};       ///< its middle, in pixels from the upper left
};

/// Light on one field.
struct FieldLight {
    std::uint32_t field = 0;    ///< index in Layout::fields
    double body_cd_per_m2 = 0;  ///< mean over its pixels, what the first face mirrored left out
    double mirrored_cd_per_m2 = 0;
    std::uint32_t group = 0;  ///< index in Film::groups of the lamps that most of that is of
    double veil() const { return body_cd_per_m2 > 0 ? 1 + mirrored_cd_per_m2 / body_cd_per_m2 : 0; }
};

struct PanelGlare {
    double bright_share = 0;  ///< of the panel's solid angle
    double dazzling_share = 0;
    double sparkles_per_m2 =
        0;             ///< see sparkles.h; those in a patch of over half of `bright_spot_deg` left out
    double score = 0;  ///< as LampEffect::score, of all light that the first face mirrors
    std::vector<BrightPatch> patches;  ///< of all lamps together, the largest first
    /// Of each lamp group by itself, the most light first. A group that outshines the panel nowhere has one
    /// mark, where it comes nearest to that, if it mirrors there more than nobody minds (`veil`).
    std::vector<BrightPatch> marks;
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
