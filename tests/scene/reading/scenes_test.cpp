// Every layout that ships is in order, and the tide pool is as large as it says.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <set>

#include "scene/forms/heights.h"
#include "scene/geometry/region.h"
#include "scene/laying/laying.h"
#include "scene/laying/region_plan.h"
#include "scene/model/layout.h"
#include "scene/opus/opera.h"
#include "scene/reading/layout_reader.h"

using namespace rakelight;

TEST(Scenes, AllAreInOrderAndCanBeLaid) {
    int count = 0;
    for (const auto& entry : std::filesystem::directory_iterator(RAKELIGHT_SCENES)) {
        if (entry.path().extension() != ".yaml") continue;
        const Layout layout = read_layout(entry.path());
        EXPECT_FALSE(lay(layout).pieces.empty()) << entry.path();
        ++count;
    }
    EXPECT_GT(count, 0);
}

TEST(Scenes, SquallFollowsItsPicture) {
    const Layout layout = read_layout(RAKELIGHT_SCENES "/squall.yaml");
    const Laying laying = lay(layout);
    EXPECT_GE(laying.pieces.size(), 2000u);
    EXPECT_EQ(laying.stones.size(), 2u);
    EXPECT_FALSE(laying.notes.empty());
    std::size_t sparks = 0, last_light = 0;
    for (const Piece& piece : laying.pieces) {
        sparks += layout.stock[piece.material].name == "spark";
        last_light += layout.stock[piece.material].name == "last-light";
    }
    EXPECT_EQ(sparks, 7u);       // as the file says
    EXPECT_LE(last_light, 40u);  // all there is
}

TEST(Scenes, OperaHasEveryOpusByItsName) {
    const Layout layout = read_layout(RAKELIGHT_SCENES "/opus-sampler.yaml");
    EXPECT_TRUE(layout.warnings.empty()) << layout.warnings[0];
    std::set<Opus> shown;
    for (const Field& field : layout.fields) shown.insert(field.opus);
    EXPECT_EQ(shown.size(), opera().size());
    // A square is called what it is.
    for (const OpusRule& rule : opera())
        EXPECT_TRUE(std::any_of(layout.fields.begin(), layout.fields.end(), [&](const Field& field) {
            return field.name.starts_with(rule.word) && field.opus == rule.opus;
        })) << rule.word;
    const Laying laying = lay(layout);
    // All squares lie flush with the thickest of them, which is said.
    ASSERT_LE(laying.warnings.size(), 1u);
    for (const std::string& line : laying.warnings) EXPECT_NE(line.find("the bed under"), std::string::npos);
    EXPECT_GE(laying.stones.size(), 3u);
}

TEST(Scenes, TheStockSamplerShowsEveryMarking) {
    const Layout layout = read_layout(RAKELIGHT_SCENES "/stock-sampler.yaml");
    EXPECT_TRUE(layout.warnings.empty()) << layout.warnings[0];
    std::set<Strand> strands;
    std::set<Pattern> patterns;
    bool seeds = false, cords = false, films = false;
    for (const Material& m : layout.stock) {
        for (const Strands& s : m.markings.strands) strands.insert(s.form);
        patterns.insert(m.markings.face.pattern);
        seeds = seeds || m.markings.seeds.size_mm > 0;
        cords = cords || m.markings.cords.contrast > 0;
        films = films || !m.coating.empty();
    }
    EXPECT_EQ(strands.size(), 5u);  // all but the wash, which is a field's
    EXPECT_EQ(patterns.size(), 5u);
    EXPECT_TRUE(seeds && cords && films);
    EXPECT_TRUE(std::ranges::any_of(layout.fields, [](const Field& f) { return f.wash > 0; }));
}

TEST(Scenes, KelpIsLaidFromItsDrawing) {
    const Layout layout = read_layout(RAKELIGHT_SCENES "/kelp.yaml");
    EXPECT_TRUE(layout.warnings.empty()) << layout.warnings[0];
    ASSERT_EQ(layout.sources.files.size(), 1u);
    EXPECT_TRUE(layout.sources.files[0].ends_with("kelp.svg"));
    const auto blades = std::find_if(layout.fields.begin(), layout.fields.end(),
                                     [](const Field& field) { return field.name == "blades"; });
    ASSERT_NE(blades, layout.fields.end());
    EXPECT_EQ(blades->guides.size(), 4u);      // as drawn: a midrib a blade
    EXPECT_EQ(blades->more_rings.size(), 4u);  // four blades, one of them torn
    // Water is seen through the tear, whose middle is drawn at (205, 220 - 89).
    const Laying laying = lay(layout);
    EXPECT_TRUE(std::any_of(laying.pieces.begin(), laying.pieces.end(), [&](const Piece& piece) {
        return layout.fields[piece.field].name == "water" &&
               glm::distance(centroid(piece.outline_mm), {205, 131}) < 12;
    }));
}

TEST(Scenes, LowTideHasItsPiecesZonesAndRelief) {
    const Layout layout = read_layout(RAKELIGHT_SCENES "/low-tide.yaml");
    const Laying laying = lay(layout);
    std::set<std::string> zones;
    double pieces = 0;
    for (std::size_t f = 0; f < layout.fields.size(); ++f) {
        const Field& field = layout.fields[f];
        zones.insert(field.zone);
        // A field's ground over the cell of a piece, (L + j)(w + j), is the number of its pieces, give or
        // take what is cut at its edges.
        std::vector<Ring> footprints;
        for (const SetStone& stone : laying.stones) footprints.push_back(stone.footprint_mm);
        pieces += area_mm2(plan_regions(layout, footprints)[f]) /
                  ((field.piece_length_mm + field.joint_mm) * (field.piece_width_mm + field.joint_mm));
    }
    EXPECT_NEAR(static_cast<double>(laying.pieces.size()) / pieces, 1, 0.1);
    EXPECT_EQ(zones, (std::set<std::string>{"deep water", "foam", "rocks", "shallows"}));
    // As the file lists them, the boldest 24 mm proud.
    ASSERT_EQ(laying.stones.size(), layout.stones.size());
    const auto boldest = std::max_element(
        laying.stones.begin(), laying.stones.end(),
        [](const SetStone& a, const SetStone& b) { return a.stone.proud_mm < b.stone.proud_mm; });
    EXPECT_EQ(boldest->stone.proud_mm, 24);
    EXPECT_EQ(boldest->top_mm, face_plane_mm(layout) + 24);
    EXPECT_EQ(layout.views.pictures.size(), 3u);
}
