#include "materials/optics/plate.h"

#include <cmath>

#include "materials/optics/fresnel.h"
#include "materials/optics/layer_slab.h"

namespace rakelight {
namespace {

using namespace layer_matrix;

// Radiance arriving at each face from inside, from radiance entering at either, with every return under the
// faces and nothing behind the lower one.
struct Inside {
    Matrix up_from_top, down_from_top, down_from_below;
    Vector direct{};  // the part of up_from_top that is mirrored by the lower face and not scattered
};

// What passes straight through a sheet made by doubling, exactly as the doubling rounds it.
Vector straight(const LayerFrame& f, Depth d) {
    int doublings = 0;
    for (; d.depth > kThinnest; d.depth /= 2) ++doublings;
    Vector r{};
    for (std::size_t i = 0; i < N; ++i) {
        const double x = d.depth / (2 * f.cosines[i]);
        r[i] = std::pow((1 - x) / (1 + x), std::ldexp(1.0, doublings));
    }
    return r;
}

Matrix mirrored(Matrix m, const Vector& internal) {
    for (Vector& row : m.row)
        for (std::size_t j = 0; j < N; ++j) row[j] *= internal[j];
    return m;
}

Matrix scaled(Matrix m, double by) {
    for (Vector& row : m.row)
        for (double& x : row) x *= by;
    return m;
}

// Both faces mirror alike: the sum and the difference of the light at them pass separately.
Inside dry_inside(const LayerFrame& f, const Sheet& s, const Vector& direct) {
    const Matrix even = s.reflect + s.transmit, odd = s.reflect + scaled(s.transmit, -1);
    const Matrix sum = solve(identity_less(mirrored(even, f.internal)), even);
    const Matrix difference = solve(identity_less(mirrored(odd, f.internal)), odd);
    Inside r;
    r.up_from_top = r.down_from_below = scaled(sum + difference, 0.5);
    r.down_from_top = scaled(sum + scaled(difference, -1), 0.5);
    for (std::size_t i = 0; i < N; ++i) {
        const double round = direct[i] * direct[i] * f.internal[i];
        r.direct[i] = round / (1 - round * f.internal[i]);
    }
    return r;
}

Inside bonded_inside(const LayerFrame& f, const Sheet& s) {
    Inside r;
    const Matrix system = identity_less(mirrored(s.reflect, f.internal));
    r.up_from_top = solve(system, s.reflect);
    const Matrix up_from_below = solve(system, s.transmit);
    const Matrix again = mirrored(s.transmit, f.internal);
    r.down_from_top = s.transmit + again * r.up_from_top;
    r.down_from_below = s.reflect + again * up_from_below;
    return r;
}

// Lagrange's polynomial through the directions that reach the outside, in the outer cosine, in which what the
// faces do is smooth down to grazing.
Vector weights_at(const LayerFrame& f, double outer_cosine) {
    const auto outer = [&](std::size_t i) {
        return std::sqrt(1 - f.index * f.index * (1 - f.cosines[i] * f.cosines[i]));
    };
    Vector r{};
    for (std::size_t i = kHalf; i < N; ++i) {
        r[i] = 1;
        for (std::size_t j = kHalf; j < N; ++j)
            if (j != i) r[i] *= (outer_cosine - outer(j)) / (outer(i) - outer(j));
    }
    return r;
}

// Light to and fro between the faces along one slant, which grows steeply towards grazing in a thin plate.
double echo(double once, double mirrored, bool dry) {
    return dry ? 1 / (1 - once * mirrored) : 1;
}
double echo_at(const LayerFrame& f, double depth, double outer_cosine, bool dry) {
    const double inside = std::sqrt(1 - (1 - outer_cosine * outer_cosine) / (f.index * f.index));
    return echo(std::exp(-depth / inside), dielectric_reflectance(outer_cosine, f.index), dry);
}

// The share of light inside the upper face that reaches the card, by direction: what is not scattered on its
// way exactly, all else between the directions.
struct ToCard {
    const LayerFrame& frame;
    bool dry = false;
    double depth = 0;
    Vector scattered{};  // without its echo

    static double straight(double once, double mirrored, bool dry) {
        return dry ? (1 - mirrored) * once / (1 - once * once * mirrored * mirrored) : once;
    }
    double at(double outer_cosine) const {
        const double n2 = frame.index * frame.index;
        const double inside = std::sqrt(1 - (1 - outer_cosine * outer_cosine) / n2);
        const double mirrored = dielectric_reflectance(outer_cosine, frame.index);
        const Vector weights = weights_at(frame, outer_cosine);
        const double once = std::exp(-depth / inside);
        double r = 0;
        for (std::size_t i = kHalf; i < N; ++i) r += weights[i] * scattered[i];
        return std::max(straight(once, mirrored, dry) + r * echo(once, mirrored, dry), 0.0);
    }
};

}  // namespace

Plate make_plate(const LayerFrame& f, const LayerBand& band, Lying lying, PhotographLight light) {
    Depth depth = depth_of(band);
    depth.depth = std::max(depth.depth, 1e-9);  // what is mirrored totally has to end
    const Sheet sheet = whole_sheet(f, depth);
    const bool dry = lying == Lying::dry;
    const Vector direct = straight(f, depth), flux = fluxes(f);
    const Inside in = dry ? dry_inside(f, sheet, direct) : bonded_inside(f, sheet);
    const double n2 = f.index * f.index;
    Vector enters{}, lower{};  // share that passes the upper face, and from or to the card
    for (std::size_t i = kHalf; i < N; ++i) enters[i] = 1 - f.internal[i];
    for (std::size_t i = 0; i < N; ++i) lower[i] = dry ? enters[i] : 1;

    Plate r;
    Vector alone{};  // takes the echo off
    ToCard to_card{f, dry, depth.depth};
    double lit = 0, outside = 1;  // the card by even light; mirrored by the lower face, seen from the card
    for (std::size_t j = 0; j < N; ++j) {
        double arrives = 0;
        for (std::size_t i = 0; i < N; ++i) {
            arrives += flux[i] * lower[i] * in.down_from_top.row[i][j] / flux[j];
            r.returned += flux[i] * lower[i] * in.down_from_below.row[i][j] * lower[j] * (dry ? n2 : 1);
        }
        if (j >= kHalf) alone[j] = 1 / echo(direct[j], f.internal[j], dry);
        to_card.scattered[j] = alone[j] * (arrives - ToCard::straight(direct[j], f.internal[j], dry));
        lit += n2 * flux[j] * enters[j] * arrives;
        outside -= n2 * flux[j] * enters[j];
    }
    if (dry) r.returned += outside;

    const Vector normal = weights_at(f, 1), slant = weights_at(f, std::sqrt(0.5));
    const double leaves = 1 - dielectric_reflectance(1.0, f.index);
    const double enters_45 = 1 - dielectric_reflectance(std::sqrt(0.5), f.index);
    const bool even = light == PhotographLight::diffuse;
    for (std::size_t i = kHalf; i < N; ++i)
        for (std::size_t j = kHalf; j < N; ++j) {
            const double scattered = (in.up_from_top.row[i][j] - (i == j ? in.direct[i] : 0)) / flux[j];
            r.over_black += normal[i] * alone[i] * scattered *
                            (even ? flux[j] * enters[j] : slant[j] * alone[j] * enters_45 / n2);
        }
    r.over_black *= leaves * echo_at(f, depth.depth, 1, dry);
    if (!even) r.over_black *= echo_at(f, depth.depth, std::sqrt(0.5), dry);
    r.over_black = std::max(r.over_black, 0.0);
    // What the camera sees of the card is what the card would get from the camera (reciprocity).
    r.through =
        leaves * to_card.at(1) / (dry ? 1 : n2) * (even ? lit : enters_45 * to_card.at(std::sqrt(0.5)));
    return r;
}

}  // namespace rakelight
