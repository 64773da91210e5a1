#include "materials/colour/tristimulus_weights.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "materials/colour/observer.h"

namespace rakelight {

namespace {

using BandRow = std::array<double, kBandCount>;

// Share of each band node in the reflectance at a wavelength: the Lagrange basis on the nodes around it.
BandRow node_shares(int nm) {
    constexpr int kLast = kBandCount - 1;
    BandRow shares{};
    if (nm <= kFirstBand_nm || nm >= band_wavelength_nm(kLast)) {
        shares[nm <= kFirstBand_nm ? 0 : kLast] = 1;
        return shares;
    }
    const int left = (nm - kFirstBand_nm) / kBandStep_nm;
    const int first = std::max(left - 1, 0);
    const int last = std::min(left + 2, kLast);
    for (int j = first; j <= last; ++j) {
        double share = 1;
        for (int k = first; k <= last; ++k)
            if (k != j)
                share *= static_cast<double>(nm - band_wavelength_nm(k)) /
                         (band_wavelength_nm(j) - band_wavelength_nm(k));
        shares[static_cast<std::size_t>(j)] = share;
    }
    return shares;
}

void add(BandRow& row, const BandRow& shares, double power) {
    for (std::size_t b = 0; b < row.size(); ++b) row[b] += power * shares[b];
}

SampledSpectrum scaled(const BandRow& row, double factor) {
    SampledSpectrum bands;
    for (std::size_t b = 0; b < row.size(); ++b) bands.v[b] = static_cast<float>(row[b] * factor);
    return bands;
}

// Rounding to float must not cost the perfect reflector its Y of 1: the largest weight takes up what is
// missing.
void close_to_one(SampledSpectrum& y) {
    double total = 0;
    for (const float w : y.v) total += w;
    *std::max_element(y.v.begin(), y.v.end()) += static_cast<float>(1 - total);
}

}  // namespace

TristimulusWeights tristimulus_weights(const Spectrum& lamp) {
    BandRow x{}, y{}, z{};
    double luminous = 0;
    for (int i = 0; i < kSpectrumCount; ++i) {
        if (!std::isfinite(lamp[i]) || lamp[i] < 0)
            throw std::invalid_argument("a lamp's spectral power must be finite and not negative");
        const BandRow shares = node_shares(spectrum_wavelength_nm(i));
        add(x, shares, lamp[i] * kObserver1931.x_bar[i]);
        add(y, shares, lamp[i] * kObserver1931.y_bar[i]);
        add(z, shares, lamp[i] * kObserver1931.z_bar[i]);
        luminous += lamp[i] * kObserver1931.y_bar[i];
    }
    if (!(luminous > 0)) throw std::invalid_argument("a lamp must give some light between 380 and 780 nm");
    TristimulusWeights weights{scaled(x, 1 / luminous), scaled(y, 1 / luminous), scaled(z, 1 / luminous)};
    close_to_one(weights.y);
    return weights;
}

}  // namespace rakelight
