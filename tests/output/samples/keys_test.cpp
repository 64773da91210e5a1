// The keys of a file of samples stand in the manual, and the manual's own example is read.
#include "output/samples/keys.h"

#include <gtest/gtest.h>

#include "output/samples/sample_file.h"
#include "tests/support/refusal.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

std::string manual() {
    return test::bytes_of(RAKELIGHT_SCENES "/../output/manual/samples.md");
}

TEST(SampleKeys, StandInTheManual) {
    const std::string text = manual();
    for (const KeyTable* table : {&sample_keys::file, &sample_keys::photograph, &sample_keys::chart,
                                  &sample_keys::lamp, &sample_keys::spot, &sample_keys::sample})
        for (const KeyRow& row : table->rows) {
            const std::string key(row.key);
            EXPECT_TRUE(text.find("`" + key + "`") != std::string::npos ||
                        text.find(key + ":") != std::string::npos)
                << table->name << " " << key;
        }
}

TEST(SampleKeys, EmptyFilesAreRefused) {
    const auto said = [](std::string_view text) {
        return refusal_of([&] { read_sample_text(text, "a.yaml"); });
    };
    EXPECT_EQ(said("photographs: []\nsamples: {}\n"),
              "a.yaml:1:14: photographs: found none, expected one picture at least");
    EXPECT_NE(said("photographs: 3\nsamples: {}\n"), "");
    EXPECT_NE(said("- 1\n"), "");
    EXPECT_NE(said(""), "");
    EXPECT_NE(
        said("samples: {a: {kind: stone}}\n").find("photographs: found nothing, expected a list of pictures"),
        std::string::npos);
}

TEST(SampleKeys, TheExampleOfTheManualIsRead) {
    const std::string text = manual();
    const std::size_t from = text.find("    date: "), to = text.find("\n\n", from);
    ASSERT_NE(from, std::string::npos);
    const SampleFile file = read_sample_text(text.substr(from, to - from), "example.yaml");
    EXPECT_EQ(file.photographs.size(), 2u);
    EXPECT_EQ(file.photographs[0].spots.size(), 3u);
    EXPECT_EQ(file.samples.size(), 2u);
    EXPECT_EQ(file.photographs[0].spots[1].over, Over::black);
}

TEST(SampleKeys, TheManualsPhotographOfASheetIsRead) {
    const std::string text = manual();
    const std::size_t from = text.find("      - picture: north-window.jpg\n        places: "),
                      to = text.find("\n\n", from);
    ASSERT_NE(from, std::string::npos);
    const SampleFile file = read_sample_text(
        "photographs:\n" + text.substr(from, to - from) + "\nsamples: {dry grout: {kind: cement}}\n",
        "example.yaml");
    EXPECT_EQ(file.photographs.at(0).places, Places::on_sheet);
    EXPECT_EQ(file.photographs.at(0).spots.at(0).box.at, glm::dvec2(13, 98));
}

// What a ruler says may be told in its unit; pixels have none.
TEST(SampleKeys, MillimetresTakeUnits) {
    const auto file = [](const std::string& places) {
        return "photographs:\n  - picture: a.png\n" + places +
               "    samples: [{name: a, rectangle: [1 in, -2 cm, 20, 20 mm]}]\nsamples: {a: {kind: stone}}\n";
    };
    const PictureBox box =
        read_sample_text(file("    places: on the sheet\n"), "a.yaml").photographs.at(0).spots.at(0).box;
    EXPECT_DOUBLE_EQ(box.at.x, 25.4);
    EXPECT_DOUBLE_EQ(box.at.y, -20);
    EXPECT_NE(refusal_of([&] { read_sample_text(file(""), "a.yaml"); }).find("rectangle"), std::string::npos);
}

}  // namespace
}  // namespace rakelight
