// Row ranges rendered apart, put together to the film that one machine would have made, to the bit.
#pragma once

#include <string>
#include <vector>

#include "output/film/film_file.h"
#include "output/film/film_source.h"

namespace rakelight {

/// One part and what to call it in messages. Its values are not looked at.
struct PartFilm {
    std::string name;
    NotedFilm noted;
};

/// Parts in the order of their rows.
/// \throws RequestError when a row is missing or there twice, or when parts are not of the same scene,
/// picture or size.
std::vector<PartFilm> in_order(std::vector<PartFilm> parts);

/// The whole picture that lies in some files, in any order: a row is read when it is asked for.
/// \throws RequestError as `in_order`, OutputError as `read_film`.
FilmSource join_files(const std::vector<std::string>& files);

/// Copies the rows of `part` that `whole` holds; it is of the same picture and groups. `whole.rows` stays as
/// it is.
void copy_rows(Film& whole, const Film& part);

}  // namespace rakelight
