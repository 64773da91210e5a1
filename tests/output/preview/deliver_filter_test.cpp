// A PNG is of the filtered light unless it is told otherwise, and says which; the EXR has both.
#include <OpenImageIO/imageio.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "output/film/film_join.h"
#include "output/filter/filter.h"
#include "output/preview/deliver.h"
#include "output/preview/finished.h"
#include "output/print/picture_writer.h"
#include "output/system/safe_file.h"
#include "tests/support/test_film.h"

namespace rakelight {
namespace {

std::string said_of_filter(const std::filesystem::path& png) {
    const auto in = OIIO::ImageInput::open(png.string());
    return in ? in->spec().get_string_attribute("Filter").c_str() : "no picture";
}

// Pixels alone: the text beside them differs.
std::vector<unsigned char> pixels(const std::filesystem::path& png) {
    const auto in = OIIO::ImageInput::open(png.string());
    std::vector<unsigned char> all(in->spec().image_bytes());
    in->read_image(0, 0, 0, in->spec().nchannels, OIIO::TypeDesc::UINT8, all.data());
    return all;
}

bool record_says(const std::filesystem::path& json) {
    return nlohmann::json::parse(read_file(json)).at("exposure").at("filtered");
}

TEST(DeliverFiltered, PngAndRecordSayWhich) {
    const test::Folder folder;
    const NotedFilm noted{test::make_film(40, 150), test::make_notes()};
    const auto files = deliver(noted, folder.path(), {false, false});
    EXPECT_EQ(said_of_filter(files[0]).substr(0, 9), "the grain");
    EXPECT_TRUE(record_says(files[2]));
    const auto whole = folder / "whole.png";
    write_png(whole, develop(filtered(noted.film), developing_for(noted, false)), {});
    EXPECT_EQ(pixels(files[0]), pixels(whole)) << "rows filtered band by band";
    EXPECT_TRUE(is_finished(folder.path(), "straight", noted.notes.scene_hash, {false, false}));
    EXPECT_FALSE(is_finished(folder.path(), "straight", noted.notes.scene_hash, {false, true}));
}

TEST(DeliverFiltered, AsTracedIsTheLightItself) {
    const test::Folder folder;
    const NotedFilm noted{test::make_film(40, 30), test::make_notes()};
    write_film(folder / "alone.exr", noted.film, noted.notes);
    const std::string exr = test::bytes_of(folder / "alone.exr");
    const auto files = deliver(noted, folder.path(), {true, true});
    EXPECT_EQ(said_of_filter(files[0]), "none, as traced");
    EXPECT_FALSE(record_says(files[2]));
    const auto traced = folder / "traced.png";
    write_png(traced, develop(noted.film, developing_for(noted, true)), {});
    EXPECT_EQ(pixels(files[0]), pixels(traced));
    EXPECT_TRUE(test::bytes_of(files[1]) == exr) << "the light as traced and no layer beside it";
    EXPECT_TRUE(is_finished(folder.path(), "straight", noted.notes.scene_hash, {true, true}));
}

std::vector<glm::vec3> filtered_layer(const std::filesystem::path& exr) {
    const auto in = OIIO::ImageInput::open(exr.string());
    for (int part = 0; in->seek_subimage(part, 0); ++part) {
        const OIIO::ImageSpec spec = in->spec();
        if (spec.get_string_attribute("oiio:subimagename") != "filtered") continue;
        EXPECT_EQ(spec.channelnames, (std::vector<std::string>{"X", "Y", "Z"}));
        std::vector<glm::vec3> xyz(static_cast<std::size_t>(spec.width) *
                                   static_cast<std::size_t>(spec.height));
        EXPECT_TRUE(in->read_image(part, 0, 0, 3, OIIO::TypeDesc::FLOAT, xyz.data()));
        return xyz;
    }
    return {};
}

TEST(DeliverFiltered, ExrHoldsLightAsTracedAndTheFilteredBesideIt) {
    const test::Folder folder;
    const NotedFilm noted{test::make_film(40, 150), test::make_notes()};
    const auto files = deliver(noted, folder.path());
    EXPECT_TRUE(filtered_layer(files[1]) == filtered(noted.film).xyz.front());
    const NotedFilm back = read_film(files[1]);
    EXPECT_TRUE(test::same_film(noted.film, back.film)) << "and whoever reads it gets the light as traced";
    EXPECT_EQ(read_film_about(files[1]).row_checksums, source_of(noted.film, noted.notes).row_sums);
}

TEST(DeliverFiltered, PartsHaveNoLayerAndJoinedTheyMakeTheSameBytes) {
    const test::Folder folder;
    const NotedFilm noted{test::make_film(40, 150), test::make_notes()};
    const std::string whole = test::bytes_of(deliver(noted, folder.path())[1]);
    std::vector<std::string> parts;
    for (const RowRange rows : {RowRange{0, 61}, RowRange{61, 150}}) {
        parts.push_back(folder / ("from-" + std::to_string(rows.first_row) + ".exr"));
        write_film(parts.back(), test::make_film(40, 150, rows), noted.notes);
        EXPECT_TRUE(filtered_layer(parts.back()).empty());
    }
    EXPECT_TRUE(test::bytes_of(deliver(join_files(parts), folder.path())[1]) == whole);
    // A whole picture that has the layer already, delivered anew from its own file.
    EXPECT_TRUE(test::bytes_of(deliver(join_files({folder / "straight.exr"}), folder.path())[1]) == whole);
    deliver(join_files({folder / "straight.exr"}), folder.path(), {true, true});
    EXPECT_TRUE(filtered_layer(folder / "straight.exr").empty());
}

// Version 2 of the file had no guide; it is read and printed all the same.
TEST(DeliverFiltered, FilmOfAnEarlierVersionIsPrintedAsTraced) {
    const test::Folder folder;
    NotedFilm noted{test::make_film(40, 30), test::make_notes()};
    noted.film.guide = {};
    write_film(folder / "old.exr", noted.film, noted.notes);
    const NotedFilm back = read_film(folder / "old.exr");
    EXPECT_FALSE(back.film.guide.is_there);
    EXPECT_TRUE(test::same_film(back.film, noted.film));
    testing::internal::CaptureStderr();
    const auto files = deliver(source_of_file(folder / "old.exr"), folder.path());
    EXPECT_NE(testing::internal::GetCapturedStderr().find("traced by an earlier version"), std::string::npos);
    EXPECT_EQ(said_of_filter(files[0]), "none, as traced");
}

TEST(DeliverFiltered, FewSamplesAreNotFiltered) {
    const test::Folder folder;
    NotedFilm noted{test::make_film(40, 30), test::make_notes()};
    noted.film.samples.assign(noted.film.pixel_count(), 4);
    const auto files = deliver(noted, folder.path());
    EXPECT_EQ(said_of_filter(files[0]), "none, as traced");
    EXPECT_TRUE(is_finished(folder.path(), "straight", noted.notes.scene_hash));
}

}  // namespace
}  // namespace rakelight
