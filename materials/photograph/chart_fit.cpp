#include "materials/photograph/chart_fit.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "materials/photograph/light_fit.h"

namespace rakelight {

using namespace light_fit;

namespace {

constexpr double kRefuse = 0.2;    // misfit of a chart that is none; true ones stay under 0.06
constexpr double kOutlier = 0.12;  // a patch that disagrees by more,
constexpr double kFar = 6;         // and by so many times more than half of them do, is left out
constexpr std::size_t kMostLeftOut = 3;

/// The greys as each channel sees them: nearly, not quite, neutral. In one scale for all.
void set_grey_light(Work& work, const CameraBands& camera) {
    for (std::size_t c = 0; c < 3; ++c) {
        double seen = 0, plain = 0;
        for (std::size_t i = kFirstGrey; i < kChartPatches; ++i) {
            work.grey_light[c][i] = seen_by(camera[c], work.reflectance[i]);
            seen += work.grey_light[c][i];
            plain += static_cast<double>(mean(work.reflectance[i]));
        }
        for (double& each : work.grey_light[c]) each *= plain / seen;
    }
}

CameraBands evenly_seeing() {
    CameraBands camera;
    for (ChannelBands& channel : camera) channel.fill(1.0 / kBandCount);
    return camera;
}

std::array<ChannelFit, 3> fit_channels(const Work& work, const Terms& field) {
    std::array<ChannelFit, 3> fits;
    for (std::size_t c = 0; c < 3; ++c) fits[c] = fit_one(work, field, c, tone_of(work, field, c));
    return fits;
}

/// Root mean square over channels of each patch against the fit to the others.
std::array<double, kChartPatches> off_of(const Work& work, const std::array<ChannelFit, 3>& fits) {
    std::array<double, kChartPatches> off{};
    for (std::size_t c = 0; c < 3; ++c) {
        std::size_t k = 0;
        for (std::size_t i = 0; i < kChartPatches; ++i) {
            if (!usable(work, i, c)) continue;
            off[i] += fits[c].left_out[k] * fits[c].left_out[k] / 3;
            ++k;
        }
    }
    for (double& each : off) each = std::sqrt(each);
    return off;
}

double rms(const std::array<double, kChartPatches>& off) {
    double sum = 0;
    for (const double each : off) sum += each * each;
    return std::sqrt(sum / static_cast<double>(off.size()));
}

double middle(std::array<double, kChartPatches> off) {
    std::nth_element(off.begin(), off.begin() + kChartPatches / 2, off.end());
    return off[kChartPatches / 2];
}

/// How well the readings would be a chart under an even light.
double misfit_as_it_lies(const ChartReadings& readings) {
    Work work{readings, {}, {}};
    work.used.fill(true);
    for (std::size_t i = 0; i < kChartPatches; ++i) work.reflectance[i] = chart24()[i].reflectance;
    set_grey_light(work, evenly_seeing());
    try {
        return rms(off_of(work, fit_channels(work, Terms::Zero())));
    } catch (const std::invalid_argument&) {
        return 1e9;
    }
}

/// The chart as if it had been read from another corner.
ChartReadings turned(const ChartReadings& readings, bool across, bool down) {
    ChartReadings r = readings;
    for (std::size_t i = 0; i < kChartPatches; ++i) {
        std::size_t row = i / kChartColumns, column = i % kChartColumns;
        if (across) column = kChartColumns - 1 - column;
        if (down) row = kChartRows - 1 - row;
        r.patches[i] = readings.patches[row * kChartColumns + column];
    }
    return r;
}

void refuse_turned(const ChartReadings& readings) {
    const double straight = misfit_as_it_lies(readings);
    if (straight < kRefuse) return;
    const auto better = [&](bool across, bool down) {
        return misfit_as_it_lies(turned(readings, across, down)) < kRefuse;
    };
    if (better(true, true))
        throw ChartRefused(
            "the chart lies upside down: its first corner is that of dark skin, its third that "
            "of black");
    if (better(true, false) || better(false, true))
        throw ChartRefused(
            "the chart is mirrored: its corners go round from dark skin to bluish green, black "
            "and white");
}

std::string names_of(const std::vector<std::size_t>& patches) {
    std::string names;
    for (const std::size_t i : patches) {
        if (!names.empty()) names += ", ";
        names += chart24()[i].name;
    }
    return names;
}

void refuse_clipped(const ChartReadings& readings) {
    std::vector<std::size_t> clipped;
    for (std::size_t i = 0; i < kChartPatches; ++i) {
        const auto& u = readings.patches[i].usable;
        if (!(u[0] && u[1] && u[2])) clipped.push_back(i);
    }
    if (clipped.size() > kMostLeftOut)
        throw ChartRefused("the chart is overexposed, or too dark: clipped are " + names_of(clipped));
}

/// Fits light and channels, leaving out patches that disagree with all others.
std::array<ChannelFit, 3> fit_all(Work& work, FieldFit& light, std::vector<std::size_t>& left_out) {
    const std::vector<std::size_t> all{0, 1, 2};
    CameraBands camera = evenly_seeing();
    std::array<ChannelFit, 3> fits;
    for (int round = 0; round < 8; ++round) {
        set_grey_light(work, camera);
        light = fit_light(work, all);
        fits = fit_channels(work, light.field);
        for (std::size_t c = 0; c < 3; ++c) camera[c] = fits[c].bands;
        if (round < 2) continue;  // the greys are not yet known well
        const std::array<double, kChartPatches> off = off_of(work, fits);
        const auto worst = static_cast<std::size_t>(std::max_element(off.begin(), off.end()) - off.begin());
        if (off[worst] < kOutlier || off[worst] < kFar * middle(off)) break;
        left_out.push_back(worst);
        if (left_out.size() > kMostLeftOut) break;
        work.used[worst] = false;
    }
    return fits;
}

/// Largest difference between channels of what they think of the light, across the chart and over the sheet.
double colour_change(const Work& work, const FieldFit& light) {
    double most = 0;
    std::array<std::vector<double>, 3> logs;
    for (std::size_t c = 0; c < 3; ++c)
        logs[c] = sheet_logs(work, light.field, c, tone_of(work, light.field, c));
    if (!logs[0].empty() && logs[0].size() == logs[1].size() && logs[1].size() == logs[2].size())
        for (std::size_t i = 0; i < logs[0].size(); ++i)
            for (std::size_t c = 0; c < 3; ++c)
                most = std::max(most, std::abs(logs[c][i] - logs[(c + 1) % 3][i]));
    // Across the chart: the slope of what is left of each channel, over the places of its patches.
    std::array<glm::dvec2, 3> slope{};
    for (std::size_t c = 0; c < 3; ++c) {
        const FieldFit own = fit_light(work, {c});
        slope[c] = {own.field(0), own.field(1)};
    }
    for (std::size_t c = 0; c < 3; ++c) {
        const glm::dvec2 apart = slope[c] - slope[(c + 1) % 3];
        most = std::max(most, std::abs(apart.x) + std::abs(apart.y) * kChartRows / kChartColumns);
    }
    return most;
}

}  // namespace

double LightField::light(const glm::dvec2& at) const {
    return light_at(Eigen::Map<const Terms>(terms.data()), at);
}

double LightField::doubt(const glm::dvec2& at) const {
    const Terms t = terms_at(at);
    double sum = 0;
    for (int i = 0; i < kTerms; ++i)
        for (int k = 0; k < kTerms; ++k)
            sum += t(i) * t(k) * covariance[static_cast<std::size_t>(i)][static_cast<std::size_t>(k)];
    return std::sqrt(std::max(0.0, sum));
}

ChartFit fit_chart(const ChartReadings& readings) try {
    refuse_clipped(readings);
    refuse_turned(readings);
    Work work{readings, {}, {}};
    work.used.fill(true);
    for (std::size_t i = 0; i < kChartPatches; ++i) work.reflectance[i] = chart24()[i].reflectance;
    ChartFit fit;
    FieldFit light;
    const std::array<ChannelFit, 3> fits = fit_all(work, light, fit.left_out);
    fit.off = off_of(work, fits);
    fit.misfit = rms(fit.off);
    if (fit.misfit > kRefuse || fit.left_out.size() > kMostLeftOut)
        throw ChartRefused(
            fmt::format("the patches have not the colours of the chart: they are {:.0f} % off, as {}",
                        100 * fit.misfit, names_of(fit.left_out)));
    for (int i = 0; i < kTerms; ++i) {
        fit.light.terms[static_cast<std::size_t>(i)] = light.field(i);
        for (int k = 0; k < kTerms; ++k)
            fit.light.covariance[static_cast<std::size_t>(i)][static_cast<std::size_t>(k)] =
                light.covariance(i, k);
    }
    for (std::size_t c = 0; c < 3; ++c) {
        fit.tone[c] = tone_of(work, light.field, c);
        fit.camera[c] = fits[c].bands;
        for (const double each : sheet_logs(work, light.field, c, fit.tone[c]))
            fit.uneven_left = std::max(fit.uneven_left, std::abs(each));
    }
    fit.two_lights = colour_change(work, light);
    return fit;
} catch (const std::invalid_argument& e) {
    throw ChartRefused(e.what());
}

CameraRgb undone(const ChartFit& fit, const Reading& reading) {
    CameraRgb r{};
    const double light = fit.light.light(reading.at);
    for (std::size_t c = 0; c < 3; ++c) r[c] = fit.tone[c].light(reading.value[c]) / light;
    return r;
}

}  // namespace rakelight
