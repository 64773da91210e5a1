#include "materials/stock/measured_pigment.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "materials/optics/kubelka_munk.h"

namespace rakelight {
namespace {

/// A coefficient this far below zero, against the larger of the two, is noise of the instrument.
constexpr double kNoise = 2e-3;

[[noreturn]] void refuse(int band, std::string_view why) {
    throw std::invalid_argument(fmt::format("at {} nm {}", band_wavelength_nm(band), why));
}

}  // namespace

Pigment measured_pigment(std::string name, const Base& base, const Drawdown& tint, const Drawdown& masstone) {
    if (!(tint.share > 0 && tint.share < masstone.share && masstone.share <= 1))
        throw std::invalid_argument(
            "the tint must hold less pigment than the masstone, both above 0 to 100 %");
    Pigment p;
    p.name = std::move(name);
    p.provenance = Provenance::measured;
    p.cement_limit_source = "ASTM C979 and EN 12878";
    p.epoxy_limit_source = "common practice, no published source";
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
            refuse(b, "tint and masstone are alike, so they do not tell scattering from absorption");
        const double s = (r2 - r1) / (q1 - q2);
        const double k = r1 + q1 * s;
        const double noise = -kNoise * std::max(std::abs(k), std::abs(s));
        if (k < noise) refuse(b, fmt::format("the absorption comes out negative ({:.3g} m2/g)", k));
        if (s < noise) refuse(b, fmt::format("the scattering comes out negative ({:.3g} m2/g)", s));
        p.absorption_m2_per_g[b] = static_cast<float>(std::max(0.0, k));
        p.scattering_m2_per_g[b] = static_cast<float>(std::max(0.0, s));
    }
    return p;
}

}  // namespace rakelight
