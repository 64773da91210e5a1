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

}  // namespace
}  // namespace rakelight
