// A picture by its light file, and the layout that it was made of.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "output/film/film_file.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"

namespace rakelight {

/// The light of a whole picture. \throws RequestError when there is no such file, it is damaged, a part, or
/// has no light on the panel.
NotedFilm read_picture(const std::string& file);

/// The layout that a picture was made of, laid.
struct LaidPicture {
    Layout layout;
    Laying laying;
};

/// \return none when no layout is named. \throws LayoutError; RequestError when it lays other pieces than the
/// picture shows.
std::optional<LaidPicture> read_laid(const std::string& layout_file, const std::vector<std::string>& changes,
                                     const std::string& picture, const Film& film);

}  // namespace rakelight
