// A layout with a drawing beside it: which fields get which outlines and guides.
#include "scene/reading/field/drawing.h"
#include "scene/model/layout.h"

#include <OpenImageIO/imageio.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "scene/geometry/region.h"
#include "scene/laying/region_plan.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/refusal.h"
#include "tests/support/svg_samples.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

/// A folder with a drawing.
struct Folder : test::Folder {
    Layout read(const std::string& drawing, const std::string& fields) const {
        return read_layout_text("panel: {size: [100, 80]}\ndrawing: " + drawing + "\nfields:\n" + fields,
                                (path() / "l.yaml").string());
    }
    std::string refused(const std::string& drawing, const std::string& fields) const {
        return refusal_of([&] { read(drawing, fields); });
    }
};

bool warned(const Layout& layout, const std::string& text) {
    return std::any_of(layout.warnings.begin(), layout.warnings.end(),
                       [&](const std::string& each) { return each.find(text) != std::string::npos; });
}

constexpr std::string_view kPond = R"svg(
<g id='pond'><path id='shore' fill-rule='evenodd' d='M10 10H50V50H10ZM20 20H40V40H20ZM28 28H32V32H28Z'/>
  <path id='ripple' d='M10 45H50' fill='none'/><g id='reeds'><rect x='60' y='60' width='10' height='10'/></g></g>
<path id='current' d='M0 70L100 75'/>
<path id='far' d='M70 5L90 5'/>
<path id='bow' d='M60 10L80 30V10L60 30Z'/>
<circle id='sun' cx='80' cy='60' r='10'/>)svg";

TEST(ReadDrawing, AFieldTakesWhatIsCalledLikeIt) {
    const Folder folder;
    folder.write("d.svg", page(kPond));
    const Layout layout = folder.read("d.svg",
                                      "- {name: reeds, mix: slate}\n- {name: pond, mix: slate, piece: 3}\n"
                                      "- {name: disc, drawn: sun, mix: slate}\n- {name: rest, guides: "
                                      "[{drawn: current}, [[0, 0], [100, 2]]], mix: slate}\n");
    ASSERT_EQ(layout.fields.size(), 4u);
    EXPECT_EQ(layout.fields[0].outline.points_mm.size(), 4u);
    // A square of 40 with a hole of 20 and an island of 4 in it; the reeds are a field of their own.
    EXPECT_EQ(layout.fields[1].more_rings.size(), 2u);
    ASSERT_EQ(layout.fields[1].guides.size(), 1u);
    EXPECT_LT(glm::distance(layout.fields[1].guides[0].points_mm[0], glm::dvec2(10, 35)), 1e-9);
    const auto regions = plan_regions(layout, {});
    EXPECT_NEAR(area_mm2(regions[1]), 1600 - 400 + 16, 1e-3);
    EXPECT_NEAR(area_mm2(regions[2]), 314.159, 0.7);
    EXPECT_EQ(layout.fields[3].guides.size(), 2u);
    EXPECT_EQ(layout.fields[3].outline.points_mm.size(), 4u);  // the whole panel
    EXPECT_TRUE(warned(layout, "far: found a path that no field takes"));
    EXPECT_TRUE(warned(layout, "bow: found a path that no field takes"));
    EXPECT_FALSE(warned(layout, "shore"));
    EXPECT_FALSE(warned(layout, "page"));
}

TEST(ReadDrawing, SingleOutlinesAndGuidesAndWidth) {
    const Folder folder;
    folder.write("d.svg", page(kPond));
    const Layout layout =
        folder.read("{file: d.svg, width: 200, tolerance: 0.01}",
                    "- {name: a, outline: {drawn: shore}, guides: [{drawn: far}], mix: slate}\n");
    EXPECT_NEAR(bounds(layout.fields[0].outline.points_mm).low.x, 20, 1e-3);
    EXPECT_TRUE(warned(layout, "found a page of 200 x 160 mm, the panel is 100 x 80 mm"));
    EXPECT_TRUE(warned(layout, "found a guide wholly outside the field a"));
}

// A figure's outline is followed by the field round it and stays the figure's own, asked for by whoever
// likes.
TEST(ReadDrawing, AnOutlineCanBeAGuideToo) {
    const Folder folder;
    folder.write("d.svg", page("<g id='figure'><path id='edge' d='M10 10H50V50H10Z'/></g>"));
    const Layout layout = folder.read("d.svg",
                                      "- {name: figure, mix: slate}\n"
                                      "- {name: round it, guides: [{drawn: edge}], mix: slate}\n");
    EXPECT_EQ(layout.fields[0].outline.points_mm.size(), 4u);
    ASSERT_EQ(layout.fields[1].guides.size(), 1u);
    EXPECT_TRUE(layout.fields[1].guides[0].closed);
    EXPECT_NEAR(area_mm2(plan_regions(layout, {})[0]), 1600, 1e-3);
}

TEST(ReadDrawing, AClosedLineWithoutFillIsToldOf) {
    const Folder folder;
    folder.write("d.svg", page("<g id='sea'><path d='M0 0H100V80H0Z'/>"
                               "<path id='eddy' fill='none' d='M10 10H50V50H10Z'/></g>"));
    EXPECT_TRUE(warned(folder.read("d.svg", "- {name: sea, mix: slate}\n"),
                       "eddy: found a closed line without a fill; it counts as an outline of the field sea"));
}

TEST(ReadDrawing, WhoTookALineIsSaid) {
    const Folder folder;
    folder.write("d.svg", page("<g id='sea'><path id='current' d='M0 70L100 75'/></g>"));
    const std::string said = folder.refused(
        "d.svg",
        "- {name: shore, guides: [{drawn: current}], mix: slate}\n- {name: b, drawn: sea, mix: slate}\n");
    EXPECT_NE(said.find("found nothing drawn in \"sea\" that is not asked for by a name of its own: current"),
              std::string::npos)
        << said;
}

TEST(ReadDrawing, Refusals) {
    const Folder folder;
    folder.write("d.svg", page(kPond));
    folder.write("bad.svg", "<svg");
    const struct {
        const char *drawing, *fields, *said;
    } cases[] = {
        {"d.svg", "- {name: a, drawn: ponds, mix: slate}", "l.yaml:4:20: fields[1].drawn: found \"ponds\""},
        {"d.svg", "- {name: a, drawn: ponds, mix: slate}", "did you mean pond?"},
        {"d.svg", "- {name: a, outline: {drawn: ripple}, mix: slate}",
         "d.svg:4:4: ripple: found an open path whose ends lie 40.0 mm apart"},
        {"d.svg", "- {name: bow, mix: slate}",
         "d.svg:7:2: bow: found an outline that crosses itself near [70.0, 60.0] mm"},
        {"d.svg", "- {name: a, drawn: sun, outline: [[0, 0], [9, 0], [9, 9]], mix: slate}",
         "beside an outline"},
        {"d.svg", "- {name: a, guides: [{drawn: nothing at all}], mix: slate}",
         "guides[1].drawn: found \"nothing at all\""},
        {"d.svg", "- {name: sunn, mix: slate}", "name: found \"sunn\" without an outline"},
        {"d.svg", "- {name: a, drawn: [sun], mix: slate}", "expected the name of a group or path"},
        {"d.svg", "- {name: a, outline: {drawn: sun, smooth: 1}, mix: slate}",
         "\"smooth\", which does not go with"},
        {"gone.svg", "- {name: sea, drawn: sun, mix: slate}", "found no such file, expected a drawing"},
        {"bad.svg", "- {name: sea, drawn: sun, mix: slate}", "bad.svg:1:"},
        {"{width: 5}", "- {name: sea, mix: slate}", "found none of them"},
        {"{file: d.svg, areas: m.png}", "- {name: sea, mix: slate}", "found several of them"},
        {"{file: d.svg, colours: {a: \"#123456\"}}", "- {name: sea, mix: slate}",
         "\"colours\", which does not go with the other keys here"},
        {"{areas: m.png}", "- {name: sea, mix: slate}", "found nothing, expected the colours of the map"},
        {"{areas: m.png, colours: {sea: #1f4a5a\n }}", "- {name: sea, mix: slate}",
         "six hexadecimal digits in quotes"},
        {"{areas: m.png, colours: {a: \"#102030\", b: \"#112131\"}}", "- {name: a, mix: slate}",
         "a colour much like that of a"},
        {"[1]", "- {name: sea, mix: slate}", "drawing: found a list of 1"},
    };
    for (const auto& c : cases) {
        const std::string said = folder.refused(c.drawing, c.fields);
        EXPECT_NE(said.find(c.said), std::string::npos) << c.said << "\nsaid: " << said;
    }
    EXPECT_THROW(
        read_layout_text("panel: {size: [9, 9]}\nfields: [{name: a, drawn: x, mix: slate}]", "l.yaml"),
        LayoutError);
}

TEST(ReadDrawing, AMapGivesEachFieldItsColour) {
    const Folder folder;
    std::vector<std::uint8_t> bytes;
    for (int y = 0; y < 80; ++y)
        for (int x = 0; x < 100; ++x)
            for (const int c : y < 40 ? std::array{200, 190, 150} : std::array{31, 74, 90})
                bytes.push_back(static_cast<std::uint8_t>(c));
    const std::string file = (folder / "m.png").string();
    const auto out = OIIO::ImageOutput::create(file);
    ASSERT_TRUE(out->open(file, OIIO::ImageSpec(100, 80, 3, OIIO::TypeDesc::UINT8)));
    ASSERT_TRUE(out->write_image(OIIO::TypeDesc::UINT8, bytes.data()));
    out->close();
    const Layout layout = folder.read("{areas: m.png, colours: {sea: \"#1f4a5a\", sand: c8be96}}",
                                      "- {name: sea, guides: [[[0, 10], [100, 10]]], mix: slate}\n- {name: "
                                      "beach, drawn: sand, mix: slate}\n");
    const auto regions = plan_regions(layout, {});
    // The lower half and the upper one; half a joint of ground goes on beyond the edges, see region_plan.h.
    const Region panel = region_of(Ring{{0, 0}, {100, 0}, {100, 80}, {0, 80}});
    for (const Region& region : regions) EXPECT_NEAR(area_mm2(intersect(region, panel)), 4000, 0.01);
    EXPECT_TRUE(contains(regions[0], {50, 20}));
    EXPECT_TRUE(contains(regions[1], {50, 60}));
    EXPECT_TRUE(layout.warnings.empty());
}

}  // namespace
}  // namespace rakelight
