#include "output/film/checksum.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>
#include <xxhash.h>

#include <cstring>
#include <vector>

#include "output/film/film_channels.h"
#include "output/system/safe_file.h"

namespace rakelight {

namespace {

template <class Value>
void append_row(std::string& bytes, const FilmPart<Value>& part, std::size_t first, std::size_t count) {
    for (std::size_t i = first; i < first + count; ++i)
        for (const auto& channel : part.channels) {
            char four[4];
            std::memcpy(four, channel.first + i * channel.stride, 4);
            bytes.append(four, 4);
        }
}

}  // namespace

std::string checksum(std::string_view bytes) {
    const XXH128_hash_t hash = XXH3_128bits(bytes.data(), bytes.size());
    return fmt::format("{:016x}{:016x}", hash.high64, hash.low64);
}

std::string file_checksum(const std::filesystem::path& path) {
    return checksum(read_file(path));
}

std::string row_checksums(const Film& film) {
    const auto reals = real_parts(film);
    const auto numbers = number_part(film);
    const auto width = static_cast<std::size_t>(film.width);
    std::vector<std::string> sums(static_cast<std::size_t>(film.rows.end_row - film.rows.first_row));
    tbb::parallel_for(std::size_t{0}, sums.size(), [&](std::size_t r) {
        const std::size_t first = film.row_start(film.rows.first_row) + r * width;
        std::string bytes;
        for (const auto& part : reals) append_row(bytes, part, first, width);
        append_row(bytes, numbers, first, width);
        sums[r] = checksum(bytes);
    });
    std::string all;
    for (const std::string& sum : sums) all += sum;
    return all;
}

}  // namespace rakelight
