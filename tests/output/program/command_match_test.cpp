// `rakelight match`, run as a person would.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "tests/support/run_program.h"

namespace rakelight {
namespace {

using test::holds;
using test::Outcome;
using test::run_in;

TEST(CommandMatch, SaysGramsLampsAndCautions) {
    const test::Folder folder;
    const Outcome o = run_in(folder, "match --srgb 4a6b7c --base filled-epoxy --batch 120 --illuminant A");
    EXPECT_EQ(o.code, 0) << o.err;
    for (const char* part : {" g ", "D65", "LED-B3", "weighed 5 % wrong", "fitted mask", "invented", "72 g"})
        EXPECT_TRUE(holds(o.out, part)) << part << "\n" << o.out;
    EXPECT_EQ(folder.entries(), 0u);
}

TEST(CommandMatch, JsonHoldsTheSame) {
    const test::Folder folder;
    const Outcome o = run_in(folder, "match --like storm-grey --batch '1 kg' --recipes 2 --json");
    ASSERT_EQ(o.code, 0) << o.err;
    const auto j = nlohmann::json::parse(o.out);
    EXPECT_EQ(j["batch_g"], 1000);
    EXPECT_TRUE(j["reached"].get<bool>());
    ASSERT_EQ(j["recipes"].size(), 2u);
    for (const auto& recipe : j["recipes"]) {
        EXPECT_EQ(recipe["reflectance_400_to_700_nm"].size(), 16u);
        for (const char* lamp : {"A", "D65", "LED-B3"}) EXPECT_TRUE(recipe["illuminants"].contains(lamp));
        for (const auto& p : recipe["pigments"])
            EXPECT_NEAR(p["share_of_binder"].get<double>() * j["binder_g"].get<double>(),
                        p["mass_g"].get<double>(), 1e-6);
    }
}

TEST(CommandMatch, TheUnreachableEndsWithTwoAndHowFarItGot) {
    const test::Folder folder;
    const Outcome o = run_in(folder, "match --lab 60,90,60 --json");
    EXPECT_EQ(o.code, 2);
    EXPECT_TRUE(holds(o.err, "cannot be reached: the nearest is CIEDE2000")) << o.err;
    const auto j = nlohmann::json::parse(o.out);
    EXPECT_FALSE(j["reached"].get<bool>());
    EXPECT_GT(j["recipes"][0]["ciede2000"].get<double>(), 5);
}

// Half a step of 0.1 g is 1 % of 5 g.
TEST(CommandMatch, SaysWhatTheScaleIsTooCoarseFor) {
    const test::Folder folder;
    const std::string grey =
        "match --lab 60,0,1 --pigments PBk11 --within 10 --balance-step 0.1 --json --batch ";
    for (const auto& [batch, coarse] : {std::pair{"200", true}, std::pair{"20000", false}}) {
        const Outcome o = run_in(folder, grey + batch);
        ASSERT_EQ(o.code, 0) << o.err;
        const auto recipe = nlohmann::json::parse(o.out)["recipes"][0];
        ASSERT_EQ(recipe["pigments"].size(), 1u);
        EXPECT_EQ(recipe["pigments"][0]["mass_g"].get<double>() < 5, coarse);
        EXPECT_EQ(holds(recipe["warnings"].dump(), "too little for a scale"), coarse);
    }
}

TEST(CommandMatch, ACurveFromAFile) {
    const test::Folder folder;
    std::ofstream file(folder / "grey.csv");
    for (int nm = 400; nm <= 700; nm += 10) file << nm << ",0.3\n";
    file.close();
    EXPECT_EQ(run_in(folder, "match --curve grey.csv").code, 0);
    std::ofstream(folder / "gap.csv") << "400,0.3\n700,0.3\n";
    test::expect_refused(folder, "match --curve gap.csv",
                         "gap.csv:2:1: found nothing between 400 and 700 nm");
}

TEST(CommandMatch, StuffOfALayout) {
    const test::Folder folder;
    std::ofstream(folder / "tide.yaml") << "stock:\n  pool: {kind: stone, reflectance: 0.3}\n";
    EXPECT_EQ(run_in(folder, "match --like pool --layout tide.yaml").code, 0);
    EXPECT_EQ(run_in(folder, "match --like pool").code, 2);
    EXPECT_EQ(run_in(folder, "match --like pool --layout none.yaml").code, 2);
}

TEST(CommandMatch, WrongWordsEndWithTwo) {
    const test::Folder folder;
    const struct {
        const char *arguments, *said;
    } cases[] = {
        {"match", "found 0 wanted colours"},
        {"match --lab 40,0,0 --srgb 102030", "found 2 wanted colours"},
        {"match --lab 40,0", "--lab"},
        {"match --srgb 12", "--srgb"},
        {"match --like deep-teel", "did you mean deep-teal?"},
        {"match --like deep-teal --bed whit", "did you mean white?"},
        {"match --lab 40,0,0 --base white-cemnt", "did you mean white-cement?"},
        {"match --lab 40,0,0 --illuminant D66", "did you mean D65?"},
        {"match --lab 40,0,0 --pigments PB28,PB82", "did you mean PB28?"},
        {"match --lab 40,0,0 --batch 0", "--batch"},
        {"match --lab 40,0,0 --batch 3mm", "--batch"},
        {"match --lab 40,0,0 --most 9", "--most"},
        {"match --lab 40,0,0 --layer 0", "--layer"},
        {"match --lab 40,0,0 --balance-step 0", "--balance-step"},
        {"match --curve none.csv", "none.csv"},
    };
    for (const auto& c : cases) test::expect_refused(folder, c.arguments, c.said);
}

// A pigment of photographed drawdowns: what their uncertainty leaves open in grams, twice as much for twice
// the uncertainty (first order), and nothing for exact ones.
TEST(CommandMatch, SaysWhatUncertainDrawdownsLeaveOpen) {
    const auto uncertain_by = [](const std::string& uncertainty) {
        const test::Folder folder;
        folder.write(
            "mine.yaml",
            "stock:\n  weak: {kind: cement, reflectance: [[400, 0.5], [500, 0.42], [600, 0.3], [700, 0.4]]" +
                uncertainty +
                "}\n  strong: {kind: cement, reflectance: [[400, 0.25], [500, 0.2], [600, 0.12], "
                "[700, 0.18]]" +
                uncertainty + "}\n");
        folder.write(
            "l.yaml",
            "stock from: mine.yaml\npigments:\n  my-blue: {weak from: weak, strong from: strong, base: "
            "white-cement, weak: 1 %, strong: 8 %}\n");
        const Outcome o = run_in(
            folder,
            "match --lab 62,-3,-6 --pigments my-blue,PBk11 --within 30 --batch 500 --layout l.yaml --json");
        EXPECT_EQ(o.code, 0) << o.err;
        const auto recipe = nlohmann::json::parse(o.out)["recipes"][0];
        double error = 0;
        for (const auto& p : recipe["pigments"])
            if (p["name"] == "my-blue") error = p["mass_uncertainty_g"];
        const Outcome said =
            run_in(folder, "match --lab 62,-3,-6 --pigments my-blue --within 30 --batch 500 --layout l.yaml");
        EXPECT_EQ(holds(said.out, "By the uncertainty of the drawdowns, give or take: my-blue"),
                  !uncertainty.empty())
            << said.out;
        return error;
    };
    EXPECT_EQ(uncertain_by(""), 0);
    const double one = uncertain_by(", uncertainty: 0.2 %"), two = uncertain_by(", uncertainty: 0.4 %");
    EXPECT_GT(one, 0.01);
    EXPECT_NEAR(two / one, 2, 0.5);
}

// The way back of what --like says of a laid glass.
TEST(CommandMatch, LaysAGlassToAColour) {
    const test::Folder folder;
    const Outcome o = run_in(folder, "match --glass aqua --like aqua --bed white --thickness 4 --json");
    ASSERT_EQ(o.code, 0) << o.err;  // itself
    const auto lab = nlohmann::json::parse(o.out)["wanted_lab"];
    const std::string wanted = std::to_string(lab[0].get<double>()) + "," +
                               std::to_string(lab[1].get<double>()) + "," +
                               std::to_string(lab[2].get<double>());
    const Outcome thick = run_in(folder, "match --glass aqua --bed white --json --lab " + wanted);
    ASSERT_EQ(thick.code, 0) << thick.err;
    EXPECT_NEAR(nlohmann::json::parse(thick.out)["ways"][0]["thickness_mm"].get<double>(), 4, 0.05);
    const Outcome beds = run_in(folder, "match --glass aqua --thickness 4 --json --lab " + wanted);
    EXPECT_EQ(nlohmann::json::parse(beds.out)["ways"][0]["bed"], "white");
    EXPECT_EQ(nlohmann::json::parse(beds.out)["ways"].size(), 3u);
}

TEST(CommandMatch, RefusesAGlassThatHidesItsBed) {
    const test::Folder folder;
    for (const auto& [words, said] :
         {std::pair{"--glass jet --lightness 40", "--glass: found \"jet\", through which no bed shows"},
          {"--glass aqau --lightness 40", "did you mean aqua"},
          {"--lightness 40", "--lightness: found it without --glass"},
          {"--glass aqua --lightness 40 --lab 40,0,0", "--lightness: found another wanted colour"},
          {"--glass ruby --lab 90,0,0", "ruby cannot be laid so: the nearest is CIEDE2000"}}) {
        const Outcome o = run_in(folder, std::string("match ") + words);
        EXPECT_EQ(o.code, 2) << words;
        EXPECT_TRUE(holds(o.err, said)) << o.err;
    }
}

}  // namespace
}  // namespace rakelight
