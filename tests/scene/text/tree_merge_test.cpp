#include "scene/text/tree_merge.h"

#include <gtest/gtest.h>

#include "scene/text/tree_override.h"

namespace rakelight {
namespace {

YamlValue both(const char* base, const char* over) {
    return merged(parse_yaml(base, "base.yaml"), parse_yaml(over, "over.yaml"));
}

const YamlValue& at(const YamlValue& value, std::initializer_list<const char*> keys) {
    const YamlValue* v = &value;
    for (const char* key : keys) {
        v = member_of(*v, key);
        if (!v) {
            static const YamlValue nothing;
            return nothing;
        }
    }
    return *v;
}

TEST(TreeMerge, ASectionIsChangedKeyByKeyAndWhatIsUnderAKeyTakenWhole) {
    const YamlValue tree =
        both("panel: {name: Tide, seed: 1}\nstock: {a: {kind: glass, index: 1.5}, b: {like: c}}\n",
             "panel: {seed: 2}\nstock: {a: {like: opal}}\nroom: {lean: 4}\n");
    EXPECT_EQ(at(tree, {"panel", "name"}).text, "Tide");
    EXPECT_EQ(at(tree, {"panel", "seed"}).text, "2");
    EXPECT_EQ(at(tree, {"stock", "a", "like"}).text, "opal");
    EXPECT_EQ(member_of(at(tree, {"stock", "a"}), "kind"), nullptr);
    EXPECT_EQ(at(tree, {"stock", "b", "like"}).text, "c");
    EXPECT_EQ(at(tree, {"room", "lean"}).text, "4");
}

TEST(TreeMerge, AListOfNamedThingsIsChangedByNameAnyOtherTakenWhole) {
    const YamlValue tree = both(
        "fields: [{name: sea, mix: {a: 50 %, b: 50 %}, joint: 2}, {name: sky, mix: c}]\nstones: [{material: "
        "x}]\n"
        "room: {windows: [{name: east, glass: clear}, {name: west}]}\n",
        "fields: [{name: sky, mix: d}, {name: sand, mix: e}, {name: sea, mix: {f: 100 %}}]\nstones: "
        "[{material: y}]\n"
        "room: {windows: [{name: west, glass: blind}]}\n");
    const auto& fields = at(tree, {"fields"}).items;
    ASSERT_EQ(fields.size(), 3u);
    EXPECT_EQ(at(fields[0], {"name"}).text, "sea");
    EXPECT_EQ(at(fields[0], {"joint"}).text, "2");
    ASSERT_EQ(at(fields[0], {"mix"}).members.size(), 1u);  // a mix adds up to a whole: never half of each
    EXPECT_EQ(at(fields[1], {"mix"}).text, "d");
    EXPECT_EQ(at(fields[2], {"name"}).text, "sand");
    ASSERT_EQ(at(tree, {"stones"}).items.size(), 1u);
    EXPECT_EQ(at(at(tree, {"stones"}).items[0], {"material"}).text, "y");
    ASSERT_EQ(at(tree, {"room", "windows"}).items.size(), 2u);
    EXPECT_EQ(at(at(tree, {"room", "windows"}).items[0], {"glass"}).text, "clear");
    EXPECT_EQ(at(at(tree, {"room", "windows"}).items[1], {"glass"}).text, "blind");
}

// RFC 7396, section 1: "Null values in the merge patch are given special meaning to indicate the removal of
// existing values in the target."
TEST(TreeMerge, AKeyWithoutAValueRemoves) {
    const YamlValue tree = both("lamps: [{name: a, temperature: 3000, lumen: 5}]\nbeside: {layout: b.yaml}\n",
                                "lamps: [{name: a, temperature: , illuminant: A}]\nbeside:\n");
    EXPECT_EQ(member_of(tree, "beside"), nullptr);
    const YamlValue& lamp = at(tree, {"lamps"}).items.at(0);
    EXPECT_EQ(member_of(lamp, "temperature"), nullptr);
    EXPECT_EQ(at(lamp, {"illuminant"}).text, "A");
    EXPECT_EQ(at(lamp, {"lumen"}).text, "5");
}

TEST(TreeMerge, EveryValueKeepsItsPlace) {
    const YamlValue tree = both("panel: {name: Tide,\n  seed: 1}\n", "\n\npanel: {seed: 2}\n");
    EXPECT_EQ(*at(tree, {"panel", "name"}).file, "base.yaml");
    EXPECT_EQ(at(tree, {"panel", "name"}).line, 1);
    EXPECT_EQ(*at(tree, {"panel", "seed"}).file, "over.yaml");
    EXPECT_EQ(at(tree, {"panel", "seed"}).line, 3);
}

TEST(TreeMerge, WhatIsSaidTwiceStaysForTheReaderToRefuse) {
    EXPECT_EQ(at(both("panel: {seed: 1}\n", "panel: {seed: 2, seed: 3}\n"), {"panel"}).members.size(), 2u);
    EXPECT_EQ(at(both("lamps: [{name: a}]\n", "lamps: [{name: a}, {name: a}]\n"), {"lamps"}).items.size(),
              2u);
}

}  // namespace
}  // namespace rakelight
