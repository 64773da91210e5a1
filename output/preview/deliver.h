// From a whole film to the artist's files of one picture: NAME.exr, NAME.png, NAME.json.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "output/film/film_file.h"
#include "output/film/film_source.h"
#include "output/preview/printing.h"
#include "output/print/develop.h"

namespace rakelight {

/// How the notes want the film printed: exposure stated or by rule, balanced to the light on the panel as far
/// as an eye adapts to it. `glow`: spread glints. \throws RequestError when a grey card would have to set the
/// exposure but no light falls on the panel.
Developing developing_for(const NotedFilm& noted, bool glow);

/// The same question before hours of work: \throws RequestError as `developing_for` would.
void check_exposure(const PictureNotes& notes);

/// Writes the three files into an existing folder and returns their paths, the PNG first.
/// Rows are read and written in bands: memory does not grow with the picture's height. The PNG is of the
/// filtered light (filter.h) unless `how` says otherwise, and says so; the EXR then has it as a layer of its
/// own beside the light as traced, which numbers are of. A film of an earlier version, which cannot be
/// filtered, is printed as traced, and a note on stderr says so. \throws OutputError, RequestError. A file
/// that was finished before the failure stays, whole.
std::vector<std::filesystem::path> deliver(const FilmSource& source, const std::filesystem::path& folder,
                                           const Printing& how = {});
std::vector<std::filesystem::path> deliver(const NotedFilm& noted, const std::filesystem::path& folder,
                                           const Printing& how = {});

/// Writes NAME.png alone, of a picture that is not done: marked as such and without the scene hash, so that
/// nobody takes it for finished. A NAME.json that is there goes: it tells of another picture. Returns the
/// path. `how_far`: said in it, such as "16 samples of each pixel".
std::filesystem::path show_unfinished(const NotedFilm& noted, const std::filesystem::path& folder,
                                      const Printing& how, const std::string& how_far);

}  // namespace rakelight
