#include "scene/text/tree_override.h"

#include <gtest/gtest.h>

#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"

namespace rakelight {
namespace {

constexpr const char* kText =
    "panel: {size: [200, 150]}\n"
    "fields:\n"
    "  - {name: sun. low, outline: [[20, 20], [90, 20], [90, 90]], mix: slate, grout: sand}\n"
    "  - {name: sea, mix: slate}\n"
    "lamps:\n"
    "  - {name: a, group: pair, at: [0, 2500, 900], aim: [0, 1450, 0], lumen: 500}\n"
    "  - {name: b, group: pair, at: [9, 2500, 900], aim: [0, 1450, 0], lumen: 500}\n";

YamlValue word(std::string text) {
    YamlValue place;
    place.line = 40;
    place.column = 7;
    return scalar_at(place, std::move(text));
}

// The layout after one change, or what is wrong with it.
std::pair<Layout, std::string> changed(const std::string& path, const std::string& value) {
    YamlValue tree = parse_yaml(kText, "t.yaml");
    ProblemList problems("t.yaml");
    try {
        override_tree(tree, word(path), word(value), "board." + path, problems);
        problems.throw_if_any();
        return {read_layout_tree({tree, {}}, "t.yaml"), ""};
    } catch (const LayoutError& error) {
        return {{}, error.what()};
    }
}

std::string grout_of(const Layout& layout, std::size_t field) {
    return layout.tints.at(layout.fields.at(field).grout.value()).name;
}

TEST(TreeOverride, ItemsAreMeantByTheirName) {
    EXPECT_EQ(grout_of(changed("fields.sea.grout", "white").first, 1), "white");
    // A name may hold a point and a space.
    EXPECT_EQ(grout_of(changed("fields.sun. low.grout", "white").first, 0), "white");
    EXPECT_EQ(grout_of(changed("fields.sun. low.grout", "white").first, 1), "mid-grey");
}

TEST(TreeOverride, AGroupIsAllOfIt) {
    const Layout layout = changed("lamps.pair.lumen", "700").first;
    EXPECT_EQ(layout.on.lamps[0].lumen, 700);
    EXPECT_EQ(layout.on.lamps[1].lumen, 700);
    EXPECT_EQ(changed("lamps.b.lumen", "700").first.on.lamps[0].lumen, 500);
}

TEST(TreeOverride, AddsWhatIsNotThere) {
    EXPECT_EQ(changed("room.panel centre height", "1500").first.panel.centre_height_mm, 1500);
    EXPECT_EQ(changed("panel.seed", "9").first.panel.seed, 9u);
}

TEST(TreeOverride, MistakesAreToldWhereTheChangeIsWritten) {
    const struct {
        const char *path, *value, *said;
    } cases[] = {
        {"fields.see.grout", "white", "t.yaml:40:7: board.fields.see.grout: found the unknown name \"see\""},
        {"fields.see.grout", "white", "did you mean sea?"},
        {"fields.sea.grut", "white", "t.yaml:40:7: fields[2].grut"},
        {"fields.sea.grut", "white", "did you mean grout?"},
        {"fields.sea.joint", "-1", "t.yaml:40:7: fields[2].joint"},
        {"fields.sun. low.grout.dark", "white", "expected a path that ends at \"sand\""},
        {"feilds.sea.grout", "white", "did you mean fields?"},
    };
    for (const auto& c : cases) {
        const std::string said = changed(c.path, c.value).second;
        EXPECT_NE(said.find(c.said), std::string::npos) << c.path << "\n" << said;
    }
}

}  // namespace
}  // namespace rakelight
