#include "materials/photograph/reflectance_estimate.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "materials/photograph/chart24.h"

namespace rakelight {

namespace {

using Bands = Eigen::Matrix<double, kBandCount, 1>;
using Square = Eigen::Matrix<double, kBandCount, kBandCount>;

constexpr double kSmooth_nm = 60;  // wavelength over which a reflectance keeps its course
constexpr double kLevel = 2;       // variance of its level, in logits
constexpr double kShape =
    0.5;  // variance of its course: so much makes the ranges told hold the truth as often as told
constexpr double kNoise = 0.01;       // of a channel, relative: camera, chart and band model together
constexpr double kNoiseFloor = 0.01;  // light below which noise shrinks no more
constexpr double kJitter = 1e-5;      // keeps the prior invertible

double reflectance_of(double logit) {
    return 1 / (1 + std::exp(-logit));
}

/// The logits of the chart's patches, in the mean.
Bands prior_mean() {
    Bands mean = Bands::Zero();
    for (const ChartPatch& patch : chart24())
        for (int b = 0; b < kBandCount; ++b) {
            const auto r = static_cast<double>(patch.reflectance[b]);
            mean(b) += std::log(r / (1 - r)) / kChartPatches;
        }
    return mean;
}

Square inverse_prior() {
    Square prior;
    for (int i = 0; i < kBandCount; ++i)
        for (int k = 0; k < kBandCount; ++k) {
            const double apart = (i - k) * kBandStep_nm / kSmooth_nm;
            prior(i, k) = kLevel + kShape * std::exp(-apart * apart / 2) + (i == k ? kJitter : 0);
        }
    return prior.inverse();
}

/// All channels as rows, whitened: noise of standard deviation 1 each.
struct Seen {
    Eigen::MatrixXd bands;
    Eigen::VectorXd values;
};

Seen whitened(std::span<const SeenSample> photographs) {
    Seen all{Eigen::MatrixXd(0, kBandCount), Eigen::VectorXd(0)};
    for (const SeenSample& p : photographs) {
        std::vector<std::size_t> channels;
        for (std::size_t c = 0; c < 3; ++c)
            if (p.usable[c]) channels.push_back(c);
        const auto count = static_cast<Eigen::Index>(channels.size());
        if (count == 0) continue;
        Eigen::MatrixXd noise(count, count), bands(count, kBandCount);
        Eigen::VectorXd values(count);
        for (Eigen::Index i = 0; i < count; ++i) {
            const std::size_t c = channels[static_cast<std::size_t>(i)];
            values(i) = p.value[c];
            for (int b = 0; b < kBandCount; ++b) bands(i, b) = p.camera[c][static_cast<std::size_t>(b)];
            for (Eigen::Index k = 0; k < count; ++k)
                noise(i, k) = p.level_doubt * p.level_doubt * values(i) *
                              p.value[channels[static_cast<std::size_t>(k)]];
            const double own = kNoise * (std::abs(values(i)) + kNoiseFloor);
            noise(i, i) += own * own;
        }
        const Eigen::MatrixXd factor = noise.llt().matrixL();
        const Eigen::Index before = all.values.size();
        all.bands.conservativeResize(before + count, Eigen::NoChange);
        all.values.conservativeResize(before + count);
        all.bands.bottomRows(count) = factor.triangularView<Eigen::Lower>().solve(bands);
        all.values.tail(count) = factor.triangularView<Eigen::Lower>().solve(values);
    }
    if (all.values.size() == 0) throw std::invalid_argument("every channel is clipped");
    return all;
}

struct Posterior {
    Bands logit;
    Square curvature;
};

/// Levenberg and Marquardt from the prior's mean.
Posterior most_probable(const Seen& seen) {
    const Bands mean = prior_mean();
    const Square prior = inverse_prior();
    const auto light = [&](const Bands& z) { return Bands(z.unaryExpr(&reflectance_of)); };
    const auto cost = [&](const Bands& z) {
        return (z - mean).dot(prior * (z - mean)) + (seen.values - seen.bands * light(z)).squaredNorm();
    };
    Bands z = mean;
    double now = cost(z), damping = 1e-3;
    Square curvature = prior;
    for (int round = 0; round < 200; ++round) {
        const Bands r = light(z);
        const Eigen::MatrixXd slope = seen.bands * Bands(r.array() * (1 - r.array())).asDiagonal();
        curvature = slope.transpose() * slope + prior;
        const Bands down = slope.transpose() * (seen.values - seen.bands * r) - prior * (z - mean);
        Square damped = curvature;
        damped.diagonal() *= 1 + damping;
        const Bands next = z + Bands(damped.llt().solve(down));
        const double then = cost(next);
        if (then < now) {
            const bool still = now - then < 1e-9 * (1 + now);
            z = next;
            now = then;
            damping *= 0.3;
            if (still) break;
        } else if ((damping *= 5) > 1e12) {
            break;
        }
    }
    return {z, curvature};
}

}  // namespace

ReflectanceEstimate estimate_reflectance(std::span<const SeenSample> photographs) {
    const Posterior found = most_probable(whitened(photographs));
    const Square covariance = found.curvature.inverse();
    const Square factor = covariance.llt().matrixL();
    ReflectanceEstimate e;
    for (int b = 0; b < kBandCount; ++b) {
        const auto i = static_cast<std::size_t>(b);
        const double r = reflectance_of(found.logit(b));
        e.logit[i] = found.logit(b);
        e.reflectance[b] = static_cast<float>(r);
        e.doubt[b] = static_cast<float>(r * (1 - r) * std::sqrt(covariance(b, b)));
        for (int k = 0; k <= b; ++k) e.spread[i][static_cast<std::size_t>(k)] = factor(b, k);
    }
    return e;
}

SampledSpectrum possible_curve(const ReflectanceEstimate& estimate,
                               const std::array<double, kBandCount>& standard_normal) {
    SampledSpectrum curve;
    for (int b = 0; b < kBandCount; ++b) {
        const auto i = static_cast<std::size_t>(b);
        double z = estimate.logit[i];
        for (std::size_t k = 0; k <= i; ++k) z += estimate.spread[i][k] * standard_normal[k];
        curve[b] = static_cast<float>(reflectance_of(z));
    }
    return curve;
}

}  // namespace rakelight
