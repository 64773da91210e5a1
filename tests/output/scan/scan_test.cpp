// Drawings on paper from end to end: pages drawn in pencil by scenes/kelp.svg and by a drawing that nothing
// was tuned on, photographed from the side with a shadow across, kept as JPEG. What is true of them is known
// from the lines that were drawn. Without the component what needs it is skipped.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "output/marks/mark_sheet.h"
#include "output/scan/prepare.h"
#include "output/system/part_program.h"
#include "scene/drawing/svg/reader.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/drawn_page.h"
#include "tests/support/run_program.h"

namespace rakelight {
namespace {

using namespace test;

#define NEEDS_FINDER \
    if (!find_part("find-lines")) GTEST_SKIP() << "libopencv-contrib-dev was not there"

constexpr glm::dvec3 kBlue(0.85, 0.65, 0.15), kRed(0.1, 0.75, 0.7), kGreen(0.8, 0.15, 0.7);

struct Drawn {
    glm::dvec2 size_mm{};
    std::vector<Line> outlines;  ///< closed ones come back to their first point
    std::vector<Line> guides;
};

/// Of an SVG file: closed paths in pencil, open ones with a blue felt-tip.
Drawn drawn_from(const std::string& svg, double width_mm) {
    const Drawing drawing = read_svg(svg, {width_mm, 0.02});
    Drawn drawn{drawing.size_mm, {}, {}};
    for (const DrawnPath& path : drawing.paths)
        for (const DrawnLine& line : path.lines) {
            Line points;
            for (const glm::dvec2& p : line.points_mm) points.push_back({p.x, drawing.size_mm.y - p.y});
            if (line.closed) points.push_back(points.front());
            (line.closed ? drawn.outlines : drawn.guides).push_back(std::move(points));
        }
    return drawn;
}

/// Each outline with one gap, somewhere along it.
DrawnPage page_of(const Drawn& drawn, double gap_mm) {
    DrawnPage page(drawn.size_mm);
    std::size_t i = 0;
    for (const Line& line : drawn.outlines) {
        const double length = length_of(line), at = length * (0.31 + 0.07 * static_cast<double>(i++ % 5));
        page.pencil(part_of(line, 0, at));
        page.pencil(part_of(line, at + gap_mm, length));
    }
    for (const Line& line : drawn.guides) page.felt(line, kBlue);
    return page;
}

std::string corners_of(const SheetShot& shot, const glm::dvec2& size_mm) {
    const glm::dmat3 camera = seen_by(shot, size_mm);
    std::string text;
    for (const glm::dvec2 part : {glm::dvec2(0, 0), glm::dvec2(1, 0), glm::dvec2(1, 1), glm::dvec2(0, 1)}) {
        const glm::dvec2 px = through(camera, part * size_mm);
        text += fmt::format("{}[{:.0f}, {:.0f}]", text.empty() ? "" : ", ", px.x, px.y);  // as a person types
    }
    return "[" + text + "]";
}

struct Judged {
    std::size_t regions = 0, found = 0;  ///< true ones, and those with one found region of their own
    double within_95_mm = 0;             ///< of points along found outlines, from what was drawn
};

/// The SVG that was kept, against what was drawn.
Judged judge(const std::filesystem::path& svg, const Drawn& drawn) {
    const Drawing found = read_svg(svg, {0, 0.001});
    const TrueRegions truth(drawn.size_mm, drawn.outlines);
    std::vector<Face> faces;
    std::vector<double> away;
    for (const DrawnPath& path : found.paths) {
        Face face;
        for (const DrawnLine& line : path.lines) {
            if (!line.closed) continue;
            Line ring;
            for (const glm::dvec2& p : line.points_mm) ring.push_back({p.x, drawn.size_mm.y - p.y});
            (face.outer_mm.empty() ? face.outer_mm : face.holes_mm.emplace_back()) = ring;
            for (std::size_t i = 0; i < ring.size(); ++i) {
                const glm::dvec2 a = ring[i], b = ring[(i + 1) % ring.size()];
                const int n = 1 + static_cast<int>(glm::distance(a, b) / 0.25);
                for (int k = 0; k < n; ++k) away.push_back(truth.away_mm(glm::mix(a, b, double(k) / n)));
            }
        }
        if (!face.outer_mm.empty()) faces.push_back(std::move(face));
    }
    Judged judged;
    std::vector<int> holds(faces.size(), 0);
    std::vector<std::size_t> of;
    for (const TrueRegions::Part& part : truth.parts()) {
        if (part.area_mm2 < 60 || part.clear_mm < 2) continue;
        ++judged.regions;
        const auto at = std::find_if(faces.begin(), faces.end(),
                                     [&](const Face& f) { return f.contains(part.middle_mm); });
        of.push_back(static_cast<std::size_t>(at - faces.begin()));
        if (at != faces.end()) ++holds[of.back()];
    }
    for (const std::size_t f : of) judged.found += f < faces.size() && holds[f] == 1;
    std::sort(away.begin(), away.end());
    judged.within_95_mm = away.empty() ? 99 : away[away.size() * 95 / 100];
    return judged;
}

TEST(Scan, KelpInPencilFromTheSide) {
    NEEDS_FINDER;
    const Folder folder;
    const Drawn drawn = drawn_from(RAKELIGHT_SCENES "/kelp.svg", 600);
    const DrawnPage page = page_of(drawn, 3);
    const SheetShot shot{{3300, 2500}, 5, 15, 4};
    save_jpeg(
        photographed(shot, seen_by(shot, drawn.size_mm), [&](const glm::dvec2& mm) { return page.at(mm); }),
        folder / "page.jpg", 80);
    const auto layout = folder.write(
        "kelp.yaml", fmt::format("panel: {{size: [600, 440]}}\n"
                                 "drawing: {{scan: page.jpg, paper: [600, 440], corners: {}, gaps: 3}}\n"
                                 "fields: [{{name: all, mix: slate, piece: 20}}]\n",
                                 corners_of(shot, drawn.size_mm)));
    EXPECT_TRUE(holds(prepare_scan(layout, {}), "page-found.svg"));
    const Judged judged = judge(folder / "page-found.svg", drawn);
    EXPECT_GT(judged.regions, 10u);
    EXPECT_EQ(judged.found, judged.regions);
    EXPECT_LT(judged.within_95_mm, 0.7);
}

/// A drawing that nothing was tuned on: hills one behind another, a moon with a crescent, a boat with a mast
/// and a sail, stepping stones, and a frame of straight lines.
Drawn hills() {
    Drawn drawn{{420, 300}, {}, {}};
    const auto curve = [](auto of, int n) {
        Line line;
        for (int i = 0; i <= n; ++i) line.push_back(of(double(i) / n));
        return line;
    };
    const auto circle = [&](glm::dvec2 at, double a, double b) {
        return curve(
            [=](double t) {
                const double w = 2 * std::numbers::pi * t;
                return at + glm::dvec2(a * std::cos(w), b * std::sin(w) * (1 + 0.15 * std::cos(3 * w)));
            },
            160);
    };
    for (int k = 0; k < 3; ++k)
        drawn.outlines.push_back(curve(
            [=](double t) {
                return glm::dvec2(420 * t,
                                  120 + 45 * k - 28 * std::sin(5 * t + 2.1 * k) - 9 * std::sin(13 * t + k));
            },
            300));
    drawn.outlines.push_back(circle({318, 52}, 30, 30));
    drawn.outlines.push_back(
        curve([](double t) { return glm::dvec2(306 + 9 * std::sin(3.14 * t), 29 + 46 * t); }, 40));
    for (int k = 0; k < 5; ++k) drawn.outlines.push_back(circle({50.0 + 62 * k, 268 - 5 * k}, 20, 11));
    drawn.outlines.push_back({{40, 20}, {95, 20}, {95, 62}, {40, 62}, {40, 20}});
    drawn.outlines.push_back({{67, 20}, {67, 62}});
    drawn.guides.push_back(
        curve([](double t) { return glm::dvec2(20 + 380 * t, 245 - 12 * std::sin(6 * t)); }, 200));
    return drawn;
}

/// Photographed between four printed cards.
BytePicture hills_with_cards(const Drawn& drawn) {
    DrawnPage page = page_of({drawn.size_mm, drawn.outlines, {}}, 2);
    for (const Line& line : drawn.guides) page.felt(line, kGreen);
    page.spot({55, 40}, 4, kRed);
    page.spot({112, 264}, 4, kRed);
    page.spot({330, 55}, 5, kBlue);
    SheetShot shot{{2600, 2100}, 4.3, -15, 7, 3};
    shot.shadow = 0.5;
    shot.seed = 9;
    const auto marks = card_marks(drawn.size_mm);
    return photographed(shot, seen_by(shot, drawn.size_mm), [&](const glm::dvec2& mm) {
        for (const PlacedMark& mark : marks) {
            const glm::ivec2 s(glm::floor((mm - mark.at_mm) / (mark.size_mm / 7)));
            if (s.x < -1 || s.y < -1 || s.x > 7 || s.y > 7) continue;
            const bool within = s.x > 0 && s.y > 0 && s.x < 6 && s.y < 6,
                       out = s.x < 0 || s.y < 0 || s.x > 6 || s.y > 6;
            return glm::dvec3(out || (within && white_square(mark.number, s.x - 1, s.y - 1)) ? 0.85 : 0.04);
        }
        return page.at(mm);
    });
}

std::size_t with_name(const Layout& layout, const std::string& name) {
    std::size_t i = 0;
    while (layout.fields.at(i).name != name) ++i;
    return i;
}

TEST(Scan, AnotherDrawingBetweenCardsWithSpots) {
    NEEDS_FINDER;
    const Folder folder;
    const Drawn drawn = hills();
    save_jpeg(hills_with_cards(drawn), folder / "hills.jpg", 80);
    const auto layout =
        folder.write("hills.yaml",
                     "panel: {size: [840, 600]}\n"
                     "drawing: {scan: hills.jpg, paper: [420, 300], width: 840 mm, gaps: 2}\n"
                     "fields:\n"
                     "  - {name: stones, outline: {scan spot: red}, mix: slate, piece: 12}\n"
                     "  - {name: moon, outline: {scan spot: blue}, mix: foam-white, piece: 12}\n"
                     "  - {name: shore, outline: {scan at: [400, 20]}, opus: musivum, mix: aqua, piece: 14}\n"
                     "  - {name: rest, mix: deep-teal, piece: 20}\n");
    const Outcome o = run_in(folder, "check hills.yaml");
    ASSERT_EQ(o.code, 0) << o.err;
    EXPECT_TRUE(std::filesystem::exists(folder / "renders/hills/scan.png"));
    const Judged judged = judge(folder / "hills-found.svg", drawn);
    EXPECT_GE(judged.regions, 12u);
    EXPECT_EQ(judged.found, judged.regions);
    EXPECT_LT(judged.within_95_mm, 0.7);
    // Areas from the lines that were drawn, on a panel twice as large: 27 x 42 and an oval; the crescent is
    // the rest of a disc.
    const Layout read = read_layout(layout);
    const auto area = [&](const std::string& name) {
        const Field& field = read.fields[with_name(read, name)];
        std::vector<Ring> rings{field.outline.points_mm};
        for (const Stroke& ring : field.more_rings) rings.push_back(ring.points_mm);
        return area_mm2(region_of(rings, true)) / 4;
    };
    const double oval = std::numbers::pi * 20 * 11;
    EXPECT_NEAR(area("stones"), 27 * 42 + oval, 0.05 * (27 * 42 + oval));
    EXPECT_GT(area("moon"), 0.6 * std::numbers::pi * 900);
    EXPECT_FALSE(read.fields[with_name(read, "shore")].guides.empty());  // the green line
}

TEST(Scan, WhatWasFoundIsKeptAndNeedsNoFinderAgain) {
    NEEDS_FINDER;
    const Folder folder;
    Drawn drawn{{100, 80}, {{{-5, 40}, {105, 44}}, {{20, 10}, {40, 10}, {40, 25}, {20, 25}, {20, 10}}}, {}};
    SheetShot shot{{900, 720}, 8, 0, 0};
    const DrawnPage page = page_of(drawn, 0);
    const auto picture =
        photographed(shot, seen_by(shot, drawn.size_mm), [&](const glm::dvec2& mm) { return page.at(mm); });
    save_jpeg(picture, folder / "a.jpg", 90);
    const std::string said = fmt::format(
        "panel: {{size: [100, 80]}}\n"
        "drawing: {{scan: a.jpg, paper: [100, 80], corners: {}}}\n"
        "fields: [{{name: low, outline: {{scan at: [50, 10]}}, mix: slate, piece: 9}}]\n",
        corners_of(shot, drawn.size_mm));
    folder.write("a.yaml", said);
    // A program without its parts beside it.
    std::filesystem::create_directories(folder / "bare/bin");
    std::filesystem::copy_file(RAKELIGHT_PROGRAM, folder / "bare/bin/rakelight");
    const auto bare = [&](const std::string& words) {
        return std::system(
            fmt::format("cd '{}' && bare/bin/rakelight {} >.out 2>.err", folder.path().string(), words)
                .c_str());
    };
    EXPECT_EQ(WEXITSTATUS(bare("check a.yaml")), 2);
    EXPECT_TRUE(holds(bytes_of(folder / ".err"), "libopencv-contrib-dev")) << bytes_of(folder / ".err");
    EXPECT_FALSE(std::filesystem::exists(folder / "a-found.svg"));
    EXPECT_THROW(read_layout(folder / "a.yaml"), LayoutError);

    ASSERT_EQ(run_in(folder, "lay a.yaml").code, 0);  // any command finds it where that is due
    const std::string found = bytes_of(folder / "a-found.svg");
    EXPECT_EQ(bare("check a.yaml"), 0) << bytes_of(folder / ".err");
    EXPECT_EQ(bytes_of(folder / "a-found.svg"), found);
    std::filesystem::remove(folder / "a-found.svg");
    ASSERT_EQ(run_in(folder, "check a.yaml").code, 0);
    EXPECT_EQ(bytes_of(folder / "a-found.svg"), found);  // to the byte

    // Edited by hand: taken as it is, and never written over.
    std::string edited = found;
    edited.replace(edited.find("region-1"), 8, "region-9");
    folder.write("a-found.svg", edited);
    EXPECT_EQ(run_in(folder, "check a.yaml").code, 0);
    const Outcome o = run_in(folder, "check a.yaml --set drawing.gaps=1");
    EXPECT_EQ(o.code, 2);
    EXPECT_TRUE(holds(o.err, "changed by hand")) << o.err;
    EXPECT_EQ(bytes_of(folder / "a-found.svg"), edited);
}

TEST(Scan, WhatCannotBeReadIsRefusedWithPlaceAndReason) {
    NEEDS_FINDER;
    const Folder folder;
    const DrawnPage blank({100, 80});
    const SheetShot shot{{700, 560}, 5, 0, 0};
    save_jpeg(
        photographed(shot, seen_by(shot, {100, 80}), [&](const glm::dvec2& mm) { return blank.at(mm); }),
        folder / "blank.jpg", 90);
    folder.write("text.jpg", "no picture");
    const auto refused = [&](const std::string& drawing, const std::string& outline, const std::string& why) {
        folder.write("l.yaml", "panel: {size: [100, 80]}\ndrawing: " + drawing +
                                   "\nfields: [{name: a, outline: " + outline + ", mix: slate, piece: 9}]\n");
        const Outcome o = run_in(folder, "check l.yaml");
        EXPECT_EQ(o.code, 2) << drawing << o.err;
        EXPECT_TRUE(holds(o.err, why)) << drawing << "\n" << o.err;
        EXPECT_TRUE(holds(o.err, "l.yaml:")) << o.err;
        EXPECT_FALSE(std::filesystem::exists(folder / "blank-found.svg"));
    };
    const std::string at = "{scan at: [50, 40]}",
                      corners = "corners: [[0, 0], [700, 0], [700, 560], [0, 560]]";
    refused("{scan: missing.jpg}", at, "no such file");
    refused("{scan: text.jpg, paper: [100, 80], " + corners + "}", at, "no picture");
    refused("{scan: blank.jpg}", at, "found no printed marks");
    refused("{scan: blank.jpg, " + corners + "}", at, "expected the paper's [width, height]");
    refused("{scan: blank.jpg, paper: [100, 80], corners: [[0, 0], [0, 560], [700, 560], [700, 0]]}", at,
            "out of order");
    refused("{scan: blank.jpg, paper: [100, 80], corners: half}", at, "whole");
    refused("{scan: blank.jpg, paper: [100, 80], corners: [[9000, 0], [9900, 0], [9900, 99], [9000, 99]]}",
            at, "pixels of the picture of 700 x 560");
    refused("{scan: blank.jpg, paper: [5000, 4000], corners: whole}", at, "pixels a millimetre of paper");
    refused("{scan: blank.jpg, paper: [100, 80], corners: [[100, 80], [600, 80], [600, 480], [100, 480]]}",
            at, "found no lines");
    refused("{scan: blank.jpg, paper: [100, 80], corners: whole, outlines: pink}", at, "expected one of");
    refused("{scan: blank.jpg, file: a.svg}", at, "several of them");
}

TEST(Scan, RegionsThatAreNotThereAreRefused) {
    NEEDS_FINDER;
    const Folder folder;
    const Drawn drawn{{100, 80}, {{{-5, 40}, {105, 44}}}, {}};
    const SheetShot shot{{700, 560}, 6, 0, 0};
    const DrawnPage page = page_of(drawn, 0);
    save_jpeg(
        photographed(shot, seen_by(shot, drawn.size_mm), [&](const glm::dvec2& mm) { return page.at(mm); }),
        folder / "a.jpg", 90);
    const auto refused = [&](const std::string& drawing, const std::string& outline, const std::string& why) {
        folder.write("a.yaml",
                     fmt::format("panel: {{size: [100, 80]}}\n{}fields: [{{name: a, outline: {}, mix: slate, "
                                 "piece: 9}}]\n",
                                 drawing, outline));
        expect_refused(folder, "check a.yaml", why);
    };
    const std::string scan = fmt::format("drawing: {{scan: a.jpg, paper: [100, 80], corners: {}}}\n",
                                         corners_of(shot, drawn.size_mm));
    refused(scan, "{scan at: [50, 200]}", "found no region at [50, 200] mm");
    refused(scan, "{scan spot: red}", "found no spot of red");
    refused(scan, "{scan spot: pink}", "expected one of");
    refused(scan, "{scan at: [1, two]}", "scan at");
    refused("", "{scan at: [50, 40]}", "the layout's drawing is none");
}

}  // namespace
}  // namespace rakelight
