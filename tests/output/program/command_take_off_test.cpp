// `rakelight take-off`, run as a person would; its pages turned into pixels by another program (pdftoppm of
// poppler-utils) and measured.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <sstream>

#include "tests/support/run_program.h"
#include "tests/support/svg_checks.h"

namespace rakelight {
namespace {

using Json = nlohmann::json;
using test::bytes_of;
using test::holds;
using test::Outcome;
using test::run_in;

constexpr const char* kTide =
    "panel: {name: Tide, size: [160, 115]}\n"
    "stones: [{material: slag, at: [40, 42], size: [60, 50, 38], proud: 26}]\n"
    "fields:\n"
    "  - {name: foam, outline: [[80, -5], [130, -5], [150, 70], [110, 120], [95, 120]], opus: tessellatum, "
    "piece: 9,"
    " joint: 1.6, mix: foam-white, bed: white, grout: pale-grey, zone: foam}\n"
    "  - {name: sea, opus: tessellatum, piece: [10, 8], joint: 1.6, mix: {aqua: 60 %, slate: 40 %}, bed: "
    "white,"
    " grout: charcoal, zone: deep water}\n";

std::filesystem::path written(const test::Folder& folder, const std::string& name) {
    return folder.path() / "renders" / "tide" / name;
}

std::string shell(const std::string& command, const std::filesystem::path& out) {
    EXPECT_EQ(std::system((command + " > '" + out.string() + "' 2>/dev/null").c_str()), 0) << command;
    return bytes_of(out);
}

std::string text_of(const test::Folder& folder, const std::string& pdf) {
    return shell("pdftotext -layout '" + written(folder, pdf).string() + "' -", folder / "text");
}

/// A page in pixels, 300 to the inch.
struct PagePixels {
    int width = 0, height = 0;
    std::string rgb;

    PagePixels(const test::Folder& folder, const std::string& pdf) {
        const std::string ppm =
            shell("pdftoppm -r 300 -f 1 -l 1 '" + written(folder, pdf).string() + "'", folder / "page.ppm");
        std::istringstream in(ppm);
        std::string magic;
        int most = 0;
        in >> magic >> width >> height >> most;
        EXPECT_EQ(magic, "P6");
        EXPECT_EQ(most, 255);
        rgb = ppm.substr(static_cast<std::size_t>(in.tellg()) + 1);
    }
    int channel(int x, int y, int c) const {
        const auto at = 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                             static_cast<std::size_t>(x)) +
                        static_cast<std::size_t>(c);
        return static_cast<unsigned char>(rgb[at]);
    }
    bool dark(int x, int y) const {
        return channel(x, y, 0) < 110 && channel(x, y, 1) < 110 && channel(x, y, 2) < 110;
    }
    bool blue(int x, int y) const { return channel(x, y, 2) - channel(x, y, 0) > 90; }
};

constexpr double kPx_per_mm = 300 / 25.4;

// The bar is the only dark line of about 100 mm; its length is that between the middles of its end ticks,
// which are its only ticks 2.5 mm tall.
double bar_mm(const PagePixels& page, bool upright) {
    const int along = upright ? page.height : page.width, across = upright ? page.width : page.height;
    const auto dark = [&](int a, int c) { return upright ? page.dark(c, a) : page.dark(a, c); };
    for (int c = 0; c < across; ++c) {
        int run = 0;
        for (int a = 0; a <= along; ++a) {
            if (a < along && dark(a, c)) {
                ++run;
                continue;
            }
            if (std::abs(run - 100 * kPx_per_mm) < 8) {
                const int tick = c - static_cast<int>(2.5 * kPx_per_mm);
                const auto middle = [&](int near) {
                    double sum = 0;
                    int count = 0;
                    for (int k = near - 15; k <= near + 15; ++k)
                        if (k >= 0 && k < along && dark(k, tick)) sum += k, ++count;
                    EXPECT_GT(count, 0);
                    return sum / count;
                };
                return (middle(a - 1) - middle(a - run)) / kPx_per_mm;
            }
            run = 0;
        }
    }
    return 0;
}

class CommandTakeOff : public testing::Test {
  protected:
    void SetUp() override {
        std::ofstream(folder_ / "tide.yaml") << kTide;
        const Outcome o = run_in(folder_, "take-off tide.yaml");
        ASSERT_EQ(o.code, 0) << o.err;
        json_ = Json::parse(bytes_of(written(folder_, "take-off.json")));
    }
    test::Folder folder_;
    Json json_;
};

TEST_F(CommandTakeOff, CheckBarsMeasureAHundredMillimetres) {
    for (const char* pdf :
         {"templates/zone-1-foam.pdf", "templates/zone-1-foam-mirrored.pdf", "templates/cartoon.pdf"}) {
        const PagePixels page(folder_, pdf);
        EXPECT_NEAR(bar_mm(page, false), 100, 0.2) << pdf;
        EXPECT_NEAR(bar_mm(page, true), 100, 0.2) << pdf;
    }
}

TEST_F(CommandTakeOff, TheMirroredPageMirrors) {
    const PagePixels face(folder_, "templates/zone-1-foam.pdf"),
        back(folder_, "templates/zone-1-foam-mirrored.pdf");
    ASSERT_EQ(face.width, back.width);
    // The axis: the middle between the leftmost and the rightmost of the tape line on both pages.
    const auto span = [](const PagePixels& page) {
        int low = page.width, high = 0;
        for (int y = 0; y < page.height; ++y)
            for (int x = 0; x < page.width; ++x)
                if (page.blue(x, y)) low = std::min(low, x), high = std::max(high, x);
        return std::pair(low, high);
    };
    const auto [face_low, face_high] = span(face);
    const auto [back_low, back_high] = span(back);
    ASSERT_GT(face_high, face_low);
    // Pixels of a rastered page: thresholds of our own, only to catch a slip; so are the shares below.
    EXPECT_NEAR(face_high - face_low, back_high - back_low, 2);
    const int sum = face_low + back_high;
    int all = 0, mirrored = 0, same = 0;
    const auto near = [](const PagePixels& page, int x, int y) {
        for (int dy = -2; dy <= 2; ++dy)
            for (int dx = -2; dx <= 2; ++dx)
                if (x + dx >= 0 && x + dx < page.width && y + dy >= 0 && y + dy < page.height &&
                    page.blue(x + dx, y + dy))
                    return true;
        return false;
    };
    for (int y = 0; y < face.height; ++y)
        for (int x = 0; x < face.width; ++x)
            if (face.blue(x, y)) {
                ++all;
                mirrored += near(back, sum - x, y);
                same += near(back, x, y);
            }
    EXPECT_GT(all, 1000);
    EXPECT_GT(mirrored, 0.99 * all);
    EXPECT_LT(same, 0.7 * all);
    EXPECT_TRUE(holds(text_of(folder_, "templates/zone-1-foam-mirrored.pdf"), "MIRRORED"));
    EXPECT_FALSE(holds(text_of(folder_, "templates/zone-1-foam.pdf"), "MIRRORED"));
    EXPECT_TRUE(holds(text_of(folder_, "templates/zone-1-foam.pdf"), "FACE UP"));
}

TEST_F(CommandTakeOff, TemplatesSayWhatTheyAre) {
    const std::string words = text_of(folder_, "templates/zone-1-foam.pdf");
    for (const char* part : {"foam: pale-grey", "sheet 1 of 1", "A4", "print at 100 %", "UP", "Step 1 of 2"})
        EXPECT_TRUE(holds(words, part)) << part << "\n" << words;
    pugi::xml_document svg;
    ASSERT_TRUE(svg.load_file(written(folder_, "templates/zone-1-foam.svg").c_str()));
    test::expect_user_unit_is_a_millimetre(svg);
    for (const char* layer : {"cut line", "tape line", "pieces", "check bar across", "check bar upright"})
        EXPECT_FALSE(test::layer(svg, layer).empty()) << layer;
    // The stone of the other zone stands proud in the way of the tape.
    EXPECT_TRUE(holds(bytes_of(written(folder_, "templates/zone-1-foam.svg")), "holes for proud stones"));
}

TEST_F(CommandTakeOff, NumbersOnTheSheetAreInTheJson) {
    const std::string sheet = text_of(folder_, "take-off.pdf");
    const auto say = [&](const std::string& text) {
        EXPECT_TRUE(holds(sheet, text)) << text << "\n" << sheet;
    };
    char kg[32];
    std::snprintf(kg, sizeof kg, "%.1f kg", json_["weight"]["likely_kg"].get<double>());
    say(kg);
    for (const auto& zone : json_["zones"]) {
        say(zone["zone"].get<std::string>());
        say(std::to_string(static_cast<int>(std::lround(zone["batch"]["mix_g"].get<double>()))));
        for (const auto& pigment : zone["batch"]["pigments"]) say(pigment["name"].get<std::string>());
    }
    for (const auto& m : json_["materials"]) say(m["material"].get<std::string>());
    for (const auto& a : json_["anchors"]) say(a["stone"].get<std::string>());
    say("licensed");
    for (const auto& file : json_["files"])
        EXPECT_TRUE(std::filesystem::exists(written(folder_, file.get<std::string>()))) << file;
}

TEST_F(CommandTakeOff, PartsAddUp) {
    double kg = 0;
    for (const auto& part : json_["weight"]["parts"]) kg += part["likely_kg"].get<double>();
    EXPECT_NEAR(kg, json_["weight"]["likely_kg"].get<double>(), 1e-9);
    EXPECT_LE(json_["weight"]["low_kg"].get<double>(), 0.85 * kg + 1e-9);
    // Lighter before darker where they touch.
    EXPECT_EQ(json_["zones"][0]["zone"], "foam");
    EXPECT_EQ(json_["order"]["boundaries"][0]["owner"], "foam");
    double area = 0;
    for (const auto& zone : json_["zones"]) area += zone["area_mm2"].get<double>();
    EXPECT_LT(area, 160 * 115);  // all but the stone
    EXPECT_GT(area, 160 * 115 - 60 * 50);
    EXPECT_EQ(json_["anchors"].size(), 1u);
    const std::string csv = bytes_of(written(folder_, "zones.csv"));
    EXPECT_EQ(std::count(csv.begin(), csv.end(), '\n'), 3);
}

TEST_F(CommandTakeOff, TheSameBytesOnOneThread) {
    const Outcome o = run_in(folder_, "take-off tide.yaml --into again", "taskset -pc 0 $$ >.pin");
    ASSERT_EQ(o.code, 0) << o.err;
    for (const char* name :
         {"take-off.pdf", "take-off.json", "take-off-1.png", "zones.csv", "templates/zone-1-foam.pdf"})
        EXPECT_EQ(bytes_of(written(folder_, name)), bytes_of(folder_.path() / "again" / "tide" / name))
            << name;
}

TEST(CommandTakeOffErrors, EndWithTwoOrThreeAndWriteNothing) {
    const test::Folder folder;
    std::ofstream(folder / "tide.yaml") << kTide;
    std::ofstream(folder / "bad.yaml") << kTide << "zones: {papr: A4}\nhanging: {safety factor: 0}\n";
    for (const auto& [arguments, part] :
         {std::pair{"take-off tide.yaml --only sheets", "did you mean sheet?"},
          {"take-off tide.yaml --paper A9", "expected A4, A3 or Letter"},
          {"take-off bad.yaml", "bad.yaml:6:9: zones.papr"},
          {"take-off bad.yaml", "hanging.safety factor"},
          {"check bad.yaml", "did you mean paper?"},
          {"take-off gone.yaml", "found no such file"}})
        test::expect_refused(folder, arguments, part);
    EXPECT_FALSE(std::filesystem::exists(folder / "renders"));
    std::ofstream(folder / "file") << "x";
    EXPECT_EQ(run_in(folder, "take-off tide.yaml --into file").code, 3);
}

}  // namespace
}  // namespace rakelight
