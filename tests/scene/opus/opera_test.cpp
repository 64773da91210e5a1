// The table of opera: what the manual says is what the program knows, and every row is whole.
#include "scene/opus/opera.h"
#include "scene/model/layout.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <set>

#include "scene/reading/layout_reader.h"
#include "scene/text/diagnostics.h"
#include "tests/support/refusal.h"
#include "tests/support/table_in_manual.h"

namespace rakelight {
namespace {

Layout read(std::string_view opus, const std::string& rest) {
    return read_layout_text(
        fmt::format("panel: {{size: [600, 400]}}\nfields:\n  - {{name: all, mix: slate, opus: {}{}}}\n", opus,
                    rest),
        "test.yaml");
}

// What a field of the opus cannot be without.
std::string least_of(const OpusRule& rule) {
    return rule.drawn ? ", joint: 0.5, shapes: [[[9, 9], [99, 9], [9, 99]]]" : "";
}

TEST(Opera, TheManualHasTheSameTable) {
    const auto rows = table_in_manual("lay", "| opus | what it means here | its own keys |");
    EXPECT_EQ(rows.size(), opera().size());
    for (const OpusRule& rule : opera()) {
        const auto row = rows.find(std::string(rule.word));
        ASSERT_NE(row, rows.end()) << rule.word;
        const auto& [definition, keys] = row->second;
        EXPECT_TRUE(definition.starts_with(rule.definition)) << definition << "\n" << rule.definition;
        for (const std::string_view key : rule.own_keys)
            EXPECT_NE(keys.find(key.empty() ? "" : '`' + std::string(key)), std::string::npos) << rule.word;
        const std::string halo = fmt::format("`halo`, {} unless told", rule.usual_halo);
        EXPECT_EQ(keys.find(halo) != std::string::npos, rule.usual_halo > 0) << rule.word;
    }
    // As the message for a misspelt one shows them.
    EXPECT_NE(chapter("draw").find(fmt::format("expected one of {};", fmt::join(opus_words(), ", "))),
              std::string::npos);
}

TEST(Opera, EveryRowIsWhole) {
    std::set<std::string_view> words, definitions;
    for (const OpusRule& rule : opera()) {
        EXPECT_EQ(&rule_of(rule.opus), &rule);
        EXPECT_TRUE(words.insert(rule.word).second) << rule.word;
        EXPECT_TRUE(definitions.insert(rule.definition).second) << rule.word;
        EXPECT_NE(rule.lay, nullptr) << rule.word;
        // Faster than micro-mosaic at 100 hours a square foot, slower than tiling at half an hour: common
        // practice, no published source.
        EXPECT_GT(rule.hours_per_square_foot[0], 0.5) << rule.word;
        EXPECT_LT(rule.hours_per_square_foot[0], rule.hours_per_square_foot[1]) << rule.word;
        EXPECT_LT(rule.hours_per_square_foot[1], 100) << rule.word;
        EXPECT_EQ(read(rule.word, least_of(rule)).fields[0].opus, rule.opus);
    }
}

TEST(Opera, OwnKeysAreReadAtHomeAndRefusedElsewhere) {
    const auto refusal = [](const OpusRule& rule, std::string_view key) {
        return refusal_of([&] {
            // A mapping: neither a length, nor a word, nor a list.
            read(rule.word, fmt::format(", {}: {{no: such thing}}", key));
        });
    };
    for (const OpusRule& owner : opera())
        for (const std::string_view key : owner.own_keys) {
            if (key.empty()) continue;
            for (const OpusRule& rule : opera()) {
                const std::string said = refusal(rule, key);
                const std::string at = fmt::format("fields[1].{}: found ", key);
                EXPECT_NE(said.find(at), std::string::npos) << rule.word << ": " << said;
                EXPECT_EQ(said.find("unknown"), std::string::npos) << rule.word << ": " << said;
                EXPECT_EQ(
                    said.find(fmt::format("expected it only in one of {}", owner.word)) != std::string::npos,
                    &rule != &owner)
                    << rule.word << ": " << said;
            }
        }
}

TEST(Opera, BreaksHaloBouldersAndRowsAcrossFollowTheTable) {
    for (const OpusRule& rule : opera()) {
        const auto good = [&](const std::string& rest) {
            return refusal_of([&] { read(rule.word, least_of(rule) + rest); }).empty();
        };
        EXPECT_EQ(good(", breaks: [[[300, 0], [300, 400]]]"), rule.takes_breaks) << rule.word;
        EXPECT_EQ(good(", rows: across"), rule.led_by_guides) << rule.word;
        EXPECT_EQ(good(", halo: 1"), rule.takes_halo) << rule.word;
        EXPECT_EQ(good(", halo: 0"), rule.no_halo_is.empty()) << rule.word;
        EXPECT_EQ(good(", boulders: {material: slag, count: 3}"), !rule.drawn) << rule.word;
        EXPECT_EQ(read(rule.word, least_of(rule)).fields[0].halo_rows, rule.usual_halo) << rule.word;
    }
}

}  // namespace
}  // namespace rakelight
