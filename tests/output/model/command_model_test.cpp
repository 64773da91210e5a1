// `rakelight model`, run as a person would.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "tests/support/run_program.h"

namespace rakelight {
namespace {

using test::Outcome;
using test::run_in;

constexpr const char* kTide =
    "panel: {name: Tide, size: [90, 60]}\nfields: [{name: sea, piece: 9, joint: 1.5, mix: aqua}]\n";

TEST(CommandModel, WritesAFileAndItsRecord) {
    const test::Folder folder;
    folder.write("tide.yaml", kTide);
    const Outcome o = run_in(folder, "model tide.yaml --json");
    ASSERT_EQ(o.code, 0) << o.err;
    const auto json = nlohmann::json::parse(o.out);
    EXPECT_EQ(json["format"], "rakelight model");
    EXPECT_EQ(json["bytes"], std::filesystem::file_size(folder.path() / "renders/tide/model.glb"));
    EXPECT_EQ(json["files"], nlohmann::json({"model.glb"}));
    EXPECT_NEAR(json["size_mm"][0], 90, 1e-3);
}

TEST(CommandModel, IsMadeCoarserThanAskedForWhereItWouldBeTooLarge) {
    const test::Folder folder;
    folder.write("tide.yaml", kTide);
    const Outcome o = run_in(folder, "model tide.yaml --detail 0 --most-mb 0.3");
    ASSERT_EQ(o.code, 0) << o.err;
    EXPECT_TRUE(test::holds(o.err, "Note: --detail 0 would take more than 0.3 MB")) << o.err;
    EXPECT_LE(std::filesystem::file_size(folder.path() / "renders/tide/model.glb"), 300'000u);
}

TEST(CommandModel, RefusesWhatCannotBe) {
    const test::Folder folder;
    folder.write("tide.yaml", kTide);
    test::expect_refused(folder, "model tide.yaml --detail 9", "0 to 5");
    test::expect_refused(folder, "model tide.yaml --most-mb nought", "--most-mb");
    test::expect_refused(folder, "model gone.yaml", "gone.yaml");
    folder.write("wide.yaml",
                 "panel: {size: [300, 200]}\nfields: [{name: sea, piece: 9, joint: 1.5, mix: aqua}]\n");
    test::expect_refused(folder, "model wide.yaml --detail 5 --most-mb 0.1", "--most-mb 0.1: found");
    EXPECT_FALSE(std::filesystem::exists(folder.path() / "renders"));
}

}  // namespace
}  // namespace rakelight
