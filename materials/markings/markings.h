// Markings: what shows within a piece besides its even colour and its plain face, as the artist knows it. All
// of it is off unless asked for, and each has a scale in millimetres.
#pragma once

#include <vector>

#include "materials/colour/sampled_spectrum.h"

namespace rakelight {

/// How a second colour runs through a material.
enum class Strand {
    streak,   ///< drawn out by the rollers of the sheet, fibred
    wisp,     ///< curling, as smoke does
    vein,     ///< of marble: crossing lines, some broad, most thin
    crackle,  ///< of a glaze: a net of fine cracks
    cloud,    ///< soft patches
    wash      ///< what a sponge leaves in pores and hollows
};

/// A second colour in a material: what of it is a colour is as in Material, and used as it uses it.
struct Strands {
    Strand form = Strand::streak;
    float share = 0;      ///< of the face, in the mean, 0..1
    float size_mm = 6;    ///< from one to the next, across the sheet
    float length_mm = 6;  ///< the same along it
    SampledSpectrum absorption_per_mm;
    SampledSpectrum scattering_per_mm;
    SampledSpectrum reflectance;
    float haze = 0;  ///< instead of a colour: scattering depth of a white film, where it is densest; 0 = none
    bool covers = false;  ///< lies on the material instead of melting into it
    float thicker = 0;    ///< instead of a colour: how much thicker the films of a coating are; 0 = none
};

/// Bubbles of gas that the melt did not lose.
struct Seeds {
    float size_mm = 0;  ///< mean diameter; 0 = none
    float per_cm2 = 0;  ///< seen from the face
    friend bool operator==(const Seeds&, const Seeds&) = default;
};

/// Threads of glass of another index in the melt: thin lenses that gather light to lines.
struct Cords {
    float contrast = 0;   ///< relative height of the bright lines, 0..1; 0 = none
    float size_mm = 1.5;  ///< from one to the next
    friend bool operator==(const Cords&, const Cords&) = default;
};

/// What rollers, hammers or the kiln leave on the face of a sheet; what a paint roller leaves on plaster
/// (stipple), air at the formwork on concrete (blowholes).
enum class Pattern { none, rolled, hammered, rippled, granite, stippled, blowholes };

struct FacePattern {
    Pattern pattern = Pattern::none;
    float size_mm = 6;    ///< from one rise to the next
    float slope_deg = 5;  ///< standard deviation, along each axis
    friend bool operator==(const FacePattern&, const FacePattern&) = default;
};

/// Sand in a filling.
struct Sand {
    float size_mm = 0;       ///< mean diameter of its grains; 0 = none
    float contrast = 0.12f;  ///< of the grains' reflectance, relative standard deviation
    friend bool operator==(const Sand&, const Sand&) = default;
};

/// Where a filling climbs the pieces, wetted by its own water.
struct Meniscus {
    float width_mm = 0;  ///< how far from them it is felt; 0 = none
    friend bool operator==(const Meniscus&, const Meniscus&) = default;
};

/// Slow unevenness of a filling's colour: of water, of pressure, of the day.
struct Mottling {
    float contrast = 0;  ///< relative standard deviation of reflectance; 0 = none
    float size_mm = 60;  ///< from patch to patch
    friend bool operator==(const Mottling&, const Mottling&) = default;
};

struct Markings {
    std::vector<Strands> strands;  ///< at most kMostStrands
    Seeds seeds;
    Cords cords;
    FacePattern face;
    Sand sand;
    Mottling mottling;
    Meniscus meniscus;

    /// Whether a place of the material looks unlike another by them.
    bool any() const {
        return !strands.empty() || seeds.size_mm > 0 || cords.contrast > 0 || face.pattern != Pattern::none ||
               sand.size_mm > 0 || mottling.contrast > 0 || meniscus.width_mm > 0;
    }
};

inline constexpr std::size_t kMostStrands = 6;

}  // namespace rakelight
