#include "materials/photograph/camera_bands.h"

#include <Eigen/Dense>
#include <cmath>

namespace rakelight {

namespace {

constexpr double kChartNoise = 0.007;  // of a patch against its publication, relative
constexpr double kSmooth_nm = 40;      // wavelength over which sensitivity times light keeps its course
constexpr double kSpread = 2.0 / kBandCount;

Eigen::Matrix<double, kBandCount, kBandCount> smooth_prior() {
    Eigen::Matrix<double, kBandCount, kBandCount> prior;
    for (int i = 0; i < kBandCount; ++i)
        for (int k = 0; k < kBandCount; ++k) {
            const double apart = (i - k) * kBandStep_nm / kSmooth_nm;
            prior(i, k) = kSpread * kSpread * std::exp(-apart * apart / 2);
        }
    return prior;
}

}  // namespace

double seen_by(const ChannelBands& channel, const SampledSpectrum& reflectance) {
    double sum = 0;
    for (int b = 0; b < kBandCount; ++b)
        sum += channel[static_cast<std::size_t>(b)] * static_cast<double>(reflectance[b]);
    return sum;
}

double patch_weight(const SampledSpectrum& reflectance) {
    return 1 / (static_cast<double>(mean(reflectance)) + 0.02);
}

ChannelFit fit_channel(std::span<const PatchSignal> patches) {
    const auto count = static_cast<Eigen::Index>(patches.size());
    Eigen::MatrixXd known(count, kBandCount);
    Eigen::VectorXd values(count);
    for (Eigen::Index i = 0; i < count; ++i) {
        const PatchSignal& p = patches[static_cast<std::size_t>(i)];
        const double weight = patch_weight(*p.reflectance);
        for (int b = 0; b < kBandCount; ++b) known(i, b) = weight * static_cast<double>((*p.reflectance)[b]);
        values(i) = weight * p.value;
    }
    const Eigen::MatrixXd prior = smooth_prior();
    const Eigen::MatrixXd covariance = known * prior * known.transpose() +
                                       kChartNoise * kChartNoise * Eigen::MatrixXd::Identity(count, count);
    const Eigen::LLT<Eigen::MatrixXd> solver(covariance);
    const Eigen::VectorXd pull = solver.solve(values);
    const Eigen::VectorXd bands = prior * known.transpose() * pull;
    const Eigen::VectorXd white = solver.matrixL().solve(values);
    const Eigen::MatrixXd inverse = solver.solve(Eigen::MatrixXd::Identity(count, count));
    ChannelFit fit;
    for (int b = 0; b < kBandCount; ++b) fit.bands[static_cast<std::size_t>(b)] = bands(b);
    for (Eigen::Index i = 0; i < count; ++i) {
        fit.misfit.push_back(white(i));
        fit.left_out.push_back(pull(i) / inverse(i, i));  // Rasmussen and Williams 2006, equation 5.12
    }
    return fit;
}

}  // namespace rakelight
