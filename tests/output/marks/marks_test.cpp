// The sheet of marks: as printed (poppler's pdfinfo and pdftoppm), as found by OpenCV in simulated
// photographs whose camera is known, and what is refused. Without the component what needs it is skipped.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdio>
#include <fstream>

#include "output/marks/mark_pages.h"
#include "output/marks/marked_plane.h"
#include "output/system/part_program.h"
#include "tests/support/photographed_sheet.h"
#include "tests/support/run_program.h"

namespace rakelight {
namespace {

using namespace test;

std::string said(const std::string& command) {
    std::string text;
    FILE* pipe = popen(command.c_str(), "r");
    char part[512];
    while (pipe && std::fgets(part, sizeof part, pipe)) text += part;
    if (pipe) pclose(pipe);
    return text;
}

glm::dvec3 print_at(const Print& print, const glm::dvec2& px) {
    const auto x = static_cast<int>(std::floor(px.x)), y = static_cast<int>(std::floor(px.y));
    if (x < 0 || y < 0 || x >= print.width || y >= print.height) return glm::dvec3(0.12, 0.10, 0.08);
    const auto i = 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(print.width) +
                        static_cast<std::size_t>(x));
    return 0.04 + 0.82 * glm::dvec3(print.rgb[i], print.rgb[i + 1], print.rgb[i + 2]);
}

BytePicture shot_of(const MarkSheet& sheet, const SheetShot& shot) {
    const Print print = print_page(mark_pages(sheet).front().page, 10);
    return photographed(shot, seen_by(shot, sheet.paper.size_mm),
                        [&](const glm::dvec2& mm) { return print_at(print, 10.0 * mm); });
}

/// A white drawing on a table with the four cards under its corners.
BytePicture shot_of_cards(const glm::dvec2& drawing_mm, const SheetShot& shot) {
    const auto marks = card_marks(drawing_mm);
    return photographed(shot, seen_by(shot, drawing_mm), [&](const glm::dvec2& mm) {
        if (mm.x >= 0 && mm.y >= 0 && mm.x < drawing_mm.x && mm.y < drawing_mm.y) return glm::dvec3(0.8);
        for (const PlacedMark& mark : marks) {
            const glm::dvec2 square = (mm - mark.at_mm) / (mark.size_mm / 7);
            if (square.x < -1 || square.y < -1 || square.x >= 8 || square.y >= 8) continue;
            const glm::ivec2 s(glm::floor(square));
            const bool border = s.x < 1 || s.y < 1 || s.x > 5 || s.y > 5;
            const bool outside = s.x < 0 || s.y < 0 || s.x > 6 || s.y > 6;
            return glm::dvec3(outside || (!border && white_square(mark.number, s.x - 1, s.y - 1)) ? 0.85
                                                                                                  : 0.04);
        }
        return glm::dvec3(0.2, 0.15, 0.1);
    });
}

/// How far the corners of the plane lie from where the camera has them, at most, in mm.
double worst_mm(const MarkedPlane& plane, const glm::dmat3& camera, const glm::dvec2& corner_mm) {
    double worst = 0;
    for (const glm::dvec2 part : {glm::dvec2(0, 0), glm::dvec2(1, 0), glm::dvec2(1, 1), glm::dvec2(0, 1)}) {
        const glm::dvec2 px = through(plane.to_px, part * plane.size_mm);
        worst = std::max(worst,
                         glm::distance(through(glm::inverse(camera), px), corner_mm + part * plane.size_mm));
    }
    return worst;
}

bool has_finder() {
    return find_part("find-marks").has_value();
}

#define NEEDS_FINDER \
    if (!has_finder()) GTEST_SKIP() << "libopencv-contrib-dev was not there"

TEST(Marks, TheCommandWritesBothPapersAtTrueSize) {
    const Folder folder;
    const Outcome o = run_in(folder, "marks --into out");
    ASSERT_EQ(o.code, 0) << o.err;
    // ISO 216 and ANSI A in points of 1/72 inch.
    for (const auto& [name, size] : {std::pair{"a4", "595.276 x 841.89"}, {"letter", "612 x 792"}}) {
        const std::string pdf = (folder / fmt::format("out/marks/marks-{}.pdf", name)).string();
        const std::string info = said("pdfinfo '" + pdf + "'");
        EXPECT_TRUE(holds(info, size)) << info;
        EXPECT_TRUE(holds(info, "Pages:           2")) << info;
    }
}

TEST(Marks, OpenCvReadsEveryMarkOfThePrintedPages) {
    NEEDS_FINDER;
    const Folder folder;
    ASSERT_EQ(run_in(folder, "marks --into out").code, 0);
    std::vector<int> numbers;
    for (const auto& [name, page] : {std::pair{"a4", 1}, {"letter", 1}, {"a4", 2}}) {
        ASSERT_EQ(std::system(fmt::format("pdftoppm -r 254 -f {0} -l {0} -singlefile '{1}' '{2}'", page,
                                          (folder / fmt::format("out/marks/marks-{}.pdf", name)).string(),
                                          (folder / fmt::format("{}-{}", name, page)).string())
                                  .c_str()),
                  0);
        for (const SeenMark& mark :
             see_marks(read_byte_picture(folder / fmt::format("{}-{}.ppm", name, page)))) {
            numbers.push_back(mark.number);
            if (mark.number != 0) continue;  // 7 mm from the corner, 21 mm large, ten pixels a millimetre
            EXPECT_LT(glm::distance(mark.corners_px[0], glm::dvec2(70)), 0.8);
            EXPECT_LT(glm::distance(mark.corners_px[2], glm::dvec2(280)), 0.8);
        }
    }
    EXPECT_EQ(numbers, (std::vector<int>{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11}));
}

TEST(Marks, TheFrameIsFoundInPhotographs) {
    NEEDS_FINDER;
    std::uint64_t seed = 0;
    for (const MarkSheet& sheet : mark_sheets())
        for (const double turn : {0.0, 35.0, 180.0}) {
            SheetShot shot{{1300, 1500}, 3.6, 18, -8, turn};
            shot.seed = ++seed;
            const MarkedPlane plane = marked_plane(see_marks(shot_of(sheet, shot)), std::nullopt);
            EXPECT_EQ(plane.marks, 4);
            EXPECT_EQ(plane.size_mm, sheet.frame_size_mm);
            EXPECT_LT(worst_mm(plane, seen_by(shot, sheet.paper.size_mm), sheet.frame_at_mm), 0.25) << turn;
        }
}

TEST(Marks, APartOfTheFrameCountsFromItsLowerLeftCorner) {
    NEEDS_FINDER;
    const SheetShot shot{{1000, 1200}, 3};
    const MarkSheet& a4 = mark_sheets()[0];
    const MarkedPlane plane = marked_plane(see_marks(shot_of(a4, shot)), glm::dvec2(148, 105));
    const glm::dvec2 corner = a4.frame_at_mm + glm::dvec2(0, a4.frame_size_mm.y - 105);
    EXPECT_LT(worst_mm(plane, seen_by(shot, a4.paper.size_mm), corner), 0.25);
}

TEST(Marks, ADrawingIsFoundByItsCornerCards) {
    NEEDS_FINDER;
    const glm::dvec2 drawing(600, 450);
    SheetShot shot{{1800, 1400}, 2.3, 15, 6};
    const BytePicture picture = shot_of_cards(drawing, shot);
    const MarkedPlane plane = marked_plane(see_marks(picture), drawing);
    EXPECT_LT(worst_mm(plane, seen_by(shot, drawing), {0, 0}), 0.4);
    EXPECT_LT(plane.misfit_mm, 0.2);
    EXPECT_THROW(marked_plane(see_marks(picture), glm::dvec2(500, 400)), std::runtime_error);
    EXPECT_THROW(marked_plane(see_marks(picture), std::nullopt), std::runtime_error);
}

std::string refusal(const std::vector<SeenMark>& seen, const std::optional<glm::dvec2>& paper) {
    try {
        marked_plane(seen, paper);
    } catch (const std::runtime_error& e) {
        return e.what();
    }
    return "nothing";
}

/// Marks as a camera straight above sees them, a pixel a millimetre.
std::vector<SeenMark> from_above(std::span<const PlacedMark> marks) {
    std::vector<SeenMark> seen;
    for (const PlacedMark& mark : marks) seen.push_back({mark.number, mark.corners_mm()});
    return seen;
}

TEST(Marks, WhatCannotBeReadIsRefusedInWords) {
    const auto& a4 = mark_sheets()[0];
    auto seen = from_above(a4.marks);
    EXPECT_TRUE(holds(refusal({}, {}), "found no printed marks"));
    EXPECT_TRUE(holds(refusal(seen, glm::dvec2(300, 200)), "whose frame is 196 x 234 mm"));
    EXPECT_EQ(refusal(seen, {}), "nothing");
    seen.pop_back();
    EXPECT_EQ(refusal(seen, {}), "nothing");  // three are enough
    seen.pop_back();
    EXPECT_TRUE(holds(refusal(seen, {}), "found 2 of the four marks"));
    seen.push_back(seen.back());
    EXPECT_TRUE(holds(refusal(seen, {}), "twice"));
    auto cards = from_above(card_marks({400, 300}));
    EXPECT_EQ(refusal(cards, glm::dvec2(400, 300)), "nothing");
    EXPECT_TRUE(holds(refusal(cards, {}), "expected paper:"));
    EXPECT_TRUE(holds(refusal(cards, glm::dvec2(500, 300)), "off where they should"));
    cards.pop_back();
    EXPECT_TRUE(holds(refusal(cards, glm::dvec2(400, 300)), "found 3 of the four corner cards"));
}

TEST(Marks, APlaneIsFoundFromItsPoints) {
    const SheetShot shot;
    const glm::dmat3 camera = seen_by(shot, {300, 200});
    std::vector<SeenPoint> points;
    for (const glm::dvec2 at : {glm::dvec2(0, 0), glm::dvec2(300, 0), glm::dvec2(300, 200),
                                glm::dvec2(0, 200), glm::dvec2(120, 70), glm::dvec2(40, 160)})
        points.push_back({at, through(camera, at)});
    const PlaneFit fit = fit_plane(points);
    EXPECT_LT(fit.misfit_mm, 1e-7);
    EXPECT_LT(glm::distance(through(fit.to_px, {150, 20}), through(camera, {150, 20})), 1e-6);
    points.resize(4);
    EXPECT_LT(glm::distance(through(fit_plane(points).to_px, {150, 20}), through(camera, {150, 20})), 1e-6);
}

TEST(Marks, APictureThatIsNoneIsRefused) {
    const Folder folder;
    EXPECT_THROW(read_byte_picture(folder / "missing.png"), std::runtime_error);
    EXPECT_THROW(read_byte_picture(folder.write("text.png", "not a picture")), std::runtime_error);
    EXPECT_THROW(read_byte_picture(folder.write("small.ppm", "P6 1 1 255\nabc")), std::runtime_error);
}

}  // namespace
}  // namespace rakelight
