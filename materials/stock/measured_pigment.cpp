#include "materials/stock/measured_pigment.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "materials/maths/hash.h"
#include "materials/optics/kubelka_munk.h"

namespace rakelight {
namespace {

/// A coefficient this far below zero, against the larger of the two, is noise of the instrument, or of an
/// uncertain curve.
constexpr double kNoise = 2e-3, kNoiseOfUncertain = 0.3;

[[noreturn]] void refuse(int band, std::string_view why) {
    throw std::invalid_argument(fmt::format("at {} nm {}", band_wavelength_nm(band), why));
}

bool uncertain(const Drawdown& d) {
    return max_value(d.error) > 0;
}

/// K and S by the two drawdowns.
PigmentDraw solved(const Base& base, const Drawdown& tint, const Drawdown& masstone) {
    PigmentDraw p;
    const double allowed = uncertain(tint) || uncertain(masstone) ? kNoiseOfUncertain : kNoise;
    const double per_gram = 1000 * base.weighed_g_per_cm3 * base.binder_share;
    for (int b = 0; b < kBandCount; ++b) {
        const auto ratio = [&](const Drawdown& d) {
            if (!(d.seen[b] > 0 && d.seen[b] < 1)) refuse(b, "the reflectance is not between 0 and 1");
            const double inner = inner_from_seen(d.seen[b], base.index);
            if (!(inner < 1)) refuse(b, "the reflectance is more than a face lets out");
            return k_over_s(inner);
        };
        // (K0 + c k) = q (S0 + c s) for both: k - q s = (q S0 - K0) / c.
        const double q1 = ratio(tint), q2 = ratio(masstone);
        const double k0 = base.absorption_per_mm[b], s0 = base.scattering_per_mm[b];
        const double r1 = (q1 * s0 - k0) / (per_gram * tint.share);
        const double r2 = (q2 * s0 - k0) / (per_gram * masstone.share);
        if (std::abs(q2 - q1) <= 1e-6 * std::max(q1, q2))
            refuse(
                b,
                "the weak and the strong drawdown are alike, so they do not tell scattering from absorption");
        const double s = (r2 - r1) / (q1 - q2);
        const double k = r1 + q1 * s;
        const double noise = -allowed * std::max(std::abs(k), std::abs(s));
        if (k < noise) refuse(b, fmt::format("the absorption comes out negative ({:.3g} m2/g)", k));
        if (s < noise) refuse(b, fmt::format("the scattering comes out negative ({:.3g} m2/g)", s));
        p.absorption_m2_per_g[b] = static_cast<float>(std::max(0.0, k));
        p.scattering_m2_per_g[b] = static_cast<float>(std::max(0.0, s));
    }
    return p;
}

/// The drawdown with an error that runs smoothly over the bands.
Drawdown disturbed(Drawdown d, Rng& rng) {
    constexpr int kReach = 3;  // bands, 60 nm
    std::array<double, kBandCount + 2 * kReach> noise{};
    for (double& n : noise) n = rng.spread();
    for (int b = 0; b < kBandCount; ++b) {
        double sum = 0, squares = 0;
        for (int i = -kReach; i <= kReach; ++i) {
            const double weight = std::exp(-0.5 * i * i / 2.25);
            sum += weight * noise[static_cast<std::size_t>(b + i + kReach)];
            squares += weight * weight;
        }
        const double seen = static_cast<double>(d.seen[b]) + sum / std::sqrt(squares) * d.error[b];
        d.seen[b] = static_cast<float>(std::clamp(seen, 1e-3, 0.98));
    }
    return d;
}

std::vector<PigmentDraw> drawn(const std::string& name, const Base& base, const Drawdown& tint,
                               const Drawdown& masstone) {
    std::vector<PigmentDraw> draws;
    Rng rng(hash_text(name));
    for (int tries = 0; tries < 8 * kPigmentDraws && std::ssize(draws) < kPigmentDraws; ++tries) {
        const Drawdown weak = disturbed(tint, rng), strong = disturbed(masstone, rng);
        try {
            draws.push_back(solved(base, weak, strong));
        } catch (const std::invalid_argument&) {
            // No pigment makes these two: the true curves are others.
        }
    }
    return draws;
}

}  // namespace

Pigment measured_pigment(std::string name, const Base& base, const Drawdown& tint, const Drawdown& masstone) {
    if (!(tint.share > 0 && tint.share < masstone.share && masstone.share <= 1))
        throw std::invalid_argument(
            "the weak drawdown must hold less pigment than the strong one, both above 0 to 100 %");
    Pigment p;
    p.name = std::move(name);
    p.provenance = Provenance::measured;
    p.cement_limit_source = "ASTM C979 and EN 12878";
    p.epoxy_limit_source = "common practice, no published source";
    const PigmentDraw both = solved(base, tint, masstone);
    p.absorption_m2_per_g = both.absorption_m2_per_g;
    p.scattering_m2_per_g = both.scattering_m2_per_g;
    if (uncertain(tint) || uncertain(masstone)) p.draws = drawn(p.name, base, tint, masstone);
    return p;
}

}  // namespace rakelight
