#include "materials/colour/spectrum.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <vector>

namespace rakelight {

namespace {

void require_curve(std::span<const SpectralPoint> points) {
    if (points.empty()) throw std::invalid_argument("a spectrum needs at least one point");
    for (const auto& p : points)
        if (!std::isfinite(p.wavelength_nm) || !std::isfinite(p.value))
            throw std::invalid_argument("a spectrum may hold only finite numbers");
    const auto descends = [](const SpectralPoint& a, const SpectralPoint& b) {
        return b.wavelength_nm <= a.wavelength_nm;
    };
    if (std::adjacent_find(points.begin(), points.end(), descends) != points.end())
        throw std::invalid_argument("the wavelengths of a spectrum must ascend");
}

double secant(const SpectralPoint& a, const SpectralPoint& b) {
    return (b.value - a.value) / (b.wavelength_nm - a.wavelength_nm);
}

// Slopes that keep every piece monotone: Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300, eq. 5
// (a harmonic mean of the secants, weighted for unequal steps). The two ends take the secant's own slope.
std::vector<double> monotone_slopes(std::span<const SpectralPoint> p) {
    std::vector<double> slopes(p.size(), 0.0);
    if (p.size() < 2) return slopes;
    slopes.front() = secant(p[0], p[1]);
    slopes.back() = secant(p[p.size() - 2], p.back());
    for (std::size_t i = 1; i + 1 < p.size(); ++i) {
        const double left = secant(p[i - 1], p[i]);
        const double right = secant(p[i], p[i + 1]);
        if (left * right <= 0) continue;
        const double left_step = p[i].wavelength_nm - p[i - 1].wavelength_nm;
        const double right_step = p[i + 1].wavelength_nm - p[i].wavelength_nm;
        const double weight = (left_step + 2 * right_step) / (3 * (left_step + right_step));
        slopes[i] = left * right / (weight * right + (1 - weight) * left);
    }
    return slopes;
}

class Curve {
  public:
    Curve(std::span<const SpectralPoint> points, Between between, Outside outside)
        : points_(points), outside_(outside) {
        require_curve(points);
        if (between == Between::monotone) slopes_ = monotone_slopes(points);
    }

    double operator()(double nm) const {
        const auto after =
            std::upper_bound(points_.begin(), points_.end(), nm,
                             [](double x, const SpectralPoint& p) { return x < p.wavelength_nm; });
        if (after == points_.begin()) return outside_ == Outside::zero ? 0 : points_.front().value;
        const SpectralPoint& a = *std::prev(after);
        if (a.wavelength_nm == nm) return a.value;
        if (after == points_.end()) return outside_ == Outside::zero ? 0 : a.value;
        const double step = after->wavelength_nm - a.wavelength_nm;
        const double t = (nm - a.wavelength_nm) / step;
        if (slopes_.empty()) return std::lerp(a.value, after->value, t);
        const auto i = static_cast<std::size_t>(after - points_.begin());
        const double s = 1 - t;
        return s * s * ((1 + 2 * t) * a.value + t * step * slopes_[i - 1]) +
               t * t * ((1 + 2 * s) * after->value - s * step * slopes_[i]);
    }

  private:
    std::span<const SpectralPoint> points_;
    std::vector<double> slopes_;
    Outside outside_;
};

}  // namespace

Spectrum spectrum_from_points(std::span<const SpectralPoint> points, Between between, Outside outside) {
    const Curve curve(points, between, outside);
    Spectrum spectrum;
    for (int i = 0; i < kSpectrumCount; ++i) spectrum[i] = curve(spectrum_wavelength_nm(i));
    return spectrum;
}

Spectrum spectrum_from_table(double first_nm, double step_nm, std::span<const double> values, Between between,
                             Outside outside) {
    std::vector<SpectralPoint> points;
    points.reserve(values.size());
    for (const double value : values)
        points.push_back({first_nm + step_nm * static_cast<double>(points.size()), value});
    return spectrum_from_points(points, between, outside);
}

SampledSpectrum to_bands(const Spectrum& spectrum) {
    constexpr int kFirst = (kFirstBand_nm - kSpectrumFirst_nm) / kSpectrumStep_nm;
    constexpr int kStride = kBandStep_nm / kSpectrumStep_nm;
    SampledSpectrum bands;
    for (int b = 0; b < kBandCount; ++b) bands[b] = static_cast<float>(spectrum[kFirst + kStride * b]);
    return bands;
}

SampledSpectrum bands_from_points(std::span<const SpectralPoint> points, Between between) {
    const Curve curve(points, between, Outside::end_value);
    SampledSpectrum bands;
    for (int b = 0; b < kBandCount; ++b) bands[b] = static_cast<float>(curve(band_wavelength_nm(b)));
    return bands;
}

SampledSpectrum bands_from_points(std::initializer_list<SpectralPoint> points, Between between) {
    return bands_from_points(std::span(points.begin(), points.size()), between);
}

}  // namespace rakelight
