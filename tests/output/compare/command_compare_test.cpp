// `rakelight compare`, run as a person would: a small panel is rendered, photographed by a simulated camera
// with one glass and one grout of another colour, held against its picture, corrected and rendered again.
#include <OpenImageIO/imagebuf.h>
#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>

#include "output/compare/compared.h"
#include "output/film/film_file.h"
#include "output/marks/mark_sheet.h"
#include "output/system/part_program.h"
#include "tests/support/photographed.h"
#include "tests/support/run_program.h"

namespace rakelight {
namespace {

using test::expect_refused;
using test::holds;
using test::Outcome;
using test::run_in;

std::string layout(const std::string& head, const std::string& aqua, const std::string& coral) {
    return head +
           "panel: {name: Trial, size: [120, 90]}\n"
           "fields:\n"
           "  - {name: left, outline: [[0, 0], [60, 0], [60, 90], [0, 90]], opus: regulatum, piece: 12, "
           "joint: "
           "2, mix: {foam-white: 50 %, " +
           aqua +
           ": 50 %}, bed: white, grout: sand}\n"
           "  - {name: right, opus: regulatum, piece: 12, joint: 2, mix: " +
           coral +
           ", bed: white, grout: sand}\n"
           "room: {size: [4000, 4000, 2700], panel centre height: 1450}\n"
           "lamps:\n"
           "  - {name: spot, at: [900, 2500, 1200], aim: [0, 1450, 0], lumen: 900, beam angle: 40}\n"
           "viewpoints:\n"
           "  - {name: straight, distance: 900, height: 1450, view width: 160}\n";
}

const char* kPreview = "preview trial.yaml --size 240x180 --most-samples 24 --quiet";

struct Trial {
    test::Folder folder;
    NotedFilm noted;
    test::ByCamera by;
    Corners in_picture{};

    Trial() {
        folder.write("trial.yaml", layout("", "aqua", "coral"));
        const Outcome o = run_in(folder, kPreview);
        EXPECT_EQ(o.code, 0) << o.err;
        noted = read_film(folder.path() / "renders/trial/straight.exr");
        in_picture = corners_of_pieces(noted.film);
        by.width = 1200, by.height = 600;
        by.chart = {{{740, 110}, {1160, 118}, {1155, 390}, {745, 396}}};
        by.to_photo = homography(in_picture, {glm::dvec2(130, 90), {690, 110}, {670, 520}, {120, 500}});
        by.light_white = total_illuminance_xyz(noted.notes);
        by.noise = 0.01;
        for (std::size_t m = 0; m < noted.film.materials.size(); ++m) {
            if (noted.film.materials[m] == "aqua") by.recolour[static_cast<int>(m) + 1] = {1.3, 1.05, 0.9};
            if (noted.film.materials[m] == "coral") by.recolour[static_cast<int>(m) + 1] = {0.8, 0.9, 1.0};
        }
        test::photograph(folder.path() / "photo.png", noted.film, by);
    }
};

double off(const nlohmann::json& j, const std::string& name) {
    for (const auto& m : j["materials"])
        if (m["name"] == name) return m["ciede2000"];
    return -1;
}

// The four corner cards round the panel, painted into the photograph.
void lay_cards(const std::filesystem::path& photo, const Corners& panel_px) {
    OIIO::ImageBuf picture(photo.string());
    ASSERT_TRUE(picture.read(0, 0, true, OIIO::TypeDesc::FLOAT));
    const glm::dmat3 to_mm = homography(panel_px, {{{0, 0}, {120, 0}, {120, 90}, {0, 90}}});
    for (OIIO::ImageBuf::Iterator<float> at(picture); !at.done(); ++at)
        for (const PlacedMark& mark : card_marks({120, 90})) {
            const glm::dvec2 mm = projected(to_mm, {at.x() + 0.5, at.y() + 0.5});
            const glm::ivec2 s(glm::floor((mm - mark.at_mm) / (mark.size_mm / 7)));
            if (s.x < -1 || s.y < -1 || s.x > 7 || s.y > 7) continue;
            const bool outside = s.x < 0 || s.y < 0 || s.x > 6 || s.y > 6;
            const bool inside = s.x > 0 && s.y > 0 && s.x < 6 && s.y < 6;
            const bool white = outside || (inside && white_square(mark.number, s.x - 1, s.y - 1));
            for (int c = 0; c < 3; ++c) at[c] = white ? 0.9f : 0.05f;
        }
    const std::filesystem::path with = photo.parent_path() / "cards.png";
    ASSERT_TRUE(picture.write(with.string(), OIIO::TypeDesc::UINT8));
}

const std::string kCorners = " --corners 134,86 686,113 674,516 117,503";

TEST(CommandCompare, CornerCardsSayWhereThePanelLies) {
    Trial t;
    expect_refused(t.folder, "compare photo.png renders/trial/straight.exr",
                   "--corners: found nothing, expected four points, or corner cards");
    if (!find_part("find-marks")) GTEST_SKIP() << "libopencv-contrib-dev was not there";
    expect_refused(t.folder, "compare photo.png renders/trial/straight.exr --layout trial.yaml",
                   "photo.png: found no printed marks in the picture; or give --corners");
    const Corners panel{{{400, 300}, {960, 320}, {940, 730}, {390, 710}}};
    t.by.width = 1700, t.by.height = 1100;
    t.by.chart = {{{1300, 300}, {1600, 300}, {1600, 500}, {1300, 500}}};
    t.by.to_photo = homography(t.in_picture, panel);
    test::photograph(t.folder.path() / "photo.png", t.noted.film, t.by);
    lay_cards(t.folder.path() / "photo.png", panel);
    const Outcome o =
        run_in(t.folder, "compare cards.png renders/trial/straight.exr --layout trial.yaml --json");
    ASSERT_EQ(o.code, 0) << o.err;
    const auto found = nlohmann::json::parse(o.out).at("corners_given_px");
    for (std::size_t i = 0; i < 4; ++i) {
        EXPECT_NEAR(found.at(i).at(0).get<double>(), panel[i].x, 4);
        EXPECT_NEAR(found.at(i).at(1).get<double>(), panel[i].y, 4);
    }
}

TEST(CommandCompare, SaysWhatIsOffAndBringsTheNextPictureNearer) {
    const Trial t;
    const Outcome o =
        run_in(t.folder, "compare photo.png renders/trial/straight.exr" + kCorners +
                             " --white foam-white --layout trial.yaml --correct seen.yaml --json");
    ASSERT_EQ(o.code, 0) << o.err;
    const auto j = nlohmann::json::parse(o.out);
    for (std::size_t i = 0; i < 4; ++i) {
        const glm::dvec2 truth = projected(t.by.to_photo, t.in_picture[i]);
        EXPECT_NEAR(j["corners_px"][i][0].get<double>(), truth.x, 1);
        EXPECT_NEAR(j["corners_px"][i][1].get<double>(), truth.y, 1);
    }
    EXPECT_GT(off(j, "aqua"), 4);
    EXPECT_GT(off(j, "coral"), 3);
    EXPECT_LT(off(j, "sand"), 1);
    EXPECT_EQ(j["fields"].size(), 2u);
    EXPECT_EQ(j["corrections"].size(), 2u);
    for (const char* file : {"", "-photograph", "-picture"})
        EXPECT_TRUE(std::filesystem::exists(t.folder.path() / "renders/trial" /
                                            (std::string("compare-straight") + file + ".png")));

    t.folder.write("trial.yaml", layout("stock from: seen.yaml\n", "aqua-as-seen", "coral-as-seen"));
    const Outcome again = run_in(t.folder, kPreview);
    ASSERT_EQ(again.code, 0) << again.err;
    const Outcome nearer = run_in(t.folder, "compare photo.png renders/trial/straight.exr" + kCorners +
                                                " --white foam-white --layout trial.yaml --json");
    ASSERT_EQ(nearer.code, 0) << nearer.err;
    const auto k = nlohmann::json::parse(nearer.out);
    EXPECT_LT(off(k, "aqua-as-seen"), 0.35 * off(j, "aqua"));
    EXPECT_LT(off(k, "coral-as-seen"), 0.35 * off(j, "coral"));
}

const std::string kChart = " --chart 740,110 1160,118 1155,390 745,396";

// The lamp is not D65, but the simulated camera shows the picture as adapted to it, the chart likewise.
TEST(CommandCompare, AChartGivesExposureAndWhite) {
    const Trial t;
    const std::string files =
        "compare photo.png renders/trial/straight.exr" + kCorners + " --light D65 --json";
    const Outcome told = run_in(t.folder, files + kChart);
    ASSERT_EQ(told.code, 0) << told.err;
    const auto j = nlohmann::json::parse(told.out);
    EXPECT_LT(off(j, "foam-white"), 1.5);
    EXPECT_LT(off(j, "sand"), 1.5);
    EXPECT_GT(off(j, "aqua"), 4);
    EXPECT_EQ(j["gain"][0], 1);
    EXPECT_EQ(j["chart_px"][2][0], 1155);
    const Outcome found = run_in(t.folder, files + " --find-chart");
    if (found.code != 0) {  // without its part it says so
        EXPECT_TRUE(holds(found.err, "needs its part find-chart")) << found.err;
        return;
    }
    EXPECT_TRUE(holds(found.err, "The chart is found at 7")) << found.err;
    EXPECT_LT(off(nlohmann::json::parse(found.out), "foam-white"), 1.5);
}

TEST(CommandCompare, BadInputHasAReasonAndLeavesNothing) {
    const Trial t;
    const auto before = t.folder.entries();
    const std::string files = "compare photo.png renders/trial/straight.exr ";
    expect_refused(t.folder, "compare none.jpg renders/trial/straight.exr" + kCorners,
                   "none.jpg: found no file \"none.jpg\"");
    expect_refused(t.folder, "compare trial.yaml renders/trial/straight.exr" + kCorners,
                   "trial.yaml: found a file that");
    expect_refused(t.folder, "compare photo.png renders/trial/straight.png" + kCorners, "straight.png");
    expect_refused(t.folder, files + "--corners 130,90 690,110 670,520", "--corners");
    expect_refused(t.folder, files + "--corners 130,90 690,110 670,520 120/500", "expected x,y in pixels");
    expect_refused(t.folder, files + "--corners 130,90 6900,110 670,520 120,500",
                   "which has 1200 x 600 pixels");
    expect_refused(t.folder, files + "--corners 130,90 670,520 690,110 120,500", "that do not go round");
    expect_refused(t.folder, files + kCorners + " --white foam-whit", "did you mean foam-white");
    expect_refused(t.folder, files + kCorners + " --correct seen.yaml", "--layout");
    expect_refused(t.folder, files + kCorners + " --chart 740,110 1160,118 1155,390", "--chart");
    expect_refused(t.folder, files + kCorners + " --chart 740,110 1260,118 1155,390 745,396",
                   "--chart: found a corner at 1260, 118");
    expect_refused(t.folder, files + kCorners + " --chart 1155,390 745,396 740,110 1160,118",
                   "photo.png: the chart lies upside down");
    expect_refused(t.folder, files + kCorners + kChart + " --find-chart", "--find-chart");
    expect_refused(t.folder, files + kCorners + kChart + " --light LED-B", "--light: found \"LED-B\"");
    expect_refused(t.folder, files + kCorners + " --light A", "--light: found no chart");
    t.folder.write("other.yaml", layout("", "coral", "aqua"));
    expect_refused(t.folder, files + kCorners + " --layout other.yaml", "found a picture of other pieces");
    std::filesystem::remove(t.folder.path() / "other.yaml");
    EXPECT_EQ(t.folder.entries(), before);
    for (const auto& file : std::filesystem::directory_iterator(t.folder.path() / "renders/trial"))
        EXPECT_EQ(file.path().filename().string().find("compare"), std::string::npos) << file.path();
}

}  // namespace
}  // namespace rakelight
