// Sizes and weights in captions: units by NIST Special Publication 811 (inch 25.4 mm, pound 453.59237 g),
// weights by volume times density.
#include "output/portfolio/caption.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include "scene/model/levels.h"
#include "scene/reading/layout_reader.h"

using namespace rakelight;

namespace {

Layout framed() {
    return read_layout_text(
        "panel:\n"
        "  name: Pool\n"
        "  size: [500, 300]\n"
        "  substrate: {material: cement-board, thickness: 12, bed thickness: 2}\n"
        "  frame: {material: oak, width: 20, proud: 5, gap: 4}\n"
        "stones: [{material: slag, at: [250, 150], size: [60, 50, 40], proud: 25}]\n"
        "fields: [{name: all, piece: 20, joint: 2, mix: {celadon: 50 %, slate: 50 %}, bed: white, grout: "
        "sand}]\n",
        "pool.yaml");
}

const Material& called(const std::vector<Material>& list, const std::string& name) {
    return *std::find_if(list.begin(), list.end(), [&](const Material& m) { return m.name == name; });
}

double grams(const PanelFacts& facts, const std::string& part) {
    const auto& parts = facts.weight.parts;
    return 1000 *
           std::find_if(parts.begin(), parts.end(), [&](const WeightPart& p) { return p.name == part; })->kg;
}

}  // namespace

TEST(Caption, CentimetresAndInches) {
    EXPECT_EQ(size_text({254, 609.6, 50.8}), "25.4 × 61.0 × 5.1 cm (10 × 24 × 2 in)");
    EXPECT_EQ(size_text({3.175, 6.35, 12.7}), "0.3 × 0.6 × 1.3 cm (1/8 × 1/4 × 1/2 in)");
    EXPECT_EQ(size_text({25.4 * 18.625}), "47.3 cm (18 5/8 in)");
    EXPECT_EQ(size_text({25.4 * 9.97}), "25.3 cm (10 in)");  // rounds up to a whole one
}

TEST(Caption, InchesAndPoundsFirstWhereTheyAreWanted) {
    EXPECT_EQ(size_text({254, 609.6, 50.8}, Units::inches), "10 × 24 × 2 in (25.4 × 61.0 × 5.1 cm)");
    EXPECT_EQ(weight_text(65 * 0.45359237, Units::inches), "65.0 lb (29.5 kg)");
    Weighing weight;
    weight.low_kg = 10 * 0.45359237;
    weight.high_kg = 20 * 0.45359237;
    EXPECT_EQ(weight_range_text(weight, Units::inches), "10.0 to 20.0 lb");
}

TEST(Caption, KilogramsAndPounds) {
    EXPECT_EQ(weight_text(65 * 0.45359237), "29.5 kg (65 lb)");
    Weighing weight;
    weight.low_kg = 17;
    weight.high_kg = 23;
    EXPECT_EQ(weight_range_text(weight), "17.0 to 23.0 kg");
}

TEST(Caption, BoardAndFrameWeighTheirBoxes) {
    const Layout layout = framed();
    const PanelFacts facts = panel_facts(layout, lay(layout), {});
    const double board_mm3 = (500 + 8) * (300 + 8) * 12;
    EXPECT_NEAR(
        grams(facts, "board"),
        board_mm3 / 1000 * static_cast<double>(called(layout.stock, "cement-board").density_g_per_cm3), 0.01);
    // Four mitred bars of 20 mm round an opening of 508 x 308, from the board's back to 5 mm over the faces.
    const double bars_mm2 = 548 * 348 - 508 * 308, high_mm = 12 + face_plane_mm(layout) + 5;
    EXPECT_NEAR(
        grams(facts, "frame"),
        bars_mm2 * high_mm / 1000 * static_cast<double>(called(layout.stock, "oak").density_g_per_cm3), 0.01);
}

TEST(Caption, SizeIsOverAll) {
    const Layout layout = framed();
    const PanelFacts facts = panel_facts(layout, lay(layout), {});
    EXPECT_DOUBLE_EQ(facts.size_mm.x, 300 + 2 * 24);
    EXPECT_DOUBLE_EQ(facts.size_mm.y, 500 + 2 * 24);
    // The stone stands 25 mm above the faces, the frame only 5.
    EXPECT_NEAR(facts.size_mm.z, 12 + face_plane_mm(layout) + 25, 1.5);
}

TEST(Caption, BedAndGroutLieBetweenTheirBounds) {
    const Layout layout = framed();
    const PanelFacts facts = panel_facts(layout, lay(layout), {});
    const double area_cm2 = 50 * 30;
    const double bed_density = static_cast<double>(called(layout.tints, "white").density_g_per_cm3);
    // At least the thinnest bed under everything but the stone, at most up to the faces.
    EXPECT_GT(grams(facts, "bed"), 0.9 * area_cm2 * 0.2 * bed_density);
    EXPECT_LT(grams(facts, "bed"), area_cm2 * face_plane_mm(layout) / 10 * bed_density);
    // A grid of 20 mm pieces in 2 mm joints leaves 1 - (20/22)^2 = 17.4 % to joints, at most as deep as
    // pieces are thick.
    const double grout_density = static_cast<double>(called(layout.tints, "sand").density_g_per_cm3);
    EXPECT_GT(grams(facts, "grout"), 0.5 * 0.17 * area_cm2 * 0.5 * grout_density);
    EXPECT_LT(grams(facts, "grout"), 1.3 * 0.17 * area_cm2 * 1.0 * grout_density);
    double sum = 0;
    for (const WeightPart& part : facts.weight.parts) sum += part.kg;
    EXPECT_NEAR(facts.weight.likely_kg, sum, 1e-9);
}

TEST(Caption, LeavesOutWhatNobodySaid) {
    const Layout layout = framed();
    Caption caption;
    caption.title = "The pool";
    caption.price = "4800";
    const auto lines = caption_lines(caption, {panel_facts(layout, lay(layout), {})});
    std::vector<std::string> keys;
    for (const auto& [key, text] : lines) keys.push_back(key);
    EXPECT_EQ(keys, (std::vector<std::string>{"Title", "Materials", "Size, H × W × D", "Weight", "Price"}));
    EXPECT_EQ(lines[1].second,
              "fused glass, slate, slag; tinted cement grout, tinted cement bed, on cement board, oak frame");
}

TEST(Caption, EachPanelHasItsOwnSizeAndWeight) {
    PanelFacts left, right;
    left.name = "High";
    left.size_mm = {254, 508, 50.8};
    left.weight.likely_kg = 5 * 0.45359237;
    right.name = "Low";
    right.size_mm = {254, 254, 25.4};
    right.weight.likely_kg = 10 * 0.45359237;
    const auto lines = caption_lines({}, {left, right});
    ASSERT_EQ(lines.size(), 4u);
    EXPECT_EQ(lines[0], std::pair(std::string("High: size, H × W × D"),
                                  std::string("25.4 × 50.8 × 5.1 cm (10 × 20 × 2 in)")));
    EXPECT_TRUE(lines[1].second.starts_with("about 2.3 kg (5 lb)")) << lines[1].second;
    EXPECT_EQ(lines[2].first, "Low: size, H × W × D");
    EXPECT_TRUE(lines[3].second.starts_with("about 4.5 kg (10 lb)")) << lines[3].second;
}
