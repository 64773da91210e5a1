// Where the rows of a film come from: memory, a file, or files of parts one below the other. Whoever reads a
// film row by row needs no more memory for a tall one than for a low one.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "output/film/film_file.h"

namespace rakelight {

/// Values come as in film_channels.h: part by part, the channels of a pixel together. Rows count from the top
/// of the whole picture and lie within `about.film.rows`. \throws OutputError when a file is damaged.
struct FilmSource {
    NotedFilm about;  ///< all but the values
    std::function<std::vector<float>(std::size_t part, const RowRange& rows)> reals;
    std::function<std::vector<std::int32_t>(const RowRange& rows)> numbers;
    std::string row_sums;  ///< checksums of the rows (checksum.h), of a file as its header says
    /// X, Y, Z in cd/m2 of all groups together, reconstructed (filter.h): a layer beside the light as traced,
    /// which the checksums do not count. None: there is no such layer.
    std::function<std::vector<float>(const RowRange& rows)> filtered{};
};

/// Of a film in memory, which has to outlive it; without a filtered layer.
FilmSource source_of(const Film& film, const PictureNotes& notes);

/// Whether the rows are those that the header speaks of is for `check_film`. \throws OutputError as
/// read_film.
FilmSource source_of_file(const std::filesystem::path& path);

/// `rows` cut into bands of some million pixels, of 64 rows at least.
std::vector<RowRange> bands_of(const RowRange& rows, int width);

/// The same bytes as `write_film` of the whole film. \throws OutputError; then nothing is left.
void write_film(const std::filesystem::path& path, const FilmSource& source);

}  // namespace rakelight
