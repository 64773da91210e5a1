#include "materials/photograph/light_fit.h"

#include <algorithm>
#include <cmath>

namespace rakelight::light_fit {

namespace {

// What is thought of the light before anything is seen, per width of the chart: it falls off by some tenths,
// and bends less. Common practice, no published source.
constexpr std::array<double, kTerms> kPrior{0.15, 0.15, 0.02, 0.02, 0.02};
// With a white sheet the bending is seen.
constexpr double kBendSeen = 0.1;
constexpr double kSheetNoise = 0.005;  // of a spot on a white sheet

}  // namespace

Terms terms_at(const glm::dvec2& at) {
    Terms t;
    t << at.x, at.y, at.x * at.x, at.x * at.y, at.y * at.y;
    return t;
}

double light_at(const Terms& field, const glm::dvec2& at) {
    return std::exp(field.dot(terms_at(at)));
}

bool usable(const Work& work, std::size_t patch, std::size_t channel) {
    return work.used[patch] && work.in.patches[patch].usable[channel];
}

ToneCurve tone_of(const Work& work, const Terms& field, std::size_t channel) {
    std::vector<GreyPoint> greys;
    double read = 0, sent = 0;
    for (std::size_t i = kFirstGrey; i < kChartPatches; ++i) {
        if (!usable(work, i, channel)) continue;
        const Reading& r = work.in.patches[i];
        greys.push_back({r.value[channel], work.grey_light[channel][i] * light_at(field, r.at)});
        read += greys.back().reading;
        sent += greys.back().light;
    }
    if (work.in.linear) {
        if (!(read > 0)) throw std::invalid_argument("the grey patches are black");
        return ToneCurve(sent / read);
    }
    return ToneCurve(std::move(greys));
}

ChannelFit fit_one(const Work& work, const Terms& field, std::size_t channel, const ToneCurve& tone) {
    std::vector<PatchSignal> seen;
    for (std::size_t i = 0; i < kChartPatches; ++i) {
        if (!usable(work, i, channel)) continue;
        const Reading& r = work.in.patches[i];
        seen.push_back({&work.reflectance[i], tone.light(r.value[channel]) / light_at(field, r.at)});
    }
    return fit_channel(seen);
}

std::vector<double> sheet_logs(const Work& work, const Terms& field, std::size_t channel,
                               const ToneCurve& tone) {
    std::vector<double> logs;
    double sum = 0;
    for (const Reading& r : work.in.white_sheet) {
        if (!r.usable[channel]) continue;
        logs.push_back(std::log(std::max(1e-6, tone.light(r.value[channel]))) - field.dot(terms_at(r.at)));
        sum += logs.back();
    }
    if (logs.size() < 2) return {};
    for (double& each : logs) each -= sum / static_cast<double>(logs.size());
    return logs;
}

namespace {

Terms prior_of(const Work& work) {
    Terms prior;
    for (int i = 0; i < kTerms; ++i)
        prior(i) = i > 1 && work.in.white_sheet.size() > 3 ? kBendSeen : kPrior[static_cast<std::size_t>(i)];
    return prior;
}

Eigen::VectorXd residuals(const Work& work, const Terms& field, const std::vector<std::size_t>& channels) {
    std::vector<double> all;
    for (const std::size_t channel : channels) {
        const ToneCurve tone = tone_of(work, field, channel);
        const ChannelFit fit = fit_one(work, field, channel, tone);
        all.insert(all.end(), fit.misfit.begin(), fit.misfit.end());
        for (const double each : sheet_logs(work, field, channel, tone)) all.push_back(each / kSheetNoise);
    }
    const Terms prior = prior_of(work);
    for (int i = 0; i < kTerms; ++i) all.push_back(field(i) / prior(i));
    return Eigen::Map<Eigen::VectorXd>(all.data(), static_cast<Eigen::Index>(all.size()));
}

}  // namespace

FieldFit fit_light(const Work& work, const std::vector<std::size_t>& channels) {
    constexpr double kStep = 1e-4;
    FieldFit fit;
    Eigen::VectorXd r = residuals(work, fit.field, channels);
    for (int round = 0; round < 12; ++round) {
        Eigen::MatrixXd slope(r.size(), kTerms);
        for (int i = 0; i < kTerms; ++i) {
            Terms moved = fit.field;
            moved(i) += kStep;
            slope.col(i) = (residuals(work, moved, channels) - r) / kStep;
        }
        const Eigen::Matrix<double, kTerms, kTerms> normal = slope.transpose() * slope;
        fit.covariance = normal.inverse();
        const Terms step = -(fit.covariance * (slope.transpose() * r));
        double part = 1;
        Eigen::VectorXd next = r;
        for (; part > 1e-3; part /= 2) {
            next = residuals(work, fit.field + part * step, channels);
            if (next.squaredNorm() <= r.squaredNorm()) break;
        }
        if (part <= 1e-3) break;
        fit.field += part * step;
        const bool still = r.squaredNorm() - next.squaredNorm() < 1e-6 * r.squaredNorm();
        r = std::move(next);
        if (still) break;
    }
    return fit;
}

}  // namespace rakelight::light_fit
