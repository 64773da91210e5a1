// Side light: what the filling at the sides of a translucent piece does to the light that leaves its face,
// and how that falls off with the distance from the edge. Light is walked at random, by the same numbers
// every time, through a block of glass with a face, a bed and four sides; what is kept of every way is how
// long it was and how often it met bed and filling, so that one walk serves every absorption, bed and
// filling. Isotropic scattering of 4/3 S (Mudgett and Richards 1971, Appl. Opt. 10, 1485), smooth face, matte
// bed and filling; above the filling a side mirrors, as light that came in by the face meets it beyond the
// critical angle.
//
// A piece of any outline is taken as the square block with as much edge to its area, seen at the same
// distance from the edge: for outlines that touch a circle with all sides the area at each distance is the
// same.
#pragma once

#include <array>
#include <cmath>
#include <compare>
#include <optional>
#include <span>

#include "materials/colour/sampled_spectrum.h"

namespace rakelight {

/// What a translucent piece has at its sides.
struct SideWall {
    SampledSpectrum reflectance;  ///< of the filling in contact, 0..1
    double across_mm = 0;         ///< of the piece: four times its area over its edge; 0 = no side shows
    double bonded_mm = 0;         ///< height over which the filling touches it, from the bed up
    /// Whether the filling shows in the piece.
    bool shows() const { return across_mm > 0 && bonded_mm > 0; }
};

/// How far light that falls evenly from all round moves aside in stuff of an index of at least 1, in the mean
/// over what enters, for each millimetre down: Lambert's cosine law gives
///     2 int_0^1 u^2 / sqrt(n^2 - u^2) du = n^2 asin(1/n) - sqrt(n^2 - 1)      (u the sine outside).
inline double mean_tangent(double index) {
    return index * index * std::asin(1 / index) - std::sqrt(index * index - 1);
}

/// Share of the light that enters the face which meets a side over the height `bonded_mm` before what lies
/// below, at most 0.6: the law is of short moves. `edge_per_mm`: edge over area, 1/mm; `index` at least 1. A
/// ray refracted at the angle t moves aside by h tan t, and a convex outline of area A and edge P loses the
/// share l P / (pi A) of its points to a short move l in random directions (Crofton; Santalo, "Integral
/// Geometry and Geometric Probability", 1976).
double side_share(double edge_per_mm, double bonded_mm, double index);

/// Places between edge and middle at which side light is known. They lie closer near the edge: place k at
/// the reach times (k / last)^2.
inline constexpr int kSidePlaces = 9;

/// What the sides make of a layer in one band.
struct SideLight {
    double mean = 1;                            ///< light of the whole face over that of an endless layer
    std::array<double, kSidePlaces> profile{};  ///< light at each place over the mean of the face
};

/// The block that a piece is taken for.
struct SideBlock {
    double index = 1.5;       ///< of refraction, at least 1
    double thickness_mm = 3;  ///< above 0
    double across_mm = 10;    ///< side of the square
    double bonded_mm = 2;     ///< height of the filling

    /// Distance from the edge to the last place: the middle, or where no side is felt any more.
    double reach_mm() const;
    friend bool operator==(const SideBlock&, const SideBlock&) = default;
};

class SideWalk;

/// The side light of a picture's materials. Not for two threads at once.
class SideWalks {
  public:
    /// From now on few ways are walked, for pictures so coarse that nobody sees it: means err by some 3 %.
    void be_coarse() { coarse_ = true; }
    bool is_coarse() const { return coarse_; }

    /// What a band of a block's glass needs to know.
    struct Band {
        double absorption_per_mm = 0;  ///< of a collimated ray, Napierian
        double scattering_per_mm = 0;  ///< Kubelka-Munk S
        double bed = 0, filling = 0;   ///< reflectances in contact, 0..1
        friend bool operator==(const Band&, const Band&) = default;
    };
    /// Side light of a block in each of `bands`.
    std::array<SideLight, kBandCount> light(const SideBlock& block,
                                            const std::array<Band, kBandCount>& bands);

  private:
    struct Key {
        int index, bonded, across, scattering;
        auto operator<=>(const Key&) const = default;
    };
    struct Told {
        SideBlock block;
        std::array<Band, kBandCount> bands;
        std::array<SideLight, kBandCount> lights;
    };
    const SideWalk& walk(const Key& key) const;
    bool coarse_ = false;
    std::optional<Told> last_;  // a piece is asked for twice: as an eye sees it, and roughened
};

}  // namespace rakelight
