#include "output/watch/changes.h"

#include <gtest/gtest.h>

namespace rakelight {
namespace {

using Lines = std::vector<std::string>;

Lines changes(const char* before, const char* now) {
    return changes_between(parse_yaml(before, "a"), parse_yaml(now, "b"));
}

TEST(Changes, NoneWhereOnlyPlacesDiffer) {
    EXPECT_EQ(changes("panel: {name: a}\n", "# a word\n\npanel:\n  name: a\n"), Lines());
}

TEST(Changes, AreToldByTheirKeysAndNames) {
    EXPECT_EQ(changes("fields: [{name: sea, joint: 1.2}, {name: sky, joint: 1}]",
                      "fields: [{name: sea, joint: 1.5}, {name: sky, joint: 1}]"),
              Lines{"fields.sea.joint: 1.2 -> 1.5"});
    EXPECT_EQ(changes("a: {at: [1, 2]}", "a: {at: [1, 3]}"), Lines{"a.at: [1, 2] -> [1, 3]"});
    EXPECT_EQ(changes("stones: [{at: [1, 2]}, {at: [3, 4]}]", "stones: [{at: [1, 2]}, {at: [3, 5]}]"),
              Lines{"stones.2.at: [3, 4] -> [3, 5]"});
}

TEST(Changes, WhatIsNewOrGone) {
    EXPECT_EQ(changes("lamps: [{name: a}, {name: b}]", "lamps: [{name: b}, {name: c}]"),
              (Lines{"lamps.a is gone", "lamps.c is new"}));
    EXPECT_EQ(changes("panel: {name: p, seed: 3}", "panel: {name: p, lean: 2}"),
              (Lines{"panel.seed is gone", "panel.lean is new: 2"}));
    EXPECT_EQ(changes("stones: [{at: [1, 2]}, {at: [3, 4]}]", "stones: [{at: [1, 2]}]"),
              Lines{"stones.2 is gone"});
    EXPECT_EQ(changes("grout: sand", "grout: {like: sand}"), Lines{"grout is another"});
}

// Fields are laid in the order of the file.
TEST(Changes, AnotherOrderIsAChange) {
    EXPECT_EQ(changes("fields: [{name: a}, {name: b}]", "fields: [{name: b}, {name: a}]"),
              Lines{"fields stand in another order"});
}

}  // namespace
}  // namespace rakelight
