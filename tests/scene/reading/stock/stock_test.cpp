#include "scene/reading/stock/stock.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "materials/stock/stock.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/refusal.h"

namespace rakelight {
namespace {

Material read_material(const std::string& entry) {
    const Layout layout = read_layout_text(
        "panel: {size: [600, 450]}\nfields: [{name: all, mix: mine}]\nstock:\n  mine: " + entry + "\n",
        "f.yaml");
    for (const Material& m : layout.stock)
        if (m.name == "mine") return m;
    throw std::logic_error("not in the layout's stock");
}

TEST(ReadStock, LikeKeepsAllThatIsNotChanged) {
    Material expected = *find_stock("deep-teal");
    const Material m = read_material("{like: deep-teal, thickness: 0.2 in, tone spread: 20 %}");
    EXPECT_FLOAT_EQ(m.thickness_mm, 5.08f);
    EXPECT_FLOAT_EQ(m.tone_spread, 0.2f);
    EXPECT_EQ(m.absorption_per_mm, expected.absorption_per_mm);
    EXPECT_EQ(m.scattering_per_mm, expected.scattering_per_mm);
    EXPECT_EQ(m.opaque, expected.opaque);
    EXPECT_EQ(m.index, expected.index);
    EXPECT_EQ(m.provenance, expected.provenance);
}

TEST(ReadStock, SaysWhenItWasMeasuredAndHowSureThatIs) {
    const Material m = read_material(
        "{kind: stone, reflectance: 0.4, provenance: measured from a photograph, measured on: 2026-11-27, "
        "colour range: [1.2, 1.5, 1.4]}");
    EXPECT_EQ(m.provenance, Provenance::photographed);
    EXPECT_EQ(m.measured_on, "2026-11-27");
    EXPECT_EQ(m.colour_range, (std::array<double, 3>{1.2, 1.5, 1.4}));
}

TEST(ReadStock, TransmittanceBecomesNapierianAbsorption) {
    const Material m = read_material(
        "{kind: glass, transmittance at 3 mm: [[400, 0.2], [550, 0.6], [700, 0.3]], milkiness: 0.1}");
    EXPECT_FALSE(m.opaque);
    // Bouguer-Lambert: T = exp(-a d). 560 nm lies a fifteenth of the way from 0.6 to 0.3.
    EXPECT_NEAR(std::exp(-3 * m.absorption_per_mm[0]), 0.2, 1e-6);
    EXPECT_NEAR(std::exp(-3 * m.absorption_per_mm[8]), 0.6 - 0.3 / 15, 1e-6);
    EXPECT_NEAR(std::exp(-3 * m.absorption_per_mm[15]), 0.3, 1e-6);
    EXPECT_FLOAT_EQ(m.scattering_per_mm[7], 0.1f);
}

// Half of GGX lies at tan = alpha sqrt(sqrt 2 - 1), and a place w / 2 aside leans the half vector by
// w / 4 (1 / lamp distance + 1 / camera distance): closed form for a small lamp.
TEST(ReadStock, RoughnessByALampsReflection) {
    const double alpha = 0.1, lean = alpha * std::sqrt(std::sqrt(2.0) - 1);
    const double width = 4 * lean / (1. / 15000 + 1. / 500);
    const Material m = read_material("{like: aqua, glint: {width: " + std::to_string(width) +
                                     ", lamp: 2, lamp distance: 15000, camera distance: 500}}");
    EXPECT_NEAR(m.roughness, alpha, 0.03 * alpha);
    const auto refused = [](const std::string& entry) { return refusal_of([&] { read_material(entry); }); };
    const std::string glint = "glint: {width: 5, lamp: 60, lamp distance: 1500, camera distance: 600}}";
    EXPECT_NE(refused("{like: aqua, " + glint).find("narrower than a mirror would show it"),
              std::string::npos);
    EXPECT_NE(refused("{like: aqua, roughness: 0.1, " + glint).find("found both glint and roughness"),
              std::string::npos);
    EXPECT_NE(refused("{like: slate, index: 1, " + glint).find("without gloss"), std::string::npos);
    EXPECT_NE(refused("{like: aqua, glint: {width: 5, lamp: 60}}").find("lamp distance"), std::string::npos);
}

TEST(ReadStock, MilkinessMayRunOverWavelengths) {
    const Material m =
        read_material("{kind: glass, transmittance at 3 mm: 60 %, milkiness: [[400, 0.4], [700, 0.1]]}");
    EXPECT_FLOAT_EQ(m.scattering_per_mm[0], 0.4f);
    EXPECT_FLOAT_EQ(m.scattering_per_mm[5], 0.3f);  // a third of the way
    EXPECT_FLOAT_EQ(m.scattering_per_mm[15], 0.1f);
}

// A layer that only scatters throws back R = S d / (1 + S d) over black (Kubelka and Munk 1931, in the limit
// without absorption).
TEST(ReadStock, MilkinessInPercentIsWhatASheetOf3MmThrowsBackOverBlack) {
    const auto scattering = [](const std::string& milkiness) {
        return read_material("{kind: glass, transmittance at 3 mm: 60 %, milkiness: " + milkiness + "}")
            .scattering_per_mm[5];
    };
    for (const double percent : {0.0, 10.0, 30.0, 80.0, 98.0}) {
        const double s = scattering(std::to_string(percent) + " %");
        EXPECT_NEAR(3 * s / (1 + 3 * s), percent / 100, 1e-6) << percent;
    }
    EXPECT_FLOAT_EQ(scattering("0.1"), 0.1f);
    const std::string said = refusal_of([&] { scattering("99 %"); });
    EXPECT_NE(said.find("milkiness: found \"99 %\", expected 0 % to 98 %"), std::string::npos) << said;
}

TEST(ReadStock, TransmittanceIsTheSameGlassAtAnyStatedThickness) {
    const Material thin = read_material("{kind: glass, transmittance at 3 mm: 50 %}");
    const Material thick = read_material("{kind: glass, transmittance at 0.6 cm: 25 %}");  // 0.5 squared
    for (int i = 0; i < kBandCount; ++i)
        EXPECT_NEAR(thin.absorption_per_mm[i], thick.absorption_per_mm[i], 1e-7);
}

TEST(ReadStock, ReflectanceIsLinearBetweenPointsAndConstantBeyond) {
    const Material m =
        read_material("{kind: stone, reflectance: [[500, 0.1], [600, 30 %]], density: 2.7, matte: 20}");
    EXPECT_TRUE(m.opaque);
    EXPECT_FLOAT_EQ(m.reflectance[0], 0.1f);
    EXPECT_NEAR(m.reflectance[6], 0.14, 1e-6);  // 520 nm
    EXPECT_FLOAT_EQ(m.reflectance[15], 0.3f);
    EXPECT_FLOAT_EQ(m.density_g_per_cm3, 2.7f);
    EXPECT_FLOAT_EQ(m.matte_deg, 20);
}

TEST(ReadStock, ReflectanceUnderAGlossyFaceIsTakenInside) {
    const Material m = read_material("{kind: glass, reflectance: 0.3, index: 1.5}");
    EXPECT_TRUE(m.opaque);
    // Saunderson 1942 with the diffuse Fresnel reflectances of n = 1.5, 0.0918 outside and 0.5963 inside
    // (Judd 1942): 0.3 = (1 - 0.0918)(1 - 0.5963) R / (1 - 0.5963 R).
    EXPECT_NEAR(m.reflectance[5], 0.3 / ((1 - 0.0918) * (1 - 0.5963) + 0.5963 * 0.3), 2e-4);
    EXPECT_THROW(read_material("{kind: glass, reflectance: 0.95, index: 1.5}"), LayoutError);
    EXPECT_LE(max_value(read_material("{kind: glass, reflectance: 0.905, index: 1.5}").reflectance), 1);
}

TEST(ReadStock, AnEntryMayBuildOnAnEarlierOne) {
    const Layout layout = read_layout_text(
        "panel: {size: [600, 450]}\nfields: [{name: all, mix: {a: 50 %, b: 50 %}}]\n"
        "stock:\n  a: {kind: stone, reflectance: 0.4}\n  b: {like: a, thickness: 7}\n",
        "f.yaml");
    const auto b =
        std::find_if(layout.stock.begin(), layout.stock.end(), [](auto& m) { return m.name == "b"; });
    ASSERT_NE(b, layout.stock.end());
    EXPECT_FLOAT_EQ(b->reflectance[3], 0.4f);
    EXPECT_FLOAT_EQ(b->thickness_mm, 7);
}

TEST(ReadStock, OnlyUsedMaterialsReachTheLayout) {
    const Layout layout = read_layout_text(
        "panel: {size: [600, 450]}\nfields: [{name: all, mix: slate}]\nstock: {spare: {like: slate}}\n",
        "f.yaml");
    for (const Material& m : layout.stock) EXPECT_NE(m.name, "spare");
}

}  // namespace
}  // namespace rakelight
