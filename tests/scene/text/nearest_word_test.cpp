#include "scene/text/nearest_word.h"

#include <gtest/gtest.h>

#include <vector>

namespace rakelight {
namespace {

struct DistanceCase {
    const char* a;
    const char* b;
    int edits;
};

// By hand from the definition. "kitten"/"sitting" = 3 is the usual worked example (Levenshtein 1965);
// "ca"/"abc" = 3 tells the restricted distance, which never edits a part twice, from the unrestricted one
// (2).
constexpr DistanceCase kDistances[] = {
    {"", "", 0},           {"", "abc", 3},   {"grout", "grout", 0},  {"kitten", "sitting", 3},
    {"gruot", "grout", 1}, {"ca", "abc", 3}, {"joint", "joints", 1}, {"slate", "salte", 1},
};

TEST(EditDistance, MatchesCountedEdits) {
    for (const DistanceCase& c : kDistances) {
        EXPECT_EQ(edit_distance(c.a, c.b), c.edits) << c.a << " " << c.b;
        EXPECT_EQ(edit_distance(c.b, c.a), c.edits) << c.b << " " << c.a;
    }
}

TEST(NearestWord, FindsTheWordMeant) {
    const std::vector<std::string> known{"deep-teal", "sea-green", "slate", "sky"};
    EXPECT_EQ(nearest_word("depe-teal", known), "deep-teal");
    EXPECT_EQ(nearest_word("Deep Teal", known), "deep-teal");
    EXPECT_EQ(nearest_word("sea_green", known), "sea-green");
    EXPECT_EQ(nearest_word("teal-deep", known), "deep-teal");
    EXPECT_EQ(nearest_word("slat", known), "slate");
    EXPECT_EQ(did_you_mean("salte", known), "; did you mean slate?");
}

TEST(NearestWord, IsSilentWhenNothingIsNear) {
    const std::vector<std::string> known{"deep-teal", "slate"};
    EXPECT_EQ(nearest_word("marble", known), std::nullopt);
    EXPECT_EQ(nearest_word("", known), std::nullopt);
    EXPECT_EQ(nearest_word("slate", {}), std::nullopt);
    EXPECT_EQ(nearest_word(std::string(1'000'000, 's'), known), std::nullopt);
    EXPECT_EQ(did_you_mean("marble", known), "");
}

TEST(NearestWord, TakesTheFirstOfEquals) {
    const std::vector<std::string> known{"beam", "bead"};
    EXPECT_EQ(nearest_word("beat", known), "beam");
}

}  // namespace
}  // namespace rakelight
