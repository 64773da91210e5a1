#include "output/glare/report.h"

#include <gtest/gtest.h>

#include <array>
#include <glm/glm.hpp>
#include <nlohmann/json.hpp>

#include "output/glare/json.h"
#include "output/glare/sheet.h"

namespace rakelight {
namespace {

GlareReport report() {
    GlareReport r;
    r.panel = "Tide";
    r.viewpoint = "seated";
    r.glare.bright_share = 0.012;
    r.glare.sparkles_per_m2 = 12;
    r.glare.fields = {{0, 10, 1}, {1, 20, 40}};
    r.field_names = {"sand", "deep"};
    r.lamps = {"spot", "window"};
    r.glare.fields[1].group = 1;
    r.largest = NamedPatch{{2.4, 900, 12, 1, 7, {300, 200}}, "window", "deep", {120, 80}};
    r.marks = {*r.largest};
    r.rating = 21.3;
    r.background_cd_per_m2 = 30;
    r.sources = {{"window", {{0, 0, -1}, 900, 0.02, 1.4}}};
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
    EXPECT_EQ(finding(r, "largest").limit, "limit 2 degrees");
    EXPECT_TRUE(finding(r, "veil over deep").bothers);  // 1 + 40 / 20 times
    EXPECT_EQ(finding(r, "veil").value, "3.00 times");
    EXPECT_TRUE(finding(r, "rating").bothers);
    EXPECT_FALSE(finding(r, "sparkles").bothers);
    EXPECT_EQ(r.verdict,
              "Expect complaints: window is reflected in the field deep, 2.4 degrees wide (limit 2) and "
              "veils it to 3.0 times "
              "its own light (limit 1.5); bright things in view dazzle, unified glare rating 21 (limit 19).");
    GlareReport two = r;
    two.glare.fields[1].group = 0;
    judge(two);
    EXPECT_NE(two.verdict.find("2.4 degrees wide (limit 2); spot veils deep to 3.0 times its own light"),
              std::string::npos);
}

TEST(GlareReport, IsContentBelowItsLimits) {
    GlareReport r = report();
    r.limits.bright_spot_deg = 3;
    r.limits.veil_ratio = 4;
    r.rating = 12;
    judge(r);
    for (const GlareFinding& f : r.findings) EXPECT_FALSE(f.bothers) << f.what;
    EXPECT_EQ(r.verdict, "Small sparkles only: nothing here should bother a viewer.");
    r.largest.reset();
    r.marks.clear();
    r.rating.reset();
    judge(r);
    EXPECT_EQ(r.verdict, "No lamp reflects strongly towards this viewpoint.");
    EXPECT_EQ(finding(r, "rating").value, "no source");
}

// 12 cd/m2 of a mirrored window in a near-black field, in a view of 100: many times the field's own light,
// and nobody minds. The limits: panel_glare.h.
TEST(GlareReport, WhatIsDimmerThanItsSurroundingsIsNoComplaint) {
    GlareReport r = report();
    r.rating = 12;
    r.background_cd_per_m2 = 100;
    r.glare.fields[1] = {1, 0.3, 12, 1};
    r.largest = NamedPatch{{6, 12, 40, 1, 7, {300, 200}}, "window", "deep", {120, 80}};
    judge(r);
    EXPECT_FALSE(bothers(r));
    EXPECT_FALSE(panel_bothers(r));
    EXPECT_EQ(
        r.verdict,
        "window is reflected 6.0 degrees wide, but no brighter than what surrounds the work: few will mind.");
    r.background_cd_per_m2 = 1;  // at night the same is twelve times what the eye is adapted to
    judge(r);
    EXPECT_TRUE(panel_bothers(r));
    EXPECT_FALSE(stands_out(r.limits, 30, 10));
    EXPECT_TRUE(stands_out(r.limits, 41, 10));
    EXPECT_TRUE(stands_out(r.limits, 101, 100));
    EXPECT_FALSE(stands_out(r.limits, 99, 100));
}

TEST(GlareReport, EveryNumberIsInTheJson) {
    const auto json = nlohmann::json::parse(
        glare_json({report()}, nullptr, {"program", "foyer.yaml", 0x2a}, {"glare-seated.png"}));
    EXPECT_EQ(json["format"], "rakelight glare");
    EXPECT_EQ(json["version"], 3);
    EXPECT_EQ(json["layout_file"], "foyer.yaml");
    EXPECT_EQ(json["scene_hash"], "000000000000002a");
    const auto& seated = json["viewpoints"][0];
    EXPECT_EQ(seated["viewpoint"], "seated");
    EXPECT_EQ(seated["unified_glare_rating"], 21.3);
    EXPECT_EQ(seated["sources"][0]["name"], "window");
    EXPECT_EQ(seated["sources"][0]["cd_per_m2"], 900);
    EXPECT_EQ(seated["sources"][0]["solid_angle_sr"], 0.02);
    EXPECT_EQ(seated["sources"][0]["position_index"], 1.4);
    EXPECT_EQ(seated["marks"][0]["lamps"], "window");
    EXPECT_EQ(seated["marks"][0]["at_mm"][0], 120);
    EXPECT_EQ(seated["fields"][1]["veil_ratio"], 3);
    EXPECT_EQ(seated["fields"][1]["mirrors_mostly"], "window");
    EXPECT_EQ(seated["largest_patch_deg"], 2.4);
    EXPECT_EQ(seated["limits"]["bright_spot_deg"], 2);
}

TEST(GlareReport, APanelOutOfViewIsSaidToBe) {
    GlareReport r = report();
    r.in_view = false;
    judge(r);
    EXPECT_TRUE(r.findings.empty());
    EXPECT_EQ(r.verdict, "The panel is not seen from here.");
}

// Bounds of a region of a sheet, in pixels; `high` is just outside.
struct Bounds {
    glm::ivec2 low{1 << 20}, high{0};
    void add(const glm::ivec2& p) { low = glm::min(low, p), high = glm::max(high, p + 1); }
    bool holds(const glm::ivec2& p) const {
        return p.x >= low.x && p.y >= low.y && p.x < high.x && p.y < high.y;
    }
};

template <class Wanted>
Bounds bounds_where(const Print& sheet, Wanted wanted) {
    Bounds b;
    for (int y = 0; y < sheet.height; ++y)
        for (int x = 0; x < sheet.width; ++x)
            if (wanted(3 * static_cast<std::size_t>(y * sheet.width + x))) b.add({x, y});
    return b;
}

constexpr int kTall_px = 300;

GlarePictures three_greys(const std::array<float, 3>& greys) {
    const int width = static_cast<int>(kGlarePicture_mm * kGlareSheet_px_per_mm);
    const auto plain = [&](float v) {
        return Print{width, kTall_px, std::vector<float>(static_cast<std::size_t>(width) * kTall_px * 3, v)};
    };
    return {plain(greys[0]), plain(greys[1]), plain(greys[2])};
}

// Where the sheet follows one of its pictures: what changes when that picture alone is another grey.
std::array<Bounds, 3> places_of_pictures(const GlareReport& report) {
    const Print first = glare_sheet(report, three_greys({0.25f, 0.75f, 0.6f}), {}, "program");
    std::array<Bounds, 3> places;
    for (std::size_t k = 0; k < 3; ++k) {
        std::array<float, 3> greys{0.25f, 0.75f, 0.6f};
        greys[k] += 0.1f;
        const Print other = glare_sheet(report, three_greys(greys), {}, "program");
        places[k] = bounds_where(first, [&](std::size_t i) { return first.rgb[i] != other.rgb[i]; });
    }
    return places;
}

TEST(GlareSheet, HoldsEachPictureWholeInItsPlace) {
    const auto [picture, map, share] = places_of_pictures(report());
    const glm::ivec2 size(static_cast<int>(kGlarePicture_mm * kGlareSheet_px_per_mm), kTall_px);
    for (const Bounds& b : {picture, map, share}) EXPECT_EQ(b.high - b.low, size);
    EXPECT_EQ(picture.low.y, map.low.y);  // side by side
    EXPECT_GT(map.low.x, picture.high.x);
    EXPECT_EQ(share.low.x, picture.low.x);  // and one below
    EXPECT_GT(share.low.y, picture.high.y);
    GlarePictures odd = three_greys({0.25f, 0.75f, 0.6f});
    odd.picture = Print{10, 10, std::vector<float>(300)};
    EXPECT_THROW(glare_sheet(report(), odd, {}, "program"), std::invalid_argument);
}

// A patch is marked round its own pixel, within a centimetre, in all three pictures, and nothing else is.
TEST(GlareSheet, MarksThePatchWhereItIs) {
    GlareReport without = report();
    without.marks.clear();
    const GlarePictures pictures = three_greys({0.25f, 0.75f, 0.6f});
    const Print marked = glare_sheet(report(), pictures, {}, "program"),
                plain = glare_sheet(without, pictures, {}, "program");
    ASSERT_EQ(marked.rgb.size(), plain.rgb.size());
    const glm::ivec2 patch(report().marks[0].patch.pixel), reach(10 * kGlareSheet_px_per_mm);
    for (const Bounds& place : places_of_pictures(without)) {
        const Bounds changed = bounds_where(marked, [&](std::size_t i) {
            const auto pixel = static_cast<int>(i / 3);
            return place.holds({pixel % marked.width, pixel / marked.width}) && marked.rgb[i] != plain.rgb[i];
        });
        const glm::ivec2 at = place.low + patch;
        EXPECT_TRUE(changed.holds(at));
        EXPECT_TRUE(glm::all(glm::greaterThan(changed.low, at - reach)));
        EXPECT_TRUE(glm::all(glm::lessThan(changed.high, at + reach)));
    }
}

// The viewpoint is named above the pictures, the program below them.
TEST(GlareSheet, WordsStandAboveAndBelow) {
    GlareReport other = report();
    other.viewpoint = "standing";
    const GlarePictures pictures = three_greys({0.25f, 0.75f, 0.6f});
    const Print sheet = glare_sheet(report(), pictures, {}, "program");
    const auto [picture, map, share] = places_of_pictures(report());
    const auto changed = [&](const Print& one) {
        return bounds_where(sheet, [&](std::size_t i) { return sheet.rgb[i] != one.rgb[i]; });
    };
    const Bounds head = changed(glare_sheet(other, pictures, {}, "program"));
    EXPECT_LT(head.low.y, head.high.y);
    EXPECT_LT(head.high.y, picture.low.y);
    const Bounds foot = changed(glare_sheet(report(), pictures, {}, "another"));
    EXPECT_LT(foot.low.y, foot.high.y);
    EXPECT_GT(foot.low.y, share.high.y);
}

}  // namespace
}  // namespace rakelight
