// The judge is the whole film itself: parts of it must join to the same bits.
#include "output/film/film_join.h"

#include <gtest/gtest.h>

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
        join_films(std::move(parts));
    } catch (const RequestError& e) {
        return e.what();
    }
    return "";
}

TEST(FilmJoin, AnyOrderGivesTheWholeToTheBit) {
    const Film whole = test::make_film(kWidth, kHeight);
    EXPECT_TRUE(test::same_film(whole, join_films({part(0, 15), part(15, kHeight)}).film));
    EXPECT_TRUE(test::same_film(whole, join_films({part(20, kHeight), part(0, 1), part(1, 20)}).film));
    EXPECT_TRUE(test::same_film(whole, join_films({part(0, kHeight)}).film));
}

TEST(FilmJoin, ThroughFilesGivesTheSameBytes) {
    const test::Folder folder;
    write_film(folder / "whole.exr", test::make_film(kWidth, kHeight), test::make_notes());
    std::vector<PartFilm> parts;
    for (const auto& p : {part(15, kHeight), part(0, 15)}) {
        write_film(folder / p.name, p.noted.film, p.noted.notes);
        parts.push_back({p.name, read_film(folder / p.name)});
    }
    const NotedFilm joined = join_films(std::move(parts));
    write_film(folder / "joined.exr", joined.film, joined.notes);
    EXPECT_TRUE(test::bytes_of(folder / "whole.exr") == test::bytes_of(folder / "joined.exr"));
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

}  // namespace
}  // namespace rakelight
