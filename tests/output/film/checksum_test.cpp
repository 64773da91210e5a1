#include "output/film/checksum.h"

#include <gtest/gtest.h>

#include "output/film/film_file.h"
#include "output/film/film_join.h"
#include "output/film/sealed_json.h"
#include "output/system/safe_file.h"
#include "tests/support/test_film.h"

namespace rakelight {
namespace {

// Values of the xxHash project's own sanity checks (seed 0).
TEST(Checksum, IsXxh3Of128Bits) {
    EXPECT_EQ(checksum(""), "99aa06d3014798d86001c324468d497f");
    EXPECT_EQ(checksum("a"), "a96faf705af16834e6c632b61e964e1f");
}

TEST(Checksum, RowsOfPartsAreThoseOfTheWhole) {
    const Film film = test::make_film(19, 40);
    Film upper = film, lower = film;
    upper.rows = {0, 13};
    lower.rows = {13, 40};
    EXPECT_EQ(row_checksums(upper) + row_checksums(lower), row_checksums(film));
    EXPECT_EQ(row_checksums(film).size(), 40 * kChecksumDigits);
    // Each value of a row counts in its own alone.
    Film other = film;
    other.features.material[19 * 5 + 3] ^= 1;
    const std::string a = row_checksums(film), b = row_checksums(other);
    for (std::size_t row = 0; row < 40; ++row)
        EXPECT_EQ(a.substr(row * kChecksumDigits, kChecksumDigits) !=
                      b.substr(row * kChecksumDigits, kChecksumDigits),
                  row == 5);
}

TEST(SealedJson, KnowsItselfAndItsFilesToTheByte) {
    const test::Folder folder;
    write_file(folder / "a.png", "light");
    write_file(folder / "b.csv", "to be edited");
    const std::string text = sealed_json("{\"files\": [\"a.png\", \"b.csv\", \"c.json\"]}", folder / "");
    EXPECT_TRUE(is_whole(text));
    write_file(folder / "c.json", text);
    EXPECT_TRUE(damage(folder / "c.json", true).empty());
    for (std::size_t i = 0; i < text.size(); ++i) {
        std::string wrong = text;
        wrong[i] = static_cast<char>(wrong[i] ^ 4);
        EXPECT_FALSE(is_whole(wrong)) << i;
        write_file(folder / "c.json", wrong);
        EXPECT_EQ(damage(folder / "c.json", false).size(), 1u) << i;
    }
    write_file(folder / "c.json", text);
    write_file(folder / "b.csv", "edited");
    EXPECT_TRUE(damage(folder / "c.json", true).empty());
    write_file(folder / "a.png", "lighT");
    ASSERT_EQ(damage(folder / "c.json", true).size(), 1u);
    EXPECT_EQ(damage(folder / "c.json", true)[0].file, folder / "a.png");
    // What was never sealed is not damaged unless it must be.
    write_file(folder / "d.json", "{\"files\": []}\n");
    EXPECT_TRUE(damage(folder / "d.json", false).empty());
    EXPECT_EQ(damage(folder / "d.json", true).size(), 1u);
}

}  // namespace
}  // namespace rakelight
