// The chart in a photograph: what is found of light and tone curve, what is refused and why.
#include "materials/photograph/chart_fit.h"

#include <gtest/gtest.h>

#include "tests/support/simulated_shot.h"

namespace rakelight {
namespace {

using namespace test;

std::string refusal(const ChartReadings& readings) {
    try {
        fit_chart(readings);
    } catch (const ChartRefused& e) {
        return e.what();
    }
    return "accepted";
}

TEST(Chart24, IsThatOfItsSource) {
    const CsvTable table = read_csv(RAKELIGHT_TEST_DATA "/chart24_reflectance.csv");
    ASSERT_EQ(table.rows.size(), kChartPatches);
    for (std::size_t i = 0; i < kChartPatches; ++i) {
        EXPECT_TRUE(table.rows[i][0].starts_with(chart24()[i].name)) << chart24()[i].name;
        const std::vector<double> curve = table.curve(i, "R", 400, 700, 20);
        for (int b = 0; b < kBandCount; ++b)
            EXPECT_FLOAT_EQ(chart24()[i].reflectance[b],
                            static_cast<float>(curve[static_cast<std::size_t>(b)]));
    }
}

TEST(ChartFit, FindsTheFallOfTheLight) {
    for (const bool sheet : {true, false}) {
        Shot shot;
        shot.sheet = sheet;
        const ChartFit fit = shot.fit();
        for (const glm::dvec2 at : {glm::dvec2(2, 0), glm::dvec2(1, -0.4), glm::dvec2(0, 0.4)})
            EXPECT_NEAR(fit.light.light(at), shot.light(at) / shot.light({0, 0}), sheet ? 0.005 : 0.03)
                << at.x << " " << at.y;
        EXPECT_LT(fit.uneven_left, 0.01);
        EXPECT_LT(fit.two_lights, 0.05);
        EXPECT_TRUE(fit.left_out.empty());
        EXPECT_LT(fit.misfit, 0.05);
    }
}

// A white sheet that the light leaves uneven in a way that no smooth fall explains: a shadow on one spot.
TEST(ChartFit, TellsOfAShadow) {
    Shot shot;
    ChartReadings chart = shot.chart();
    for (double& each : chart.white_sheet[2].value) each *= 0.88;
    EXPECT_GT(fit_chart(chart).uneven_left, 0.05);
}

TEST(ChartFit, TellsOfTwoLights) {
    // A warm lamp from one side: red rises, blue falls along the chart by 10 % of its width.
    Shot shot;
    ChartReadings chart = shot.chart();
    for (Reading& r : chart.patches) {
        r.value[0] *= 1 + 0.1 * r.at.x;
        r.value[2] *= 1 - 0.1 * r.at.x;
    }
    EXPECT_GT(fit_chart(chart).two_lights, 0.1);
}

TEST(ChartFit, NamesThePatchWithAHighlight) {
    Shot shot;
    for (const std::size_t patch : {2u, 12u, 17u}) {
        ChartReadings chart = shot.chart();
        for (double& each : chart.patches[patch].value) each += 0.15;
        EXPECT_EQ(fit_chart(chart).left_out, std::vector<std::size_t>{patch}) << chart24()[patch].name;
    }
}

TEST(ChartFit, RefusesAChartThatLiesWrong) {
    Shot shot;
    const ChartReadings chart = shot.chart();
    ChartReadings turned = chart;
    for (std::size_t i = 0; i < kChartPatches; ++i)
        turned.patches[i].value = chart.patches[kChartPatches - 1 - i].value;
    EXPECT_NE(refusal(turned).find("upside down"), std::string::npos) << refusal(turned);
    ChartReadings mirrored = chart;
    for (std::size_t i = 0; i < kChartPatches; ++i)
        mirrored.patches[i].value = chart.patches[i / 6 * 6 + 5 - i % 6].value;
    EXPECT_NE(refusal(mirrored).find("mirrored"), std::string::npos) << refusal(mirrored);
}

TEST(ChartFit, NamesClippedPatches) {
    Shot shot;
    ChartReadings chart = shot.chart();
    for (const std::size_t patch : {15u, 18u, 19u, 11u}) chart.patches[patch].usable[0] = false;
    EXPECT_NE(refusal(chart).find(
                  "overexposed, or too dark: clipped are orange yellow, yellow, white 9.5, neutral 8"),
              std::string::npos)
        << refusal(chart);
    chart = shot.chart();
    chart.patches[18].usable[0] = false;
    EXPECT_EQ(refusal(chart), "accepted");
}

// Two hundred boards of chance colours, half of them with a grey scale in its place, in both kinds of file.
TEST(ChartFit, AcceptsNoOtherBoard) {
    Shot shot;
    Rng rng(7);
    for (int i = 0; i < 200; ++i) {
        ChartReadings chart = shot.chart();
        chart.linear = i % 4 > 1;
        for (std::size_t k = 0; k < (i % 2 ? kChartPatches : kFirstGrey); ++k)
            for (double& each : chart.patches[k].value) each = rng.within(0.03, 0.9);
        EXPECT_NE(refusal(chart), "accepted") << i;
    }
}

}  // namespace
}  // namespace rakelight
