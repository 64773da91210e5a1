#include "scene/text/yaml_document.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>

namespace rakelight {
namespace {

using Shape = YamlValue::Shape;

Problem refusal(std::string_view text) {
    try {
        parse_yaml(text, "f.yaml");
    } catch (const LayoutError& error) {
        return error.problems().at(0);
    }
    return {};
}

TEST(YamlDocument, KnowsWhereEverythingIs) {
    const YamlValue root = parse_yaml("a: 1\nb:\n  - [x, 2 mm]\n  - {c: }\nd:\n", "f.yaml");
    ASSERT_EQ(root.shape, Shape::mapping);
    ASSERT_EQ(root.members.size(), 3u);
    EXPECT_EQ(root.members[0].value.text, "1");
    EXPECT_EQ(root.members[0].value.column, 4);
    const YamlValue& list = root.members[1].value;
    ASSERT_EQ(list.items.size(), 2u);
    EXPECT_EQ(list.items[0].items[1].text, "2 mm");
    EXPECT_EQ(list.items[0].items[1].line, 3);
    EXPECT_EQ(list.items[0].items[1].column, 9);
    EXPECT_EQ(list.items[1].members[0].value.shape, Shape::nothing);
    EXPECT_EQ(list.items[1].members[0].value.column, 6);  // nothing stands where its key stands
    EXPECT_EQ(root.members[2].value.line, 5);
}

TEST(YamlDocument, KeepsDuplicateKeysForTheReaderToReport) {
    EXPECT_EQ(parse_yaml("a: 1\na: 2\n", "f.yaml").members.size(), 2u);
}

TEST(YamlDocument, EmptyTextIsNothing) {
    for (const char* text : {"", "\n\n", "# only a remark\n", "---\n", "~"})
        EXPECT_EQ(parse_yaml(text, "f.yaml").shape, Shape::nothing) << text;
}

struct Case {
    const char* text;
    int line;
    int column;  ///< 0 = where the parser happens to notice
    const char* words;
};

constexpr Case kRefused[] = {
    {"a: [1, 2\nb: 3\n", 2, 0, "not valid YAML"},
    {"a: 1\nb: \"open", 2, 0, "not valid YAML"},
    {"a: b: c\n", 1, 5, "not valid YAML"},
    {"a:\n\tb: 1\n", 2, 1, "found a tab before the first word"},
    {"a:\n  b: 1\n  \tc: 2\n", 3, 3, "found a tab before the first word"},
    {"a: &x [1]\nb: *x\n", 2, 4, "alias"},
    {"a: !!binary 12\n", 1, 4, "tag"},
    {"a: 1\n---\nb: 2\n", 2, 1, "second document"},
    {"{[1, 2]: 3}\n", 1, 2, "as a key"},
    {"{~: 3}\n", 1, 2, "as a key"},
};

TEST(YamlDocument, RefusesWithThePlace) {
    for (const Case& c : kRefused) {
        const Problem problem = refusal(c.text);
        EXPECT_EQ(problem.place.line, c.line) << c.text << to_string(problem);
        EXPECT_EQ(problem.place.column, c.column > 0 ? c.column : std::max(1, problem.place.column))
            << c.text << to_string(problem);
        EXPECT_NE(problem.text.find(c.words), std::string::npos) << c.text << to_string(problem);
    }
}

TEST(YamlDocument, AliasBombCostsNothing) {
    // Nine lines, each ten times the one before: a thousand million values if they were unfolded.
    std::string text = "a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n";
    for (int i = 1; i < 9; ++i) {
        const std::string n = std::to_string(i), before = "*a" + std::to_string(i - 1);
        text += "a" + n + ": &a" + n + " [" + before;
        for (int k = 1; k < 10; ++k) text += ", " + before;
        text += "]\n";
    }
    const Problem problem = refusal(text);
    EXPECT_EQ(problem.place.line, 2);
    EXPECT_NE(problem.text.find("alias"), std::string::npos);
}

TEST(YamlDocument, RefusesDeepNestingAtTheLimit) {
    const auto start = std::chrono::steady_clock::now();
    const auto repeated = [](const char* text) {
        std::string all;
        for (int i = 0; i < 100'000; ++i) all += text;
        return all;
    };
    EXPECT_NE(refusal(repeated("- ")).text.find("64 levels"), std::string::npos);
    EXPECT_NE(refusal(repeated("[") + repeated("]")).text.find("64 levels"), std::string::npos);
    EXPECT_NE(refusal(repeated("{a: ") + repeated("}")).text.find("64 levels"), std::string::npos);
    EXPECT_FALSE(refusal(repeated("[")).text.empty());
    EXPECT_FALSE(refusal(repeated("{a: ")).text.empty());
    EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::seconds(5));
    EXPECT_EQ(parse_yaml(std::string(64, '[') + std::string(64, ']'), "f.yaml").shape, Shape::list);
    EXPECT_FALSE(refusal(std::string(65, '[') + std::string(65, ']')).text.empty());
}

TEST(YamlDocument, RefusesTooManyValuesAndTooMuchText) {
    std::string many = "[";
    for (int i = 0; i < kMostValues; ++i) many += "1,";
    EXPECT_NE(refusal(many + "]").text.find("200000 values"), std::string::npos);
    EXPECT_NE(refusal(std::string(kMostFileBytes + 1, ' ')).text.find("8 MiB"), std::string::npos);
}

}  // namespace
}  // namespace rakelight
