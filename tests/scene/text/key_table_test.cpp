#include "scene/text/key_table.h"

#include <gtest/gtest.h>

#include <regex>
#include <stdexcept>

#include "scene/keys/takes.h"
#include "scene/text/yaml_reader.h"
#include "tests/support/refusal.h"

namespace rakelight {
namespace {

using keys::operator|;

constexpr KeyRow kInner[] = {keys::any("NAME", keys::share(0, 1), "A share.")};
constexpr KeyTable kShares{"shares", "Shares.", kInner};
constexpr KeyRow kRows[] = {
    {"joint", keys::length(0, 50), "1 mm", "Width."},
    {"rows", keys::word("along, across"), "along", "Where rows run."},
    {"mix", keys::text("a material") | keys::mapping(kShares), "", "What is laid."},
    {.key = "let through at 3 mm",
     .takes = keys::share(0, 1),
     .usual = "",
     .says = "A share.",
     .stands_for = true,
     .begins = "let through at "},
};
constexpr KeyTable kTable{"test", "A test.", kRows};

/// What a section with this text reports while `read` reads it.
template <class Read>
std::string said(std::string_view text, Read&& read) {
    const YamlValue value = parse_yaml(text, "t.yaml");
    return refusal_of([&] {
        ProblemList problems("t.yaml");
        Section in(value, "", kTable, problems);
        read(in);
        in.finish();
        problems.throw_if_any();
    });
}

TEST(KeyTable, GivesQuantityRangeAndWords) {
    double joint = 0;
    std::size_t rows = 0;
    EXPECT_EQ(said("{joint: 1 in, rows: across}",
                   [&](Section& in) {
                       in.set(joint, "joint");
                       in.set_word(rows, "rows");
                   }),
              "");
    EXPECT_DOUBLE_EQ(joint, 25.4);
    EXPECT_EQ(rows, 1u);
    const auto read = [&](Section& in) {
        in.set(joint, "joint");
        in.set_word(rows, "rows");
    };
    EXPECT_EQ(said("joint: 51", read), "t.yaml:1:8: joint: found \"51\", expected 0 to 50 mm");
    EXPECT_EQ(said("rows: acros", read),
              "t.yaml:1:7: rows: found \"acros\", expected one of along, across; did you mean across?");
}

TEST(KeyTable, SuggestsWhatItHasEvenWhereNobodyAsked) {
    const auto nothing = [](Section&) {};
    EXPECT_NE(said("jiont: 1", nothing).find("did you mean joint?"), std::string::npos);
    EXPECT_NE(said("joint: 1", nothing).find("does not go with the other keys here"), std::string::npos);
}

TEST(KeyTable, KeysThatNoRowHasAreMistakesOfTheProgram) {
    double target = 0;
    std::string text;
    EXPECT_THROW(said("joint: 1", [&](Section& in) { in.set(target, "jiont"); }), std::logic_error);
    EXPECT_THROW(said("joint: 1", [&](Section& in) { in.find("jiont"); }), std::logic_error);
    EXPECT_THROW(said("joint: 1", [&](Section& in) { (void)in.has("jiont"); }), std::logic_error);
    EXPECT_THROW(said("rows: along", [&](Section& in) { in.set(target, "rows"); }), std::logic_error);
}

TEST(KeyTable, RowsMayStandForNames) {
    EXPECT_EQ(row_of(kTable, "let through at 5 mm"), &kRows[3]);
    EXPECT_EQ(row_of(kTable, "let by"), nullptr);
    const YamlValue value = parse_yaml("mix: {sea: 60 %, foam: 140 %}", "t.yaml");
    ProblemList problems("t.yaml");
    Section in(value, "", kTable, problems);
    double sea = 0, foam = 0;
    for_mapping(in, "mix", [&](Section& shares) {
        EXPECT_TRUE(shares.set(sea, "sea"));
        EXPECT_FALSE(shares.set(foam, "foam"));
    });
    EXPECT_DOUBLE_EQ(sea, 0.6);
    EXPECT_FALSE(problems.empty());
}

// What the pattern of a quantity takes, the reader takes, and the other way round.
TEST(MeasurePattern, AgreesWithTheReader) {
    for (const Quantity quantity : {Quantity::plain, Quantity::share, Quantity::length_mm, Quantity::mass_g,
                                    Quantity::temperature_k, Quantity::angle_deg, Quantity::illuminance_lx}) {
        const std::regex pattern(measure_pattern(quantity), std::regex::ECMAScript);
        for (const char* text :
             {"12",   "12 mm", "12mm",   "-1.5 in", "+3 ft", ".5",   "5.",     "1e3", "1e3 mm", " 2 m ",
              "60 %", "20%",   "3/4 in", "1,5",     "",      "mm",   "12 mn",  "nan", "inf",    "--1",
              "+-1",  "1 2",   "0x10",   "5 kg",    "9 klx", "90 °", "2700 K", "1e",  "e3",     "12 mm mm"})
            EXPECT_EQ(std::regex_match(text, pattern), read_measure(text, quantity).ok())
                << describe(quantity) << ": " << text;
    }
}

}  // namespace
}  // namespace rakelight
