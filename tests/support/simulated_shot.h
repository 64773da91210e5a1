// A chart, a white sheet and samples before the camera of simulated_camera.h, as readings of spots.
#pragma once

#include "materials/photograph/chart_fit.h"
#include "tests/support/simulated_camera.h"

namespace rakelight::test {

struct Shot {
    Sensitivities camera = measured_camera();
    std::string illuminant = "D65";
    PixelMaker pixels;
    double fall = 0.15;  // of the light across a picture of three widths of the chart
    double slant = 0.1;  // of it also down the picture
    bool sheet = true;

    double light(const glm::dvec2& at) const { return 0.85 * (1 - fall * ((at.x + 0.6) / 3 + slant * at.y)); }

    Reading read(const Spectrum& reflectance, const glm::dvec2& at) {
        const auto rgb = camera_sees(camera, *find_illuminant(illuminant), reflectance);
        Reading r;
        r.at = at;
        for (std::size_t c = 0; c < 3; ++c) r.value[c] = pixels.read(light(at) * rgb[c]);
        return r;
    }

    ChartReadings chart() {
        ChartReadings chart;
        chart.linear = !pixels.eight_bits;
        const std::vector<Spectrum> truth = chart_at_5_nm();
        for (std::size_t i = 0; i < kChartPatches; ++i)
            chart.patches[i] = read(truth[i], glm::dvec2(1, 4.0 / 6) * (patch_middle(i) - 0.5));
        if (sheet)
            for (int i = 0; i < 8; ++i) {
                Spectrum paper;
                paper.v.fill(0.8);
                chart.white_sheet.push_back(read(paper, {0.6 + 0.55 * (i % 4), i < 4 ? -0.5 : 0.5}));
            }
        return chart;
    }

    ChartFit fit() { return fit_chart(chart()); }
};

}  // namespace rakelight::test
