#include "scene/reading/stock/markings.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "materials/stock/stock.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/refusal.h"

namespace rakelight {
namespace {

std::string file_with(const std::string& entry) {
    return "panel: {size: [600, 450]}\nfields: [{name: all, mix: mine, grout: own}]\nstock:\n  mine: " +
           entry +
           "\ntints:\n  own: {like: sand, sand: {size: 0.4}, meniscus: 0.6, mottling: {contrast: 5 %}}\n";
}

Material read_material(const std::string& entry) {
    for (const Material& m : read_layout_text(file_with(entry), "f.yaml").stock)
        if (m.name == "mine") return m;
    throw std::logic_error("not in the layout's stock");
}

TEST(ReadMarkings, AreOffUnlessAskedFor) {
    EXPECT_FALSE(read_material("{like: aqua}").markings.any());
    EXPECT_TRUE(read_material("{like: aqua}").coating.empty());
}

TEST(ReadMarkings, StreaksTakeTheOtherColourAndAScale) {
    const Material m =
        read_material("{like: aqua, streaks: {of: opal, share: 40 %, size: 0.5 in, length: 200}}");
    ASSERT_EQ(m.markings.strands.size(), 1u);
    const Strands& s = m.markings.strands[0];
    EXPECT_EQ(s.form, Strand::streak);
    EXPECT_FLOAT_EQ(s.share, 0.4f);
    EXPECT_FLOAT_EQ(s.size_mm, 12.7f);
    EXPECT_FLOAT_EQ(s.length_mm, 200);
    EXPECT_EQ(s.scattering_per_mm, find_stock("opal")->scattering_per_mm);
}

TEST(ReadMarkings, AllOfThemTogether) {
    const Material m = read_material(
        "{like: aqua, wisps: {of: opal}, seeds: {size: 1, per cm2: 2}, cords: {contrast: 30 %}, "
        "veil: {haze: 10 %}, face: {pattern: hammered, slope: 9 deg}, coating: {kind: dichroic, pairs: 3, "
        "uneven: 10 %}}");
    EXPECT_EQ(m.markings.strands.size(), 3u);  // wisps, veil, uneven films
    EXPECT_FLOAT_EQ(m.markings.seeds.per_cm2, 2);
    EXPECT_FLOAT_EQ(m.markings.cords.contrast, 0.3f);
    EXPECT_EQ(m.markings.face.pattern, Pattern::hammered);
    EXPECT_FLOAT_EQ(m.markings.face.slope_deg, 9);
    EXPECT_EQ(m.coating.size(), 7u);
    // 10 % thrown back by a film that only scatters: S d = R / (1 - R) (Kubelka and Munk 1931).
    EXPECT_FLOAT_EQ(m.markings.strands[1].haze, 0.1f / 0.9f);
}

TEST(ReadMarkings, GroutHasSandAndAMeniscus) {
    const Layout layout = read_layout_text(file_with("{like: aqua}"), "f.yaml");
    const Markings& m = layout.tints[*layout.fields[0].grout].markings;
    EXPECT_FLOAT_EQ(m.sand.size_mm, 0.4f);
    EXPECT_FLOAT_EQ(m.meniscus.width_mm, 0.6f);
    EXPECT_FLOAT_EQ(m.mottling.contrast, 0.05f);
}

TEST(ReadMarkings, RefusesWhatCannotBe) {
    const auto refused = [](const std::string& entry, const char* said) {
        const std::string found = refusal_of([&] { read_layout_text(file_with(entry), "f.yaml"); });
        EXPECT_NE(found.find(said), std::string::npos) << found;
    };
    refused("{like: aqua, streaks: {of: opla}}", "did you mean opal");
    refused("{like: aqua, streaks: {of: coral}}", "opaque, expected a plain translucent");
    refused("{like: coral, seeds: {size: 1}}", "found seeds in an opaque material");
    refused("{like: limestone, coating: {kind: pearl}}", "a face without gloss");
    refused("{like: aqua, face: {pattern: hammred}}", "expected one of");
}

}  // namespace
}  // namespace rakelight
