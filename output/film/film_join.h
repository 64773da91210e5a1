// Row ranges rendered apart, put together to the film that one machine would have made, to the bit.
#pragma once

#include <string>
#include <vector>

#include "output/film/film_file.h"

namespace rakelight {

/// One part and what to call it in messages.
struct PartFilm {
    std::string name;
    NotedFilm noted;
};

/// Joins parts, in any order.
/// \throws RequestError when a row is missing or there twice, or when parts are not of the same scene,
/// picture or size.
NotedFilm join_films(std::vector<PartFilm> parts);

/// Copies the rows of `part` into a film of the same picture, groups and size; `whole.rows` stays as it is.
void copy_rows(Film& whole, const Film& part);

}  // namespace rakelight
