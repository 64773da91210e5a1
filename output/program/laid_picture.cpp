#include "output/program/laid_picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <system_error>

#include "output/program/read_and_warn.h"
#include "output/system/errors.h"

namespace rakelight {

namespace {

// Pieces of the picture have to be those of the layout.
void check_laid(const Film& film, const LaidPicture& laid, const std::string& picture,
                const std::string& layout_file) {
    std::size_t count = 0, others = 0;
    for (std::size_t i = 0; i < film.pixel_count(); ++i) {
        const auto piece = static_cast<std::size_t>(std::max(0, film.features.piece[i]));
        const auto material = static_cast<std::size_t>(std::max(0, film.features.material[i]));
        const std::size_t stones = laid.laying.pieces.size() + laid.laying.stones.size();
        if (piece == 0 || material == 0) continue;
        ++count;
        if (piece > stones) {
            ++others;
        } else if (piece <= laid.laying.pieces.size()) {
            const std::uint32_t own = laid.laying.pieces[piece - 1].material;
            others += film.materials.at(material - 1) != laid.layout.stock.at(own).name;
        }
    }
    if (others * 20 > count)
        throw RequestError(
            fmt::format("{}: found a picture of other pieces than {} lays, expected one of the layout as "
                        "it is now",
                        picture, layout_file));
}

}  // namespace

NotedFilm read_picture(const std::string& file) {
    std::error_code error;
    if (!std::filesystem::is_regular_file(file, error))
        throw RequestError(fmt::format("{}: found no such file, expected the .exr of a picture", file));
    NotedFilm noted;
    try {
        noted = read_film(file);
    } catch (const OutputError& bad) {
        throw RequestError(bad.what());
    }
    if (noted.film.rows.first_row != 0 || noted.film.rows.end_row != noted.film.height)
        throw RequestError(fmt::format("{}: found a part of a picture, expected a whole one", file));
    if (!(total_illuminance_xyz(noted.notes).y > 0))
        throw RequestError(fmt::format("{}: found a picture without light on the panel", file));
    return noted;
}

std::optional<LaidPicture> read_laid(const std::string& layout_file, const std::vector<std::string>& changes,
                                     const std::string& picture, const Film& film) {
    if (layout_file.empty()) return std::nullopt;
    LaidPicture laid{read_and_warn(layout_file, "", changes), {}};
    laid.laying = lay(laid.layout);
    check_laid(film, laid, picture, layout_file);
    return laid;
}

}  // namespace rakelight
