#include <gtest/gtest.h>

#include "scene/mix/reference_picture.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/text/diagnostics.h"
#include "tests/support/picture_maker.h"

namespace rakelight {
namespace {

const std::string kHead =
    "panel: {size: [600, 400]}\n"
    "stock: {sea: {ladder: {from: deep-teal, to: aqua, steps: 4}}}\n"
    "fields:\n"
    "  - {name: sun, outline: [[100, 100], [200, 100], [150, 200]], mix: coral}\n";

Layout read(const std::string& field, const std::string& file = "test.yaml") {
    return read_layout_text(kHead + "  - {name: all, guides: [[[0, 90], [600, 90]]], " + field + "}\n", file);
}

TEST(ReadMix, ShadesOfALadderAlongAGuide) {
    const Layout layout = read("mix: {shades: sea, along: 1, over: [80 %, 20 %], blend: 60 %}");
    const Field& field = layout.fields[1];
    ASSERT_TRUE(field.shift);
    const MixShift& shift = *field.shift;
    EXPECT_EQ(shift.by, MixShift::By::along);
    ASSERT_EQ(shift.shades.size(), 4u);
    // Backwards: from 20 % on the last shade comes first.
    EXPECT_EQ(layout.stock[shift.shades[0][0].material].name, "sea-4");
    ASSERT_EQ(shift.at.size(), 4u);
    EXPECT_DOUBLE_EQ(shift.at[0], 0.2);
    EXPECT_NEAR(shift.at[1], 0.4, 1e-12);
    EXPECT_DOUBLE_EQ(shift.blend, 0.6);
    EXPECT_EQ(shift.line.points_mm, field.guides[0].points_mm);
    EXPECT_EQ(field.mix.size(), 4u);
}

TEST(ReadMix, MixesAtStations) {
    const Field field =
        read("mix: {shades: [slate, {slate: 50 %, aqua: 50 %}, sea-4], away from: sun, at: [0, 10, 60 mm]}")
            .fields[1];
    ASSERT_TRUE(field.shift);
    EXPECT_EQ(field.shift->by, MixShift::By::away);
    EXPECT_EQ(field.shift->line.points_mm.size(), 3u);
    EXPECT_EQ(field.shift->at, (std::vector<double>{0, 10, 60}));
    EXPECT_NEAR(field.mix[0].share, 0.5, 1e-12);  // slate: (1 + 1/2 + 0) / 3
    EXPECT_TRUE(read("mix: {shades: sea, towards: 90 deg}").fields[1].shift->at.empty());
    EXPECT_EQ(read("mix: {shades: sea, away from: edge}").fields[1].shift->line.points_mm.size(), 4u);
    EXPECT_TRUE(read("mix: {shades: sea, across: {smooth: [[0, 0], [50, 90], [200, 80]]}}")
                    .fields[1]
                    .shift->line.smooth);
}

TEST(ReadMix, APictureAndItsPlace) {
    const PictureMaker maker;
    maker.write("sea.png", 40, 20, 3, [](int, int) { return PictureMaker::Pixel{1, 2, 3}; });
    const std::string file = (maker.folder() / "test.yaml").string();
    const auto with_picture = [&](const std::string& more) {
        return read("mix: {picture: sea.png, from: [sea, coral, sea-2]" + more + "}", file);
    };
    const Layout first = with_picture("");
    const MixPicture& over = *first.fields[1].picture;
    std::vector<std::string> from;
    for (const std::uint32_t material : over.from) from.push_back(first.stock[material].name);
    EXPECT_EQ(from, (std::vector<std::string>{"sea-1", "sea-2", "sea-3", "sea-4", "coral"}));
    // 2:1 over 3:2: as high as the panel, 800 mm wide, 100 mm cut off on either side.
    EXPECT_NEAR(over.width_mm, 800, 1e-9);
    EXPECT_NEAR(over.at_mm.x, -100, 1e-9);
    EXPECT_NEAR(over.at_mm.y, 0, 1e-9);
    const Layout second = with_picture(
        ", place: [10, 20, 30 cm], at most: {coral: 12}, error diffusion: 50 %, elsewhere: slate");
    const MixPicture& placed = *second.fields[1].picture;
    EXPECT_DOUBLE_EQ(placed.width_mm, 300);
    ASSERT_EQ(placed.at_most.size(), 1u);
    EXPECT_EQ(second.stock[placed.at_most[0].first].name, "coral");
    EXPECT_EQ(placed.at_most[0].second, 12);
    EXPECT_DOUBLE_EQ(placed.diffusion, 0.5);
    EXPECT_EQ(second.stock[placed.elsewhere.value()].name, "slate");
}

TEST(ReadMix, AccentsOneOrMore) {
    EXPECT_EQ(read("mix: slate, accents: {material: ruby, count: 7}").fields[1].accents[0].count, 7);
    const Field field =
        read("mix: slate, accents: [{material: ruby, count: 3}, {material: sea-1, count: 2}]").fields[1];
    EXPECT_EQ(field.accents.size(), 2u);
    EXPECT_EQ(field.mix.size(), 3u);  // all that may be laid
    EXPECT_EQ(field.mix[1].share, 0);
}

TEST(ReadMix, ProblemsAreSaidWhereTheyAre) {
    struct Case {
        const char* field;
        const char* key;
        const char* words;
    };
    const Case cases[] = {
        {"mix: {shades: see, along: 1}", "fields[2].mix.shades", "did you mean sea?"},
        {"mix: {shades: slate, along: 1}", "fields[2].mix.shades", "at least two shades"},
        {"mix: {shades: [slate, slat], along: 1}", "fields[2].mix.shades[2]", "did you mean slate?"},
        {"mix: {shades: [slate, {aqua: 60 %}], along: 1}", "fields[2].mix.shades[2]", "sum to 60 %"},
        {"mix: {shades: sea}", "fields[2].mix.shades", "found none of along, across"},
        {"mix: {shades: sea, along: 1, towards: 3}", "fields[2].mix.shades", "found several of along"},
        {"mix: {shades: sea, alog: 1}", "fields[2].mix.alog", "did you mean along?"},
        {"mix: {shades: sea, along: 2}", "fields[2].mix.along", "expected 1 to 1"},
        {"mix: {shades: sea, away from: son}", "fields[2].mix.away from", "did you mean sun?"},
        {"mix: {shades: sea, away from: edge, over: [0, 60 %]}", "fields[2].mix.over", "expected a length"},
        {"mix: {shades: sea, along: 1, over: [0, 60 mm]}", "fields[2].mix.over", "expected a share"},
        {"mix: {shades: sea, along: 1, over: [20 %, 20 %]}", "fields[2].mix.over",
         "found 0.2 after 0.2, expected rising places"},
        {"mix: {shades: sea, away from: edge, at: [0, 1, 2]}", "fields[2].mix.at", "a list of 4 numbers"},
        {"mix: {shades: sea, away from: edge, at: [0, 2, 1, 3]}", "fields[2].mix.at",
         "found 1 after 2, expected rising places"},
        {"mix: {shades: sea, along: 1, blend: 120 %}", "fields[2].mix.blend", "0 % to 100 %"},
        {"mix: {picture: none.png, from: [slate]}", "fields[2].mix.picture", "found no file"},
        {"mix: {picture: none.png}", "fields[2].mix.from", "found nothing"},
        {"mix: {picture: none.png, from: [slat]}", "fields[2].mix.from", "did you mean slate?"},
        {"mix: {picture: none.png, from: [slate], at most: {aqua: 3}}", "fields[2].mix.at most.aqua",
         "expected a material of this mix"},
        {"mix: slate, accents: {material: rubi, count: 7}", "fields[2].accents.material",
         "did you mean ruby?"},
        {"mix: slate, accents: {material: ruby}", "fields[2].accents.count", "found nothing"},
        {"mix: slate, accents: {material: ruby, count: 1.5}", "fields[2].accents.count", "whole number"},
        {"mix: slate, accents: 7", "fields[2].accents", "expected a mapping"},
    };
    for (const Case& c : cases) {
        try {
            read(c.field);
            ADD_FAILURE() << "accepted: " << c.field;
        } catch (const LayoutError& error) {
            bool said = false;
            for (const Problem& p : error.problems())
                said |= p.key == c.key && p.text.find(c.words) != std::string::npos && p.place.line == 5;
            EXPECT_TRUE(said) << c.field << "\n" << error.what();
        }
    }
}

}  // namespace
}  // namespace rakelight
