// Memory of `join` by the system's own count (getrusage(2), ru_maxrss): a picture four times as tall takes
// no more.
#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#include <array>

#include <fcntl.h>

#include "output/film/checksum.h"
#include "output/film/film_source.h"
#include "tests/support/test_film.h"

namespace rakelight {
namespace {

constexpr int kWidth = 1024;
constexpr int kPartRows = 1024;

// A part of a tall picture, of which no more than a band is ever in memory.
// Of a row of the values that `write_part` writes.
std::string sum_of_a_row(const Film& about) {
    Film row = about;
    row.height = 1;
    row.rows = {0, 1};
    const auto n = static_cast<std::size_t>(row.width);
    row.xyz.assign(row.groups.size(), std::vector<glm::vec3>(n, glm::vec3(30)));
    row.error.assign(n, 0.5f);
    row.samples.assign(n, 16);
    row.features = {std::vector<float>(n, 30), std::vector<glm::vec3>(n, glm::vec3(30)),
                    std::vector<std::int32_t>(n, 16), std::vector<std::int32_t>(n, 16),
                    std::vector<float>(n, 30)};
    const std::vector<float> of_one(n, 30);
    const std::vector<glm::vec3> of_three(n, glm::vec3(30));
    row.guide = {true, of_one, of_one, of_one, of_three, of_three};
    return row_checksums(row);
}

std::string write_part(const test::Folder& folder, int height, int first_row) {
    FilmSource part;
    part.about = {test::make_film(1, 1), test::make_notes()};
    part.about.film.width = kWidth;
    part.about.film.height = height;
    part.about.film.rows = {first_row, first_row + kPartRows};
    const auto pixels = [](const RowRange& rows) {
        return static_cast<std::size_t>(rows.end_row - rows.first_row) * kWidth;
    };
    // Two lamp groups, features, grain, guide.
    constexpr std::array<std::size_t, 5> kChannels{3, 3, 5, 1, 9};
    part.reals = [=](std::size_t which, const RowRange& rows) {
        return std::vector<float>(pixels(rows) * kChannels[which], which == 3 ? 0.5f : 30.0f);
    };
    part.numbers = [=](const RowRange& rows) { return std::vector<std::int32_t>(pixels(rows) * 3, 16); };
    for (int row = 0; row < kPartRows; ++row) part.row_sums += sum_of_a_row(part.about.film);
    const std::string file = (folder / ("part-" + std::to_string(first_row) + ".exr")).string();
    write_film(file, part);
    return file;
}

// Most memory that `join` of a picture of that height had at any time, in MB.
double joined_mb(int height) {
    const test::Folder folder;
    std::vector<std::string> words{RAKELIGHT_PROGRAM, "join", "--into", folder.path().string()};
    for (int row = 0; row < height; row += kPartRows) words.push_back(write_part(folder, height, row));
    std::vector<char*> argv;
    for (std::string& word : words) argv.push_back(word.data());
    argv.push_back(nullptr);
    const pid_t child = ::fork();
    if (child == 0) {
        ::dup2(::open("/dev/null", O_WRONLY), STDOUT_FILENO);
        ::execv(argv[0], argv.data());
        ::_exit(127);
    }
    int status = -1;
    rusage used{};
    ::wait4(child, &status, 0, &used);
    EXPECT_EQ(status, 0);
    EXPECT_TRUE(std::filesystem::exists(folder / "straight.png"));
    return static_cast<double>(used.ru_maxrss) / 1024;
}

TEST(JoinMemory, DoesNotGrowWithTheHeight) {
    const double low = joined_mb(2 * kPartRows);
    const double tall = joined_mb(8 * kPartRows);
    RecordProperty("low_mb", std::to_string(low));
    RecordProperty("tall_mb", std::to_string(tall));
    std::printf("%.0f MB, four times as tall %.0f MB\n", low, tall);
    EXPECT_LT(tall, 1.15 * low + 8);
}

}  // namespace
}  // namespace rakelight
