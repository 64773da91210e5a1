// Every form of lamp gives the lumens it is said to give, where it is said to give them, from a face of its
// true size.
#include "scene/light/lamp_forms.h"
#include "scene/model/layout.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "scene/light/strip_lobe.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/lamp_samples.h"
#include "tests/support/refusal.h"
#include "tests/support/table_in_manual.h"

namespace rakelight {
namespace {

constexpr double kPi = std::numbers::pi;

void expect_lumens(const Lamp& lamp, const char* what, double expected = 1000) {
    EXPECT_NEAR(flux_of(emitter_of(lamp), 1200, 24), expected, 0.01 * expected) << what;
}

std::string file(const char* opening, double last_vertical) {
    const FileMaker maker{
        .opening = opening, .vertical = angles(0, last_vertical, 5), .horizontal = angles(0, 345, 15)};
    return maker.text([](double v, double h) {
        return 100 * (1 + 0.3 * cos_deg(h)) * std::max(v <= 90 ? cos_deg(v) : 0, 0.0) + (v > 30 ? 5 : 0) +
               (v > 90 ? 20 : 0);
    });
}

// A lamp as a file says it, facing the panel where it faces one way.
Layout lamp_said(const LampFormRule& rule, const std::string& rest) {
    std::string keys;
    if (rule.width.required && rest.find(rule.width.key) == std::string::npos)
        keys += fmt::format(", {}: 900", rule.width.key);
    if (!rule.over_work) keys += ", at: [0, 2600, 1500]";
    if (!rule.over_work && rule.faces_one_way) keys += ", aim: [0, 1450, 0]";
    return read_layout_text(fmt::format("panel: {{size: [600, 400]}}\nfields: [{{name: all, mix: slate}}]\n"
                                        "lamps: [{{name: it, form: {}, lumen: 700{}{}}}]\n",
                                        rule.word, keys, rest),
                            "test.yaml");
}

}  // namespace

TEST(LampForms, ShapeAndSizesAreAsTheTableSays) {
    for (const LampFormRule& rule : lamp_forms()) {
        EXPECT_EQ(&rule_of(rule.form), &rule);
        EXPECT_EQ(rule.by_file, !rule.shape) << rule.word;
        if (rule.by_file) continue;
        const Layout layout =
            lamp_said(rule, rule.height.key.empty()
                                ? fmt::format(", {}: 320", rule.width.key)
                                : fmt::format(", {}: 320, {}: 150", rule.width.key, rule.height.key));
        const Emitter e = emitter_of(layout.on.lamps[0]);
        EXPECT_TRUE(e.shape == rule.shape({160, 75})) << rule.word;
        EXPECT_EQ(is_flat(e), rule.faces_one_way) << rule.word;
        // Round ones have one size, their diameter; the others are a rectangle, or look like one from the
        // side.
        EXPECT_NEAR(luminous_mm2(e), rule.height.key.empty() ? kPi * 160 * 160 : 320 * 150, 1) << rule.word;
        if (!rule.height.key.empty()) continue;
        EXPECT_NE(refusal_of([&] {
                      lamp_said(rule, ", height: 9");
                  }).find(fmt::format("found height of a {}, expected width alone: its diameter", rule.word)),
                  std::string::npos);
    }
}

TEST(LampForms, KeysAreTakenAsTheTableSays) {
    for (const LampFormRule& rule : lamp_forms()) {
        if (rule.by_file) continue;
        const auto good = [&](const std::string& rest) {
            return refusal_of([&] { lamp_said(rule, rest); }).empty();
        };
        EXPECT_TRUE(good("")) << rule.word;
        EXPECT_EQ(good(", beam angle: 30"), rule.takes_beam) << rule.word;
        EXPECT_EQ(good(", beam angle: 30, field angle: 50"), rule.takes_beam) << rule.word;
        EXPECT_EQ(good(", beam angle: 30, faces: [0, 0, 1500]"), rule.is_strip) << rule.word;
        EXPECT_EQ(good(", turn: 90"), rule.faces_one_way) << rule.word;
        EXPECT_EQ(good(", honeycomb: {cell: 6, depth: 12}"), rule.faces_one_way) << rule.word;
        EXPECT_EQ(good(", snoot: {length: 100}"), rule.takes_snoot) << rule.word;
    }
}

TEST(LampForms, TheManualHasTheSameTable) {
    const auto rows = table_in_manual("light", "| `form` | its own keys | what it is |");
    EXPECT_EQ(rows.size(), lamp_form_words().size());
    for (const LampFormRule& rule : lamp_forms()) {
        if (rule.by_file) continue;
        const auto row = rows.find(std::string(rule.word));
        ASSERT_NE(row, rows.end()) << rule.word;
        const auto says = [&](std::string_view key) {
            return row->second[0].find('`' + std::string(key) + '`') != std::string::npos;
        };
        EXPECT_TRUE(says(rule.width.key)) << rule.word;
        EXPECT_TRUE(rule.height.key.empty() || says(rule.height.key)) << rule.word;
        EXPECT_EQ(says("beam angle"), rule.takes_beam) << rule.word;
        EXPECT_EQ(says("field angle"), rule.takes_beam) << rule.word;
        EXPECT_EQ(says("faces"), rule.is_strip) << rule.word;
    }
}

TEST(LampForms, FluxOverTheSphereIsItsLumens) {
    Lamp spot = lamp_of_form(LampForm::spot);
    expect_lumens(spot, "spot");
    spot.field_deg = 50;
    expect_lumens(spot, "spot with a field angle");
    expect_lumens(lamp_of_form(LampForm::bulb), "bulb");
    Lamp panel = lamp_of_form(LampForm::panel);
    panel.height_mm = 20;
    expect_lumens(panel, "panel");
    Lamp lantern = lamp_of_form(LampForm::lantern);
    lantern.width_mm = 250;
    lantern.height_mm = 400;
    expect_lumens(lantern, "lantern");
    for (const LampForm form : {LampForm::strip, LampForm::picture_light}) {
        Lamp strip = lamp_of_form(form);
        strip.width_mm = 900;
        strip.height_mm = 25;
        strip.beam_deg = 0;
        expect_lumens(strip, "matte strip");
        strip.beam_deg = 40;
        expect_lumens(strip, "strip with a beam");
        strip.faces_mm = strip.aim_mm;
        strip.aim_mm = {0, 1000, 0};  // 45 degrees towards the wall
        expect_lumens(strip, "wall-washer");
    }
}

// A lantern of even luminance: pi L times its surface; its candela sideways are L times its side view.
TEST(LampForms, LanternOfEvenLuminance) {
    Lamp lamp = lamp_of_form(LampForm::lantern);
    lamp.width_mm = 200;
    lamp.height_mm = 300;
    const Emitter e = emitter_of(lamp);
    const double surface_m2 = kPi * 0.2 * 0.3 + 2 * kPi * 0.01;
    EXPECT_NEAR(e.peak_cd_per_m2, 1000 / (kPi * surface_m2), 0.01);
    EXPECT_NEAR(candela_toward(e, {1, 0, 0}), e.peak_cd_per_m2 * 0.2 * 0.3, 0.01);
    EXPECT_NEAR(candela_toward(e, {0, 1, 0}), e.peak_cd_per_m2 * kPi * 0.01, 0.01);
}

TEST(LampForms, MeasuredLampsOfEveryOpening) {
    for (const double last : {90.0, 180.0})
        for (const char* opening : {"0 0 0", ".3 .6 0", ".3 .6 .1", "-.2 -.2 0", "-.2 -.3 0", "-.2 -.2 .4",
                                    "-.2 -.2 -.2", "-.03 1.2 -.03", "1.2 -.03 -.03", "-.2 0 -.2"}) {
            Lamp lamp = measured_lamp(file(opening, last));
            const double as_measured = lamp.measured->lumens;
            expect_lumens(lamp, opening, as_measured);
            lamp.lumen = 1000;
            expect_lumens(lamp, opening);
            // The candela of the file, whatever body sends it: luminance is candela over projected area.
            const Emitter e = emitter_of(measured_lamp(file(opening, last)));
            for (const double v : {0.0, 20.0, 45.0, 85.0})
                for (const double h : {0.0, 30.0, 90.0, 200.0}) {
                    const glm::vec3 own(sin_deg(v) * cos_deg(h), sin_deg(v) * sin_deg(h), cos_deg(v));
                    const auto& f = e.optics->frame;
                    const glm::vec3 d = own.x * f[0] + own.y * f[1] + own.z * f[2];
                    const double expected = lamp.measured->intensity.at(own);
                    EXPECT_NEAR(candela_toward(e, d), expected, 1e-3 * expected) << opening << v << ' ' << h;
                }
        }
}

// The luminance of a matte disc of 0.2 m and 100 cd is 100 / (pi 0.01) cd/m2 from everywhere in front.
TEST(LampForms, LuminanceIsCandelaOverArea) {
    const FileMaker maker{.opening = "-.2 -.2 0", .vertical = angles(0, 90, 1), .horizontal = {0}};
    const Emitter e =
        emitter_of(measured_lamp(maker.text([](double v, double) { return 100 * cos_deg(v); })));
    EXPECT_TRUE(std::holds_alternative<DiscShape>(e.shape));
    for (const double v : {0.0, 30.0, 60.0, 80.0})
        EXPECT_NEAR(luminance_cd_per_m2(e, glm::vec3(sin_deg(v), -cos_deg(v), 0), {}), 100 / (kPi * 0.01),
                    0.002 * 100 / (kPi * 0.01))
            << v;
    EXPECT_EQ(luminance_cd_per_m2(e, {0, 1, 0}, {}), 0);
}

// Hung and looking down, C 0 lies along the wall and C 90 away from it; a quarter turn, counter-clockwise as
// seen along the beam, brings it round.
TEST(LampForms, WhereTheSidesOfAMeasuredLampLie) {
    const FileMaker maker{.vertical = angles(0, 90, 10), .horizontal = angles(0, 345, 15)};
    Lamp lamp = measured_lamp(maker.text([](double v, double h) { return v < 90 ? 100 + h : 0; }));
    const auto toward = [&](double x, double z) {
        return candela_toward(emitter_of(lamp), glm::normalize(glm::vec3(x, -1, z)));
    };
    EXPECT_NEAR(toward(-1, 0), 100, 0.5);
    EXPECT_NEAR(toward(0, 1), 190, 0.5);
    EXPECT_NEAR(toward(1, 0), 280, 0.5);
    EXPECT_NEAR(toward(0, -1), 370, 0.5);
    lamp.turn_deg = 90;
    EXPECT_NEAR(toward(0, 1), 100, 0.5);
    // Tilted a little towards the wall it hardly changes.
    lamp.turn_deg = 0;
    lamp.aim_mm = {0, 0, 700};
    EXPECT_NEAR(toward(1, 0), 280, 30);
    EXPECT_NEAR(toward(-1, 0), 100, 30);
}

// A lamp burning on its side gives less: factor 0.7 when its axis is level.
TEST(LampForms, TiltDimsAMeasuredLamp) {
    const FileMaker maker{
        .tilt = "TILT=INCLUDE\n1\n2\n0 90\n1 0.7", .vertical = {0, 45, 90}, .horizontal = {0}};
    Lamp lamp = measured_lamp(maker.text([](double v, double) { return 90 - v; }));
    EXPECT_NEAR(candela_toward(emitter_of(lamp), {0, -1, 0}), 90, 0.01);
    lamp.aim_mm = {0, 2000, 0};
    EXPECT_NEAR(candela_toward(emitter_of(lamp), {0, 0, -1}), 63, 0.01);
}

// Along its length a strip fades as the cosine; across it its beam is 50 % at half the beam angle from where
// it is aimed, on either side, though its opening faces elsewhere.
TEST(LampForms, StripAimedAside) {
    Lamp lamp = lamp_of_form(LampForm::strip);
    lamp.width_mm = 1200;
    lamp.height_mm = 30;
    lamp.beam_deg = 40;
    lamp.candela = 800;
    lamp.faces_mm = lamp.aim_mm;
    lamp.aim_mm = lamp.at_mm + glm::dvec3(0, -cos_deg(30), -sin_deg(30)) * 1000.0;
    EXPECT_NEAR(slant_deg(lamp), 30, 1e-9);
    const Emitter e = emitter_of(lamp);
    EXPECT_NEAR(e.axis.y, -1, 1e-6);
    EXPECT_NEAR(std::abs(e.u.x), 1, 1e-6);
    const auto across = [&](double deg) {
        return candela_toward(e, glm::vec3(0, -cos_deg(deg), -sin_deg(deg)));
    };
    EXPECT_NEAR(across(30), 800, 1);
    EXPECT_NEAR(across(10), 400, 4);
    EXPECT_NEAR(across(50), 400, 4);
    EXPECT_NEAR(across(-90), 0, 1e-3);
    for (const double along : {20.0, 45.0, 70.0}) {
        const glm::vec3 d = glm::vec3(0, -cos_deg(30), -sin_deg(30)) * static_cast<float>(cos_deg(along)) +
                            glm::vec3(sin_deg(along), 0, 0);
        EXPECT_NEAR(candela_toward(e, d), 800 * cos_deg(along), 2) << along;
    }
}

TEST(LampForms, DimmingScales) {
    Lamp lamp = lamp_of_form(LampForm::lantern);
    const double full = candela_toward(emitter_of(lamp), {1, 0, 0});
    lamp.dimming = 0.25;
    EXPECT_NEAR(candela_toward(emitter_of(lamp), {1, 0, 0}), full / 4, 1e-3);
}

}  // namespace rakelight
