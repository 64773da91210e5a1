// A film on disk: one multi-part OpenEXR file. Parts in this order:
//   "light 1: NAME" ...  X, Y, Z in cd/m2 of each lamp group, 32-bit float
//   "features"           depth_mm; normal.x, .y, .z; first_surface_share
//   "numbers"            piece, material, samples: unsigned integers
//   "error"              standard error of Y over all groups, cd/m2
//   "for filters"        half.cd_per_m2, half.first_surface_cd_per_m2, half.indirect_cd_per_m2; indirect,
//                        reflectance (FilterGuide); not there in files of version 2
//   "filtered"           X, Y, Z in cd/m2 of all groups together, reconstructed (FilmSource::filtered): for
//                        other programs, in pictures delivered; whoever reads a film leaves it out
// Rows of a part render are the data window; the display window is always the whole picture. The first part
// has an attribute "rakelight" with JSON: version, lamp groups, material names, notes, checksums of the
// rows and of itself (checksum.h). zip, no times, no paths.
#pragma once

#include <filesystem>

#include "output/film/notes.h"
#include "renderer/film.h"

namespace rakelight {

/// A film and what travels with it.
struct NotedFilm {
    Film film;
    PictureNotes notes;
};

/// Writes the rows that hold data. The same film gives the same bytes.
/// \throws OutputError; then nothing is left.
void write_film(const std::filesystem::path& path, const Film& film, const PictureNotes& notes);

/// Reads what `write_film` wrote, to the same bits.
/// \throws OutputError when the file is missing, damaged or not such a file.
NotedFilm read_film(const std::filesystem::path& path);

/// Reads a file band by band and holds each row against its checksum. \throws OutputError as `read_film`.
void check_film(const std::filesystem::path& path);

/// What a film file says of itself, without its light.
struct FilmAbout {
    int width = 0;
    int height = 0;
    RowRange rows;
    PictureNotes notes;
    std::string row_checksums;  ///< see checksum.h
};

/// \throws OutputError as `read_film`; damage among the pixels goes unnoticed.
FilmAbout read_film_about(const std::filesystem::path& path);

}  // namespace rakelight
