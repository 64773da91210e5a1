#include "renderer/film.h"

namespace rakelight {

void hold_rows(Film& film, const RowRange& rows) {
    film.held.reset();
    if (rows != film.held_rows()) film.held = rows;
    const std::size_t n = film.pixel_count();
    film.xyz.assign(film.groups.size(), std::vector<glm::vec3>(n, glm::vec3(0)));
    film.mirrored.clear();
    film.error.assign(n, 0);
    film.samples.assign(n, 0);
    film.features = {std::vector<float>(n), std::vector<glm::vec3>(n, glm::vec3(0)),
                     std::vector<std::int32_t>(n), std::vector<std::int32_t>(n), std::vector<float>(n)};
    if (film.guide.is_there)
        film.guide = {true,
                      std::vector<float>(n),
                      std::vector<float>(n),
                      std::vector<float>(n),
                      std::vector<glm::vec3>(n, glm::vec3(0)),
                      std::vector<glm::vec3>(n, glm::vec3(0))};
}

Film blank_like(const Film& film, const RowRange& rows) {
    Film blank;
    blank.width = film.width;
    blank.height = film.height;
    blank.groups = film.groups;
    blank.materials = film.materials;
    blank.guide.is_there = film.guide.is_there;
    hold_rows(blank, rows);
    return blank;
}

}  // namespace rakelight
