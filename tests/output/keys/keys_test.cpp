#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <set>

#include "output/keys/markdown.h"
#include "output/keys/terminal.h"
#include "output/keys/words.h"
#include "output/system/errors.h"
#include "scene/keys/keys.h"

namespace rakelight {
namespace {

void visit(const Takes& takes, std::set<const KeyTable*>& met) {
    for (const Taken& taken : takes.all()) {
        if (taken.item) visit(*taken.item, met);
        if (taken.table && met.insert(taken.table).second)
            for (const KeyRow& row : taken.table->rows) visit(row.takes, met);
    }
}

TEST(TablesOfKeys, AreAllReachedFromTheFile) {
    std::set<const KeyTable*> met{&keys::layout};
    for (const KeyRow& row : keys::layout.rows) visit(row.takes, met);
    const auto all = keys::every_table();
    EXPECT_EQ(met, std::set<const KeyTable*>(all.begin(), all.end()));
}

TEST(TablesOfKeys, SayEveryKeyOnceAndInASentence) {
    std::set<std::string_view> names;
    for (const KeyTable* table : keys::every_table()) {
        EXPECT_TRUE(names.insert(table->name).second) << table->name;
        EXPECT_EQ(table->says.back(), '.') << table->name;
        std::set<std::string_view> seen;
        for (const KeyRow& row : table->rows) {
            EXPECT_TRUE(seen.insert(row.key).second) << table->name << ' ' << row.key;
            EXPECT_EQ(row.says.back(), '.') << table->name << ' ' << row.key;
            EXPECT_FALSE(takes_text(row.takes).empty()) << row.key;
        }
        for (const KeyRule& rule : table->rules)
            for (const std::string& key : words_of(rule.keys)) EXPECT_NE(row_of(*table, key), nullptr) << key;
    }
}

// A usual value that is one number with a unit has to be one that the key takes.
TEST(TablesOfKeys, HaveUsualValuesWithinTheirRange) {
    int measured = 0;
    for (const KeyTable* table : keys::every_table())
        for (const KeyRow& row : table->rows) {
            const Taken* number = shape_of(row, Form::number);
            if (!number) continue;
            const Measure usual = read_measure(row.usual, number->quantity);
            if (!usual.ok()) continue;
            ++measured;
            EXPECT_GE(usual.value, number->range.low) << table->name << ' ' << row.key;
            EXPECT_LE(usual.value, number->range.high) << table->name << ' ' << row.key;
        }
    EXPECT_GT(measured, 50);
}

TEST(TablesOfKeys, HaveUsualWordsAmongTheirWords) {
    for (const KeyTable* table : keys::every_table())
        for (const KeyRow& row : table->rows) {
            const Taken* word = shape_of(row, Form::word);
            if (!word || row.takes.count > 1 || row.usual.empty() || row.usual == kMust ||
                row.usual.find(' ') != std::string_view::npos)
                continue;
            const auto words = list_of_words(word->words);
            EXPECT_NE(std::find(words.begin(), words.end(), row.usual), words.end()) << row.key;
        }
}

TEST(KeysOnTheTerminal, FitIntoEightyColumns) {
    std::string text = sections_on_terminal();
    for (const KeyTable* table : keys::every_table()) text += keys_on_terminal(table->name);
    std::size_t lines = 0;
    for (std::size_t at = 0; at < text.size(); ++lines) {
        const std::size_t end = text.find('\n', at);
        EXPECT_LE(end - at, 80u) << text.substr(at, end - at);
        at = end + 1;
    }
    EXPECT_GT(lines, 500u);
}

TEST(KeysOnTheTerminal, FindSectionsByTheirLastPartAndKeysWhereverTheyStand) {
    EXPECT_EQ(keys_on_terminal("barn doors"), keys_on_terminal("lamps.barn doors"));
    const std::string joint = keys_on_terminal("joint");
    EXPECT_NE(joint.find("fields.joint"), std::string::npos);
    EXPECT_NE(joint.find("0 to 50 mm"), std::string::npos);
    EXPECT_EQ(keys_on_terminal("fields.joint").find("board"), std::string::npos);
    try {
        keys_on_terminal("jiont");
        FAIL();
    } catch (const RequestError& error) {
        EXPECT_NE(std::string(error.what()).find("did you mean joint?"), std::string::npos) << error.what();
    }
}

TEST(KeysInTheManual, AreWhatTheProgramPrints) {
    std::ifstream file(RAKELIGHT_SCENES "/../output/manual/keys.md");
    const std::string page{std::istreambuf_iterator<char>(file), {}};
    EXPECT_TRUE(page == keys_in_markdown())
        << "print it anew: rakelight keys --markdown > output/manual/keys.md";
}

}  // namespace
}  // namespace rakelight
