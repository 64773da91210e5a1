// Light all round as it is written and refused.
#include <OpenImageIO/imageio.h>
#include <gtest/gtest.h>

#include "scene/light/surround_emitters.h"
#include "scene/light/with_light.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/reading/summary.h"
#include "tests/support/refusal.h"
#include "tests/support/surround_samples.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

constexpr const char* kHead = "panel: {size: [600, 450]}\nfields: [{name: all, mix: slate}]\n";

class ReadAllRound : public ::testing::Test {
  protected:
    void SetUp() override {
        write("hall.exr",
              surround_of(32, [](const glm::vec3& d) { return glm::vec3(1 + std::max(0.0f, d.y)); }));
        write("hall.png", even_surround(32, glm::vec3(0.5f)));
        write("behind.exr",
              surround_of(32, [](const glm::vec3& d) { return glm::vec3(d.z < -0.2f ? 1.0f : 0.0f); }));
    }

    void write(const char* name, const SurroundPicture& p) const {
        const std::string path = (folder_ / name).string();
        const auto out = OIIO::ImageOutput::create(path);
        ASSERT_TRUE(out->open(path, OIIO::ImageSpec(p.width_px, p.height_px, 3, OIIO::TypeDesc::FLOAT)));
        ASSERT_TRUE(out->write_image(OIIO::TypeDesc::FLOAT, p.rgb.data()));
        ASSERT_TRUE(out->close());
    }

    Layout read(const std::string& text) const {
        return read_layout_text(kHead + text, (folder_ / "t.yaml").string());
    }
    std::string refusal(const std::string& text) const {
        return refusal_of([&] { read(text); });
    }

    test::Folder folder_;
};

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_F(ReadAllRound, StandsAloneOrWithLamps) {
    const Layout alone = read("light all round: {picture: hall.exr, lux: 180, turned: 30}\n");
    ASSERT_TRUE(alone.on.all_round);
    EXPECT_TRUE(alone.on.lamps.empty());
    EXPECT_NEAR(surround_lux(alone), 180, 1e-6);
    EXPECT_EQ(alone.sources.files, std::vector<std::string>{(folder_ / "hall.exr").string()});
    const Layout with_lamp = read(
        "light all round: {picture: hall.exr, unit: 50, dimmed to: 50 %, name: hall, group: day}\n"
        "lamps: [{name: spot, at: [0, 2900, 900], aim: [0, 1450, 0], lumen: 700}]\n");
    EXPECT_EQ(with_lamp.on.lamps.size(), 1u);
    EXPECT_EQ(light_names(with_lamp), (std::vector<std::string>{"spot", "spot", "hall", "day"}));
    // 50 cd/m2 all round give pi times that; the sky's part, 50 sin(altitude), 2/3 of that (see the closed
    // form in the renderer's test); half of it all.
    EXPECT_NEAR(surround_lux(with_lamp), 0.5 * 50 * (std::numbers::pi + 2.0 / 3), 0.3);
}

TEST_F(ReadAllRound, ReplacesWindowsAndIsReplacedByThem) {
    const char* text =
        "room: {windows: [{name: bay, wall: left, at: [1500, 900], size: [1000, 1200]}]}\n"
        "set-ups:\n"
        "  hall: {lamps: [], light all round: {picture: hall.exr, lux: 100}}\n"
        "light: hall\n";
    const Layout layout = read(text);
    EXPECT_TRUE(layout.on.all_round);
    EXPECT_TRUE(layout.on.windows.empty());
    EXPECT_FALSE(with_light(layout, "own light").on.all_round);
    EXPECT_EQ(with_light(layout, "own light").on.windows.size(), 1u);
    EXPECT_FALSE(with_light(layout, "gallery spot").on.all_round);

    const Layout other = read(
        "light all round: {picture: hall.exr, lux: 100}\n"
        "set-ups: {day: {windows: [{name: bay, wall: left, at: [1500, 900], size: [1000, 1200]}]}}\n");
    EXPECT_FALSE(with_light(other, "day").on.all_round);
}

TEST_F(ReadAllRound, RefusesWithPlaceFoundAndExpected) {
    EXPECT_TRUE(holds(refusal("light all round: {picture: hall.exr}\n"),
                      "t.yaml:3:18: light all round: found a picture that does not say"));
    EXPECT_TRUE(holds(refusal("light all round: {picture: hall.exr, lux: 90, unit: 2}\n"),
                      "found lux and unit, expected one of them"));
    EXPECT_TRUE(
        holds(refusal("light all round: {picture: hall.png, unit: 2}\n"), "cut off at white, expected lux"));
    EXPECT_TRUE(holds(refusal("light all round: {picture: hal.exr, lux: 90}\n"),
                      "light all round.picture: found no file"));
    EXPECT_TRUE(holds(refusal("light all round: {picture: behind.exr, lux: 90}\n"),
                      "black wherever the panel looks"));
    EXPECT_EQ(refusal("light all round: {picture: behind.exr, lux: 90, turned: 180}\n"), "");
    EXPECT_TRUE(
        holds(refusal("light all round: {picture: hall.exr, lux: 90}\n"
                      "room: {windows: [{name: bay, wall: left, at: [1500, 900], size: [1000, 1200]}]}\n"),
              "found windows as well"));
    EXPECT_TRUE(
        holds(refusal("light all round: {picture: hall.exr, lux: 90, turnd: 3}\n"), "did you mean turned"));
}

TEST_F(ReadAllRound, DirectionsAreTold) {
    EXPECT_EQ(direction_in_words({0, 0, 1}), "straight out, level");
    EXPECT_EQ(direction_in_words(glm::normalize(glm::dvec3(-1, 1, 1))), "45 degrees left, 35 up");
    EXPECT_EQ(direction_in_words(glm::normalize(glm::dvec3(1, -1, 0))), "90 degrees right, 45 down");
}

TEST_F(ReadAllRound, CheckSaysItsLightAndItsSpots) {
    SurroundPicture lamp = even_surround(64, glm::vec3(1));
    lamp.rgb[static_cast<std::size_t>(20) * 128 + 40] =
        glm::vec3(9000);  // altitude 32.3, 66 left of the middle
    write("lamp.exr", lamp);
    const Layout layout = read("light all round: {picture: lamp.exr, lux: 250}\n");
    const std::string said = summarise(layout);
    EXPECT_TRUE(
        holds(said, "light all round: light all round (group light all round): 128 x 64 pixels, 250 lx"));
    // The left of the picture lies to the right of who faces the panel.
    EXPECT_TRUE(holds(said, "bright spots, as somebody faces the panel: 66 degrees right, 32 up")) << said;
}

}  // namespace rakelight
