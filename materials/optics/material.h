// A material of the work as the artist knows it: what it is made of, how thick, how finished, how heavy.
// No geometry and nothing precomputed: surface.h makes from it what a light path needs.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "materials/colour/sampled_spectrum.h"
#include "materials/markings/markings.h"
#include "materials/optics/thin_film.h"

namespace rakelight {

/// The families of material in a panel and its room. A family says which fields below mean something.
enum class Kind { glass, stone, slag, cement, epoxy, timber, paint };

/// Where the optical data of a material come from, the surest first; guessed: the colour is right, the curve
/// assumed.
enum class Provenance { measured, published, photographed, guessed, invented };

/// Unevenness of colour within one piece, by noise over its surface.
struct Grain {
    float contrast = 0;    ///< relative standard deviation of reflectance, 0..0.5
    float size_mm = 2;     ///< wavelength of the largest speckle
    float band_ratio = 1;  ///< > 1: stretched along the piece's long axis (slate bedding, timber grain)
    friend constexpr bool operator==(const Grain&, const Grain&) = default;
};

/// What a material is bought for, in the artist's own currency.
struct Cost {
    enum class Per { kg, m2 };
    double amount = 0;  ///< 0 = not known
    Per per = Per::kg;
    friend constexpr bool operator==(const Cost&, const Cost&) = default;
};

/// Beaten metal: behind translucent glass, or on top of anything opaque.
enum class Leaf { none, gold, silver, copper };

/// One layer of a fused stack; coefficients as those of Material.
struct BodyLayer {
    SampledSpectrum absorption_per_mm;
    SampledSpectrum scattering_per_mm;
    float share = 1;  ///< of the whole thickness, 0..1
};

/// A face (interface of index n) over a body (a finite Kubelka-Munk layer over a backing).
struct Material {
    std::string name;
    Kind kind = Kind::stone;
    Provenance provenance = Provenance::invented;
    std::string measured_on;  ///< day (ISO 8601); empty = not told
    /// CIEDE2000 that the colour stays within nine times in ten, under D65, A and LED-B3; 0 = not known.
    std::array<double, 3> colour_range{};

    /// Body of a clear or translucent layer, per millimetre. `absorption_per_mm` is the Napierian coefficient
    /// of a collimated ray (T = exp(-absorption * path)); the diffuse Kubelka-Munk K is twice that.
    /// `scattering_per_mm` is the Kubelka-Munk S. Used when `opaque` is false.
    SampledSpectrum absorption_per_mm;
    SampledSpectrum scattering_per_mm;
    /// Body of an opaque material: its diffuse reflectance inside the face, 0..1. Used when `opaque` is true.
    SampledSpectrum reflectance;
    bool opaque = true;
    /// Layers of a translucent body, face first, shares summing to at most 1; empty = one, of the
    /// coefficients above (which otherwise hold the mean over the thickness).
    std::vector<BodyLayer> sheets;
    bool backed = false;  ///< translucent, on an opaque sheet of `reflectance` instead of the bed

    Leaf leaf = Leaf::none;
    float leaf_roughness = 0.08f;    ///< GGX alpha of the leaf's wrinkles, 0.01..1
    float leaf_depth_mm = 0;         ///< of glass over the leaf; 0 = the piece's thickness
    std::vector<FilmLayer> coating;  ///< thin films on the face, outermost first; or none
    bool filmed = false;  ///< the face is that of a film over bare ground, which keeps its own shape
    float haze = 0;       ///< scattering depth (S times thickness) of a white film on the face, 0..10

    float index = 1;           ///< refractive index of the face at 589 nm; 1 = no face (bare matte material)
    float roughness = 0;       ///< GGX alpha of the face, 0 (mirror-smooth) to 1
    float stretch = 1;         ///< roughness across the grain over that along it, 1..16; of leaf as well
    float matte_deg = 0;       ///< Oren-Nayar slope standard deviation of the body when index is 1, degrees
    float ripple_deg = 0;      ///< slow waviness of the face (fused sheet), slope standard deviation, degrees
    float ripple_size_mm = 8;  ///< wavelength of that waviness
    float thickness_mm = 6;    ///< usual thickness of a piece
    float tone_spread = 0;     ///< piece-to-piece relative standard deviation of body absorption
    float glassy_share = 0;    ///< slag: share of the face, in patches, that is `glassy_*`, 0..1
    float glassy_index = 1.6f;
    float glassy_roughness = 0.1f;
    float glassy_patch_mm = 6;
    Grain grain;
    Markings markings;
    float density_g_per_cm3 = 2.5f;
    Cost cost;
    int have_pieces = -1;  ///< pieces of it in the workshop; negative = as many as needed
};

}  // namespace rakelight
