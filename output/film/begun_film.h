// Rows of a picture that was interrupted, on disk beside where it will be: STEM.begun-1-480.exr. They are
// films as `film_file.h` writes them, marked with the program that traced them to the byte, since going on
// with another build could put two kinds of light into one picture.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "output/film/film_file.h"

namespace rakelight {

/// What the file of a picture that was interrupted in its passes is called after the stem (begun_passes.h).
inline constexpr std::string_view kBegunPasses = ".begun-passes.bin";

/// Where the rows of one picture are kept, and what they must agree with.
struct BegunPlace {
    std::filesystem::path folder;
    std::string stem;    ///< of the file that the picture will be
    PictureNotes notes;  ///< of the picture; to ask for rows its program and scene hash are enough
    std::string build;   ///< which program traced them: `build_of_this_program`
};

/// A mark of the running program: a hash of its own bytes. \throws RequestError when it cannot read itself.
std::string build_of_this_program();

/// What is on disk of the rows that are wanted, from their first on without a gap, in a film that holds all
/// of them; none when there is nothing of this picture. Files of another scene or build, and damaged ones,
/// count as nothing; damage is told.
std::optional<Film> begun_film(const BegunPlace& place, const RowRange& wanted);

/// The same question without reading the rows: the row that a render would go on from.
int begun_until(const BegunPlace& place, int first_row);

/// Keeps rows of a film. \throws OutputError; then nothing is left of them.
void keep_rows(const BegunPlace& place, const Film& film, const RowRange& rows);

/// Removes all that is kept under this stem, rows and passes, of whatever scene.
void forget_begun(const BegunPlace& place);

/// Whether a file has the name of kept rows or passes.
bool is_begun_file(const std::filesystem::path& file);

}  // namespace rakelight
