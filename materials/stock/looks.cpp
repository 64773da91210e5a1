#include "materials/stock/looks.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "materials/colour/ciede2000.h"
#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/optics/kubelka_munk.h"
#include "materials/stock/face_on.h"

namespace rakelight {
namespace {

constexpr std::size_t kBands = kBandCount;
using Curve = std::array<double, kBands>;
using Rows = std::array<Curve, kBands>;
using Three = std::array<double, 3>;

constexpr double kLeastAbsorption_per_mm = 1e-5, kMostAbsorption_per_mm = 20;
constexpr double kLeastRatio = 1e-5, kMostRatio = 300;  // of K/S
constexpr double kFloor = 2e-3;  // of either, where the family member has none to make more of

/// The price of a change: a little for its size, more for its slope and most for its bends.
Rows price() {
    constexpr double kSize = 0.03, kSlope = 0.3, kBend = 3;
    Rows q{};
    for (std::size_t i = 0; i < kBands; ++i) q[i][i] += kSize;
    const auto add = [&](std::size_t at, std::initializer_list<double> difference, double weight) {
        for (std::size_t i = 0; i < difference.size(); ++i)
            for (std::size_t j = 0; j < difference.size(); ++j)
                q[at + i][at + j] += weight * difference.begin()[i] * difference.begin()[j];
    };
    for (std::size_t i = 0; i + 1 < kBands; ++i) add(i, {-1, 1}, kSlope);
    for (std::size_t i = 0; i + 2 < kBands; ++i) add(i, {1, -2, 1}, kBend);
    return q;
}

/// Solves a x = b for symmetric positive definite `a` by elimination.
template <std::size_t n>
std::array<double, n> solve(std::array<std::array<double, n>, n> a, std::array<double, n> b) {
    for (std::size_t k = 0; k < n; ++k)
        for (std::size_t i = k + 1; i < n; ++i) {
            const double f = a[i][k] / a[k][k];
            for (std::size_t j = k; j < n; ++j) a[i][j] -= f * a[k][j];
            b[i] -= f * b[k];
        }
    for (std::size_t k = n; k-- > 0;) {
        for (std::size_t j = k + 1; j < n; ++j) b[k] -= a[k][j] * b[j];
        b[k] /= a[k][k];
    }
    return b;
}

class Search {
  public:
    Search(const Material& like, const WantedLook& look) : material_(like), look_(look) {
        weights_ = tristimulus_weights(*find_illuminant("D65"));
        white_ = xyz(SampledSpectrum(1));
        for (std::size_t b = 0; b < kBands; ++b) {
            const double own = like.opaque ? k_over_s(std::clamp(like.reflectance.v[b], 1e-3f, 0.999f))
                                           : static_cast<double>(like.absorption_per_mm.v[b]);
            start_[b] = std::log(std::max(own, kFloor));
        }
    }

    Looking run() {
        Curve change{}, best = change;
        double least = INFINITY, hold = 1e-6;
        for (int i = 0; i < 60 && least > 1e-3; ++i) {
            const SampledSpectrum seen = seen_with(change);
            const double off = ciede2000(lab(seen), look_.lab);
            if (off < least) {
                least = off, best = change, hold = std::max(hold / 4, 1e-6);
            } else {
                change = best;
                hold *= 10;  // a shorter step from the best
                if (hold > 1e7) break;
            }
            change = step(change, hold);
        }
        Looking r{with(best), {}, 0};
        r.lab = lab(seen_with(best));
        r.delta_e = ciede2000(r.lab, look_.lab);
        r.material.provenance = Provenance::guessed;
        return r;
    }

  private:
    Xyz xyz(const SampledSpectrum& s) const {
        const auto v = integrate(weights_, s);
        return {v[0], v[1], v[2]};
    }
    Lab lab(const SampledSpectrum& s) const { return xyz_to_lab(xyz(s), white_); }

    double limited(std::size_t b, double change) const {
        const double low = material_.opaque ? kLeastRatio : kLeastAbsorption_per_mm;
        const double high = material_.opaque ? kMostRatio : kMostAbsorption_per_mm;
        return std::clamp(change, std::log(low) - start_[b], std::log(high) - start_[b]);
    }

    Material with(const Curve& change) const {
        Material m = material_;
        for (std::size_t b = 0; b < kBands; ++b) {
            const double value = std::exp(start_[b] + change[b]);
            if (m.opaque)
                m.reflectance.v[b] = static_cast<float>(endless_reflectance(value));
            else
                m.absorption_per_mm.v[b] = static_cast<float>(value);
        }
        return m;
    }

    SampledSpectrum seen_with(const Curve& change) {
        return face_on_reflectance(with(change), look_.thickness_mm, look_.behind, 1, faces_);
    }

    /// The cheapest change whose colour is right to first order, held back by `hold` where the colour cannot
    /// be had: change = Q^-1 J' (J Q^-1 J' + hold)^-1 (wanted - seen + J change).
    Curve step(const Curve& change, double hold);

    Material material_;
    WantedLook look_;
    TristimulusWeights weights_;
    Xyz white_;
    Curve start_{};
    Rows price_ = price();
    InterfaceTables faces_;
};

Curve Search::step(const Curve& change, double hold) {
    constexpr double kStep = 1e-2;
    Curve up = change;
    for (double& x : up) x += kStep;
    const SampledSpectrum here = seen_with(change), more = seen_with(up);  // each band hangs on itself alone
    const Lab now = lab(here);
    std::array<Curve, 3> slope{}, cheap{};
    for (int b = 0; b < kBandCount; ++b) {
        const auto i = static_cast<std::size_t>(b);
        constexpr float kLight = 1e-3f;
        SampledSpectrum lit = here;
        lit[b] += kLight;
        const Lab with_it = lab(lit);
        const double per = (more[b] - here[b]) / kStep / kLight;
        const bool stuck = limited(i, change[i]) != change[i];
        if (stuck) continue;
        slope[0][i] = (with_it.l - now.l) * per;
        slope[1][i] = (with_it.a - now.a) * per;
        slope[2][i] = (with_it.b - now.b) * per;
    }
    Three right{look_.lab.l - now.l, look_.lab.a - now.a, look_.lab.b - now.b};
    std::array<Three, 3> system{};
    for (std::size_t i = 0; i < 3; ++i) {
        cheap[i] = solve(price_, slope[i]);
        for (std::size_t b = 0; b < kBands; ++b) right[i] += slope[i][b] * change[b];
    }
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t j = 0; j < 3; ++j)
            for (std::size_t b = 0; b < kBands; ++b) system[i][j] += slope[i][b] * cheap[j][b];
        system[i][i] += hold + 1e-12;
    }
    const Three pull = solve(system, right);
    Curve next{};
    for (std::size_t b = 0; b < kBands; ++b) {
        for (std::size_t i = 0; i < 3; ++i) next[b] += cheap[i][b] * pull[i];
        next[b] = limited(b, change[b] + std::clamp(next[b] - change[b], -1.5, 1.5));
    }
    return next;
}

}  // namespace

Looking looking_like(const Material& like, const WantedLook& look) {
    if (!like.sheets.empty() || like.backed)
        throw std::invalid_argument("a stack of several layers has no one curve to change");
    if (like.leaf != Leaf::none) throw std::invalid_argument("metal leaf has a colour of its own");
    return Search(like, look).run();
}

}  // namespace rakelight
