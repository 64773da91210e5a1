// The judge is the whole film itself: parts of it must join to the same bytes.
#include "output/film/film_join.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "output/system/errors.h"
#include "tests/support/test_film.h"

namespace rakelight {
namespace {

constexpr int kWidth = 23;
constexpr int kHeight = 31;

PartFilm part(int first_row, int end_row) {
    return {std::to_string(first_row) + ".exr",
            {test::make_film(kWidth, kHeight, {first_row, end_row}), test::make_notes()}};
}

std::string complaint(std::vector<PartFilm> parts) {
    try {
        in_order(std::move(parts));
    } catch (const RequestError& e) {
        return e.what();
    }
    return "";
}

TEST(FilmJoin, AnyOrderGivesTheWholeToTheByte) {
    const test::Folder folder;
    write_film(folder / "whole.exr", test::make_film(kWidth, kHeight), test::make_notes());
    const std::vector<std::vector<RowRange>> splits{
        {{0, 15}, {15, kHeight}}, {{20, kHeight}, {0, 1}, {1, 20}}, {{0, kHeight}}};
    for (const auto& split : splits) {
        std::vector<std::string> files;
        for (const RowRange& rows : split) {
            const PartFilm p = part(rows.first_row, rows.end_row);
            files.push_back((folder / p.name).string());
            write_film(files.back(), p.noted.film, p.noted.notes);
        }
        write_film(folder / "joined.exr", join_files(files));
        EXPECT_TRUE(test::bytes_of(folder / "whole.exr") == test::bytes_of(folder / "joined.exr"));
    }
}

// Rows asked for by themselves are those of the whole, whatever parts they lie in.
TEST(FilmJoin, RowsAcrossPartsAreThoseOfTheWhole) {
    const test::Folder folder;
    const Film film = test::make_film(kWidth, kHeight);
    std::vector<std::string> files;
    for (int row = 0; row < kHeight; row += 3) {
        const PartFilm p = part(row, std::min(kHeight, row + 3));
        files.push_back((folder / p.name).string());
        write_film(files.back(), p.noted.film, p.noted.notes);
    }
    const PictureNotes notes = test::make_notes();
    const FilmSource whole = source_of(film, notes);
    const FilmSource joined = join_files(files);
    EXPECT_EQ(joined.about.film.rows, (RowRange{0, kHeight}));
    for (const RowRange rows : {RowRange{0, 1}, {2, 4}, {10, 29}, {5, 6}, {0, kHeight}}) {
        for (const std::size_t part_of_file : {0u, 1u, 2u, 3u})
            EXPECT_EQ(whole.reals(part_of_file, rows), joined.reals(part_of_file, rows));
        EXPECT_EQ(whole.numbers(rows), joined.numbers(rows));
    }
}

TEST(FilmJoin, SaysWhichRowsAreMissingOrDouble) {
    EXPECT_EQ(complaint({}), "there are no parts to join");
    EXPECT_EQ(complaint({part(0, 15)}), "rows 16 to 31 of straight are missing");
    EXPECT_EQ(complaint({part(15, 31)}), "rows 1 to 15 of straight are missing");
    EXPECT_EQ(complaint({part(0, 10), part(11, 31)}), "row 11 of straight is missing");
    EXPECT_EQ(complaint({part(0, 15), part(12, 31)}), "0.exr and 12.exr both hold rows 13 to 15");
    EXPECT_EQ(complaint({part(0, 31), part(0, 31)}), "0.exr and 0.exr both hold rows 1 to 31");
}

TEST(FilmJoin, RefusesPartsOfOtherPictures) {
    PartFilm other = part(15, 31);
    other.noted.notes.scene_hash ^= 1;
    EXPECT_NE(complaint({part(0, 15), other}).find("scenes 0123456789abcdef and 0123456789abcdee"),
              std::string::npos);
    other = part(15, 31);
    other.noted.notes.picture = "evening";
    EXPECT_NE(complaint({part(0, 15), other}).find("straight and evening"), std::string::npos);
    other = part(15, 31);
    other.noted.film = test::make_film(kWidth + 1, kHeight, {15, 31});
    EXPECT_NE(complaint({part(0, 15), other}).find("23x31 and 24x31"), std::string::npos);
    other = part(15, 31);
    other.noted.notes.illuminance_xyz[0].y += 1;
    EXPECT_NE(complaint({part(0, 15), other}).find("light on the panel"), std::string::npos);
    other = part(15, 31);
    other.noted.film.groups[0] = "other";
    EXPECT_NE(complaint({part(0, 15), other}).find("lamps"), std::string::npos);
}

// Rows of one film go into another that holds some of them and others.
TEST(FilmJoin, CopiesTheRowsThatBothHold) {
    const Film whole = test::make_film(kWidth, kHeight);
    Film some = blank_like(whole, {7, 19});
    EXPECT_EQ(some.pixel_count(), 12u * kWidth);
    copy_rows(some, test::make_film(kWidth, kHeight, {0, 9}));
    copy_rows(some, test::make_film(kWidth, kHeight, {9, 15}));
    copy_rows(some, whole);
    copy_rows(some, test::make_film(kWidth, kHeight, {25, kHeight}));
    some.rows = {7, 19};
    EXPECT_TRUE(test::same_film(some, test::make_film(kWidth, kHeight, {7, 19})));
}

}  // namespace
}  // namespace rakelight
