#include "materials/photograph/camera_colours.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "materials/colour/tristimulus_weights.h"

namespace rakelight {

namespace {

using Terms = Eigen::Matrix<double, 1, 6>;

Terms terms_of(const CameraRgb& rgb) {
    const auto root = [](double a, double b) { return std::sqrt(std::max(0.0, a) * std::max(0.0, b)); };
    Terms terms;
    terms << rgb[0], rgb[1], rgb[2], root(rgb[0], rgb[1]), root(rgb[1], rgb[2]), root(rgb[2], rgb[0]);
    return terms;
}

}  // namespace

Xyz CameraColours::colour(const CameraRgb& linear) const {
    const Terms terms = terms_of(linear);
    const auto part = [&](std::size_t c) { return terms.dot(Eigen::Map<const Terms>(xyz[c].data())); };
    return {part(0), part(1), part(2)};
}

CameraColours fit_colours(const ChartReadings& readings, const ChartFit& fit, const Spectrum& light) {
    const TristimulusWeights weights = tristimulus_weights(light);
    Eigen::Matrix<double, Eigen::Dynamic, 6> seen(kChartPatches, 6);
    Eigen::Matrix<double, Eigen::Dynamic, 3> is(kChartPatches, 3);
    Eigen::Index row = 0;
    for (std::size_t i = 0; i < kChartPatches; ++i) {
        const auto& usable = readings.patches[i].usable;
        if (!(usable[0] && usable[1] && usable[2]) ||
            std::find(fit.left_out.begin(), fit.left_out.end(), i) != fit.left_out.end())
            continue;
        const SampledSpectrum& reflectance = chart24()[i].reflectance;
        const auto xyz = integrate(weights, reflectance);
        const double weight = patch_weight(reflectance);
        seen.row(row) = weight * terms_of(undone(fit, readings.patches[i]));
        is.row(row) = weight * Eigen::RowVector3d(xyz[0], xyz[1], xyz[2]);
        ++row;
    }
    const Eigen::Matrix<double, 6, 3> by = seen.topRows(row).colPivHouseholderQr().solve(is.topRows(row));
    CameraColours colours;
    for (int c = 0; c < 3; ++c)
        for (int k = 0; k < 6; ++k)
            colours.xyz[static_cast<std::size_t>(c)][static_cast<std::size_t>(k)] = by(k, c);
    return colours;
}

}  // namespace rakelight
