// A picture in bands is the picture: a film of known values stands in for the tracer, and can be stopped
// anywhere.
#include "output/preview/render_in_bands.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "output/system/errors.h"
#include "tests/support/test_film.h"

namespace rakelight {
namespace {

constexpr int kWidth = 5;
constexpr int kHeight = 203;  // no whole number of tiles

struct Stopped {};

BegunPlace place_in(const test::Folder& folder) {
    return {folder.path(), "straight", test::make_notes(), "cafe"};
}

// Traces from a film of known values and counts rows; stops before the band with number `most_bands`.
struct Tracer {
    int most_bands = 1000;
    int bands = 0;
    int rows = 0;
    int began = -1;

    BandWork work(RowRange wanted = {0, kHeight}) {
        BandWork w;
        w.rows = wanted;
        w.save_every_s = 0;
        w.began = [this](int until_row) { began = until_row; };
        w.trace = [this](const RowRange& band) {
            if (bands++ == most_bands) throw Stopped{};
            rows += band.end_row - band.first_row;
            return test::make_film(kWidth, kHeight, band);
        };
        return w;
    }
};

TEST(RenderInBands, IsTheWholePicture) {
    const test::Folder folder;
    Tracer tracer;
    const Film film = render_in_bands(place_in(folder), tracer.work());
    EXPECT_TRUE(test::same_film(film, test::make_film(kWidth, kHeight)));
    EXPECT_EQ(tracer.rows, kHeight);
    EXPECT_GT(tracer.bands, 1);
    EXPECT_EQ(tracer.began, -1);
}

TEST(RenderInBands, StoppedWorkGoesOnToTheSameBits) {
    const test::Folder folder;
    Tracer first;
    first.most_bands = 2;
    EXPECT_THROW(render_in_bands(place_in(folder), first.work()), Stopped);
    ASSERT_GT(first.rows, 0);
    EXPECT_EQ(begun_until(place_in(folder), 0), first.rows);

    Tracer second;
    const Film film = render_in_bands(place_in(folder), second.work());
    EXPECT_TRUE(test::same_film(film, test::make_film(kWidth, kHeight)));
    EXPECT_EQ(second.began, first.rows);
    EXPECT_EQ(second.rows, kHeight - first.rows) << "nothing is traced twice";
    forget_begun(place_in(folder));
    EXPECT_EQ(folder.entries(), 0u);
}

TEST(RenderInBands, RowsAreKeptWhenStoppedThoughTheyWereNotDueYet) {
    const test::Folder folder;
    Tracer first;
    first.most_bands = 2;
    BandWork work = first.work();
    work.save_every_s = 3600;
    EXPECT_THROW(render_in_bands(place_in(folder), work), Stopped);
    EXPECT_EQ(begun_until(place_in(folder), 0), first.rows);
}

TEST(RenderInBands, PartOfAPictureGoesOnAsWell) {
    const test::Folder folder;
    const RowRange wanted{37, 121};
    Tracer first;
    first.most_bands = 1;
    EXPECT_THROW(render_in_bands(place_in(folder), first.work(wanted)), Stopped);
    Tracer second;
    const Film film = render_in_bands(place_in(folder), second.work(wanted));
    EXPECT_EQ(film.rows, wanted);
    EXPECT_TRUE(test::same_film(film, test::make_film(kWidth, kHeight, wanted)));
    EXPECT_EQ(first.rows + second.rows, wanted.end_row - wanted.first_row);
}

TEST(RenderInBands, RowsOfAnotherSceneOrBuildCountForNothing) {
    const test::Folder folder;
    Tracer first;
    first.most_bands = 2;
    EXPECT_THROW(render_in_bands(place_in(folder), first.work()), Stopped);
    BegunPlace other_scene = place_in(folder);
    ++other_scene.notes.scene_hash;
    EXPECT_EQ(begun_until(other_scene, 0), 0);
    BegunPlace other_build = place_in(folder);
    other_build.build = "beef";
    EXPECT_EQ(begun_until(other_build, 0), 0);
    BegunPlace other_picture = place_in(folder);
    other_picture.stem = "strai";
    EXPECT_EQ(begun_until(other_picture, 0), 0);
}

TEST(RenderInBands, DamagedRowsAreTracedAgain) {
    const test::Folder folder;
    Tracer first;
    first.most_bands = 2;
    EXPECT_THROW(render_in_bands(place_in(folder), first.work()), Stopped);
    for (const auto& entry : std::filesystem::directory_iterator(folder.path())) {
        EXPECT_TRUE(is_begun_file(entry.path())) << entry.path();
        std::filesystem::resize_file(entry.path(), std::filesystem::file_size(entry.path()) * 2 / 3);
    }
    Tracer second;
    const Film film = render_in_bands(place_in(folder), second.work());
    EXPECT_TRUE(test::same_film(film, test::make_film(kWidth, kHeight)));
}

TEST(RenderInBands, AFullDiskIsSaid) {
    const test::Folder folder;
    Tracer tracer;
    const test::FullDisk disk(16);
    EXPECT_THROW(render_in_bands(place_in(folder), tracer.work()), OutputError);
}

TEST(BegunFilm, TheProgramKnowsItself) {
    EXPECT_EQ(build_of_this_program().size(), 16u);
    EXPECT_EQ(build_of_this_program(), build_of_this_program());
}

}  // namespace
}  // namespace rakelight
