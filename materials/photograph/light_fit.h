// The light in a photograph of the chart, found by least squares: what makes coloured patches and white sheet
// agree once the greys have given the tone curve. Inside chart_fit.cpp's work.
#pragma once

#include <Eigen/Dense>
#include <vector>

#include "materials/photograph/chart_fit.h"

namespace rakelight::light_fit {

inline constexpr int kTerms = 5;
using Terms = Eigen::Matrix<double, kTerms, 1>;  ///< as LightField::terms

/// x, y, x^2, xy, y^2.
Terms terms_at(const glm::dvec2& at);
/// Relative to the chart's middle.
double light_at(const Terms& field, const glm::dvec2& at);

/// A chart while it is being fitted.
struct Work {
    const ChartReadings& in;
    std::array<bool, kChartPatches> used;
    std::array<SampledSpectrum, kChartPatches> reflectance;
    std::array<std::array<double, kChartPatches>, 3> grey_light{};  // of the channel, without the light field
};

/// Whether a patch is used, and not clipped in this channel.
bool usable(const Work& work, std::size_t patch, std::size_t channel);

/// The tone curve of a channel under this light. \throws std::invalid_argument as ToneCurve.
ToneCurve tone_of(const Work& work, const Terms& field, std::size_t channel);

/// What a channel sees of the bands under this light.
ChannelFit fit_one(const Work& work, const Terms& field, std::size_t channel, const ToneCurve& tone);

/// Logarithms of the white sheet's light in a channel, less their mean; empty when fewer than two are usable.
std::vector<double> sheet_logs(const Work& work, const Terms& field, std::size_t channel,
                               const ToneCurve& tone);

struct FieldFit {
    Terms field = Terms::Zero();
    Eigen::Matrix<double, kTerms, kTerms> covariance = Eigen::Matrix<double, kTerms, kTerms>::Zero();
};

/// Least squares by Gauss and Newton, steps halved until they lead down.
FieldFit fit_light(const Work& work, const std::vector<std::size_t>& channels);

}  // namespace rakelight::light_fit
