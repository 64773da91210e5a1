#include "output/glare/report.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "output/glare/json.h"
#include "output/glare/sheet.h"

namespace rakelight {
namespace {

GlareReport report() {
    GlareReport r;
    r.panel = "Tide";
    r.viewpoint = "seated";
    r.glare.hot_share = 0.012;
    r.glare.sparks_per_m2 = 12;
    r.glare.fields = {{0, 10, 1}, {1, 0.5, 1}};
    r.field_names = {"sand", "deep"};
    r.lamps = {"spot", "window"};
    r.glare.fields[1].group = 1;
    r.largest = NamedPatch{{2.4, 900, 12, 1, 7, {300, 200}}, "window", "deep", {120, 80}};
    r.marks = {*r.largest};
    r.rating = 21.3;
    r.background_cd_per_m2 = 30;
    judge(r);
    return r;
}

const GlareFinding& finding(const GlareReport& r, std::string_view what) {
    for (const GlareFinding& f : r.findings)
        if (f.what.find(what) != std::string::npos) return f;
    throw std::runtime_error("no finding");
}

TEST(GlareReport, NamesWhatBothersAndWhatItIsHeldAgainst) {
    const GlareReport r = report();
    EXPECT_TRUE(finding(r, "largest").bothers);
    EXPECT_EQ(finding(r, "largest").limit, "2 degrees");
    EXPECT_TRUE(finding(r, "veil over deep").bothers);  // 1 + 1 / 0.5 times
    EXPECT_EQ(finding(r, "veil").value, "3.00 times");
    EXPECT_TRUE(finding(r, "rating").bothers);
    EXPECT_FALSE(finding(r, "sparks").bothers);
    EXPECT_EQ(
        r.verdict,
        "Expect complaints: window mirrors in deep over 2.4 degrees (limit 2) and veils it to 3.0 times "
        "its own light (limit 1.5); bright things in view dazzle, unified glare rating 21 (limit 19).");
    GlareReport two = r;
    two.glare.fields[1].group = 0;
    judge(two);
    EXPECT_NE(two.verdict.find("over 2.4 degrees (limit 2); spot veils deep to 3.0 times its own light"),
              std::string::npos);
}

TEST(GlareReport, IsContentBelowItsLimits) {
    GlareReport r = report();
    r.limits.patch_deg = 3;
    r.limits.veil = 4;
    r.rating = 12;
    judge(r);
    for (const GlareFinding& f : r.findings) EXPECT_FALSE(f.bothers) << f.what;
    EXPECT_EQ(r.verdict, "Small sparks only: nothing here should bother a viewer.");
    r.largest.reset();
    r.marks.clear();
    r.rating.reset();
    judge(r);
    EXPECT_EQ(r.verdict, "No lamp mirrors strongly at this eye.");
    EXPECT_EQ(finding(r, "rating").value, "no source");
}

TEST(GlareReport, EveryNumberIsInTheJson) {
    const auto json = nlohmann::json::parse(glare_json({report()}, nullptr, "program", {"glare-seated.png"}));
    EXPECT_EQ(json["kind"], "glare");
    EXPECT_EQ(json["version"], 2);
    const auto& seated = json["viewpoints"][0];
    EXPECT_EQ(seated["viewpoint"], "seated");
    EXPECT_EQ(seated["unified_glare_rating"], 21.3);
    EXPECT_EQ(seated["marks"][0]["lamps"], "window");
    EXPECT_EQ(seated["marks"][0]["at_mm"][0], 120);
    EXPECT_EQ(seated["fields"][1]["veil"], 3);
    EXPECT_EQ(seated["fields"][1]["mirrors_most_of"], "window");
    EXPECT_EQ(seated["largest_patch_deg"], 2.4);
    EXPECT_EQ(seated["limits"]["patch_deg"], 2);
}

TEST(GlareReport, APanelOutOfViewIsSaidToBe) {
    GlareReport r = report();
    r.in_view = false;
    judge(r);
    EXPECT_TRUE(r.findings.empty());
    EXPECT_EQ(r.verdict, "The panel is not seen from here.");
}

TEST(GlareSheet, HoldsAllPictures) {
    const int width = static_cast<int>(kGlarePicture_mm * kGlareSheet_px_per_mm);
    const auto plain = [&](float v) {
        return Print{width, 300, std::vector<float>(static_cast<std::size_t>(width) * 300 * 3, v)};
    };
    const GlarePictures pictures{plain(0.25f), plain(0.75f), plain(0.6f)};
    const Print sheet = glare_sheet(report(), pictures, {}, "program");
    EXPECT_GT(sheet.width, 2 * width);
    std::size_t of_picture = 0, of_map = 0, of_share = 0, ink = 0;
    for (std::size_t i = 0; i < sheet.rgb.size(); i += 3) {
        of_picture += sheet.rgb[i] == 0.25f && sheet.rgb[i + 1] == 0.25f;
        of_map += sheet.rgb[i] == 0.75f && sheet.rgb[i + 1] == 0.75f;
        of_share += sheet.rgb[i] == 0.6f && sheet.rgb[i + 1] == 0.6f;
        ink += sheet.rgb[i] < 0.2f;
    }
    const std::size_t all = static_cast<std::size_t>(width) * 300;
    for (const std::size_t seen : {of_picture, of_map, of_share}) {
        EXPECT_GT(seen, all * 97 / 100);  // less the marks
        EXPECT_LE(seen, all);
    }
    EXPECT_GT(ink, 5000u);
    GlarePictures odd = pictures;
    odd.picture = Print{10, 10, std::vector<float>(300)};
    EXPECT_THROW(glare_sheet(report(), odd, {}, "program"), std::invalid_argument);
}

}  // namespace
}  // namespace rakelight
