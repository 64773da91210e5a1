// A PNG is of the filtered light unless it is told otherwise, and says which.
#include <OpenImageIO/imageio.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

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
    deliver(noted, folder.path());
    const std::string exr = test::bytes_of(folder / "straight.exr");
    const auto files = deliver(noted, folder.path(), {true, true});
    EXPECT_EQ(said_of_filter(files[0]), "none, as traced");
    EXPECT_FALSE(record_says(files[2]));
    const auto traced = folder / "traced.png";
    write_png(traced, develop(noted.film, developing_for(noted, true)), {});
    EXPECT_EQ(pixels(files[0]), pixels(traced));
    EXPECT_TRUE(test::bytes_of(files[1]) == exr) << "light on disk is never filtered";
    EXPECT_TRUE(is_finished(folder.path(), "straight", noted.notes.scene_hash, {true, true}));
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
