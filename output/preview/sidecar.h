// The sidecar JSON of a picture, NAME.json: the numbers behind it, for machines and for the curious.
#pragma once

#include <string>
#include <vector>

#include "output/film/film_file.h"
#include "output/preview/figures.h"
#include "output/print/develop.h"

namespace rakelight {

/// JSON text, two spaces a step, ending in a newline; "version" grows when a key changes its meaning. No
/// times: the same picture gives the same text. `about`: a film without its values; `files`: names of the
/// files that belong to the picture.
std::string sidecar_json(const NotedFilm& about, const PictureFigures& figures, const Developing& how,
                         const std::vector<std::string>& files);

}  // namespace rakelight
