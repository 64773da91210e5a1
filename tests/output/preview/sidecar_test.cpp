// The promises of NAME.json to other programs: keys, and figures that a hand can check.
#include "output/preview/sidecar.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "output/preview/deliver.h"
#include "tests/support/test_film.h"

namespace rakelight {
namespace {

TEST(Record, KeysAndFigures) {
    NotedFilm noted{test::make_film(2, 1), test::make_notes()};
    noted.film.xyz[0] = {{1, 2, 3}, {1, 4, 3}};
    noted.film.xyz[1] = {{0, 10, 0}, {0, 10, 0}};
    noted.film.error = {0.1f, 0.3f};
    noted.film.samples = {16, 64};
    Developing how = developing_for(noted, true);
    const PictureFigures figures = figures_of(source_of(noted.film, noted.notes));
    const auto j = nlohmann::json::parse(sidecar_json(noted, figures, how, {"straight.png"}));
    EXPECT_EQ(j.at("format"), "rakelight record");
    EXPECT_EQ(j.at("version"), 2);
    EXPECT_EQ(j.at("note"), "rendering, not a photograph");
    EXPECT_EQ(j.at("program"), "rakelight 0.1.0");
    EXPECT_EQ(j.at("panel"), "Low tide");
    EXPECT_EQ(j.at("picture"), "straight");
    EXPECT_EQ(j.at("layout_file"), "tide.yaml");
    EXPECT_EQ(j.at("scene_hash"), "0123456789abcdef");
    EXPECT_EQ(j.at("size_px"), nlohmann::json({2, 1}));
    EXPECT_EQ(j.at("lamp_groups").size(), 2u);
    EXPECT_EQ(j.at("lamp_groups")[0].at("name"), "spots");
    EXPECT_EQ(j.at("lamp_groups")[0].at("illuminance_on_panel_lx"), 200);
    EXPECT_DOUBLE_EQ(j.at("lamp_groups")[0].at("mean_luminance_cd_per_m2"), 3);
    EXPECT_DOUBLE_EQ(j.at("luminance_cd_per_m2").at("least"), 12);
    EXPECT_DOUBLE_EQ(j.at("luminance_cd_per_m2").at("mean"), 13);
    EXPECT_DOUBLE_EQ(j.at("luminance_cd_per_m2").at("most"), 14);
    EXPECT_EQ(j.at("exposure").at("rule"), "grey-card");
    EXPECT_DOUBLE_EQ(j.at("exposure").at("ev100"), how.ev100);
    EXPECT_NEAR(j.at("exposure").at("grey_card_luminance_cd_per_m2"), 0.18 * (200 + 100.0 / 7) / 3.14159265,
                1e-6);
    EXPECT_EQ(j.at("exposure").at("glow"), true);
    EXPECT_EQ(j.at("samples").at("fewest"), 16);
    EXPECT_EQ(j.at("samples").at("mean"), 40);
    EXPECT_EQ(j.at("samples").at("most"), 64);
    EXPECT_NEAR(j.at("grain").at("mean_relative"), 0.2 / 13, 1e-7);
    // Variances of independent pixels add: sqrt(0.1^2 + 0.3^2) / 2.
    EXPECT_NEAR(j.at("grain").at("of_mean_relative"), std::sqrt(0.1) / 2 / 13, 1e-7);
    EXPECT_FALSE(j.contains("sun"));
    noted.notes.sun = NotedSun{12, -30};
    const auto sunny = nlohmann::json::parse(sidecar_json(noted, figures, how, {"straight.png"}));
    EXPECT_EQ(sunny.at("sun").at("altitude_deg"), 12);
    EXPECT_EQ(sunny.at("sun").at("aside_deg"), -30);
    EXPECT_EQ(j.at("materials").size(), 3u);
    EXPECT_EQ(j.at("files"), nlohmann::json({"straight.png"}));
    EXPECT_FALSE(j.contains("seconds"));
}

TEST(Record, DeliveryWritesThreeFilesAndTheSameTwice) {
    const test::Folder folder;
    NotedFilm noted{test::make_film(33, 20), test::make_notes()};
    noted.notes.picture = "by day/left";
    const auto files = deliver(noted, folder.path(), true);
    ASSERT_EQ(files.size(), 3u);
    EXPECT_EQ(folder.entries(), 3u);
    EXPECT_EQ(files[0], folder / "by-day-left.png");
    std::vector<std::string> first;
    for (const auto& file : files) first.push_back(test::bytes_of(file));
    deliver(noted, folder.path(), true);
    for (std::size_t i = 0; i < 3; ++i) EXPECT_TRUE(test::bytes_of(files[i]) == first[i]);
}

}  // namespace
}  // namespace rakelight
