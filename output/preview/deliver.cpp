#include "output/preview/deliver.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <cstdio>

#include "output/film/scene_hash.h"
#include "output/film/sealed_json.h"
#include "output/filter/filter.h"
#include "output/preview/figures.h"
#include "output/preview/sidecar.h"
#include "output/print/exposure.h"
#include "output/print/eye_glare.h"
#include "output/print/picture_writer.h"
#include "output/system/errors.h"
#include "output/system/safe_file.h"

namespace rakelight {

namespace {

bool by_eye(const PictureNotes& notes) {
    return !notes.ev && notes.exposure_rule == "adapted";
}

double exposure_of(const PictureNotes& notes, double eye_cd_per_m2) {
    if (notes.ev) return *notes.ev;
    if (by_eye(notes)) return ev100_of(eye_cd_per_m2);
    return ev100_of(card_luminance_cd_per_m2(total_illuminance_xyz(notes).y));
}

std::string exposure_text(const PictureNotes& notes, double ev100) {
    return fmt::format("EV {:.2f} at ISO 100, {}", ev100,
                       notes.ev ? "as stated" : "by " + notes.exposure_rule);
}

Developing developing_of(const PictureNotes& notes, double eye_cd_per_m2, bool glow) {
    check_exposure(notes);
    Developing how;
    how.ev100 = exposure_of(notes, eye_cd_per_m2);
    const Xyz light = total_illuminance_xyz(notes);
    if (light.x > 0 && light.y > 0 && light.z > 0) {
        how.light_white = {light.x / light.y, 1, light.z / light.y};
        how.adaptation = adaptation_degree(card_luminance_cd_per_m2(light.y));
    } else {
        how.adaptation = 0;  // nothing to adapt to
    }
    if (glow && notes.pixel_deg > 0) how.pixel_deg = notes.pixel_deg;
    return how;
}

// With `reach` rows above and below, as far as the picture goes.
RowRange rows_about(const Film& film, const RowRange& rows, int reach) {
    return {std::max(0, rows.first_row - reach), std::min(film.height, rows.end_row + reach)};
}

// Three values of each pixel of the rows `seen`, cut down to `rows`.
std::vector<float> cut(std::vector<float> values, const Film& film, const RowRange& seen,
                       const RowRange& rows) {
    const auto of = [&](int count) { return static_cast<std::ptrdiff_t>(count) * film.width * 3; };
    values.erase(values.begin() + of(rows.end_row - seen.first_row), values.end());
    values.erase(values.begin(), values.begin() + of(rows.first_row - seen.first_row));
    return values;
}

std::vector<float> filtered_rows(const FilmSource& source, const RowRange& rows) {
    const Film& film = source.about.film;
    const RowRange seen = rows_about(film, rows, kFilterReach_px);
    const std::vector<glm::vec3> xyz = std::move(filtered(guided_rows_of(source, seen)).xyz.front());
    return cut({&xyz.front().x, &xyz.front().x + 3 * xyz.size()}, film, seen, rows);
}

// Some rows, developed with as many above and below them as light may come from: of the filtered layer where
// there is one.
std::vector<float> developed_rows(const FilmSource& source, const Developing& how, const RowRange& rows) {
    const RowRange seen = rows_about(source.about.film, rows, how.pixel_deg ? kMostGlare_px : 0);
    Film film = rows_of(source, seen);
    if (source.filtered) {
        const std::vector<float> light = source.filtered(seen);
        for (std::size_t i = 0; i < film.pixel_count(); ++i)
            film.xyz[0][i] = {light[3 * i], light[3 * i + 1], light[3 * i + 2]};
    }
    return cut(develop(film, how).rgb, source.about.film, seen, rows);
}

// Whether a film is filtered for its print; says why not where nobody asked for that.
bool is_filtered(const FilmSource& source, const PictureFigures& figures, const Printing& how) {
    if (how.as_traced || figures.fewest_samples < kFewestToFilter) return false;
    if (source.about.film.guide.is_there) return true;
    fmt::print(stderr,
               "Note: {} was traced by an earlier version, without what the filter needs: it is printed as "
               "traced\n",
               source.about.notes.picture);
    return false;
}

}  // namespace

void check_exposure(const PictureNotes& notes) {
    if (!notes.ev && notes.exposure_rule != "adapted" && notes.exposure_rule != "grey-card")
        throw RequestError(
            fmt::format("picture {}: there is no exposure called {}; use grey-card, adapted or a number",
                        notes.picture, notes.exposure_rule));
    if (!notes.ev && notes.exposure_rule == "grey-card" && !(total_illuminance_xyz(notes).y > 0))
        throw RequestError(
            fmt::format("picture {}: no light falls on the panel, so a grey card cannot set the exposure; "
                        "switch a lamp on or "
                        "state the exposure as a number",
                        notes.picture));
}

Developing developing_for(const NotedFilm& noted, bool glow) {
    return developing_of(noted.notes, by_eye(noted.notes) ? eye_luminance_cd_per_m2(noted.film) : 0, glow);
}

std::vector<std::filesystem::path> deliver(const FilmSource& source, const std::filesystem::path& folder,
                                           const Printing& printing) {
    const auto& [film, notes] = source.about;
    const PictureFigures figures = figures_of(source);
    Developing how = developing_of(notes, figures.log_mean_cd_per_m2, printing.glow);
    how.filtered = is_filtered(source, figures, printing);
    const std::string stem = file_stem(notes.picture);
    const std::vector<std::filesystem::path> files{folder / (stem + ".png"), folder / (stem + ".exr"),
                                                   folder / (stem + ".json")};
    FilmSource layered = source;
    layered.filtered = {};
    if (how.filtered) layered.filtered = [&](const RowRange& rows) { return filtered_rows(source, rows); };
    write_film(files[1], layered);
    if (how.filtered) layered.filtered = source_of_file(files[1]).filtered;  // not to filter twice
    write_png(files[0],
              {film.width, film.height, bands_of(film.rows, film.width),
               [&](const RowRange& rows) { return developed_rows(layered, how, rows); }},
              {{"Title", notes.panel + ", " + notes.picture},
               {"Description", "rendering, not a photograph"},
               {"Software", notes.program},
               {"Exposure", exposure_text(notes, how.ev100)},
               {kFilterKey, filter_words(how.filtered)},
               {"Scene hash", hash_digits(notes.scene_hash)}});
    const std::string record =
        sidecar_json(source.about, figures, how, {stem + ".png", stem + ".exr", stem + ".json"});
    write_file(files[2], sealed_json(record, folder));
    return files;
}

std::vector<std::filesystem::path> deliver(const NotedFilm& noted, const std::filesystem::path& folder,
                                           const Printing& printing) {
    return deliver(source_of(noted.film, noted.notes), folder, printing);
}

std::filesystem::path show_unfinished(const NotedFilm& noted, const std::filesystem::path& folder,
                                      const Printing& printing, const std::string& how_far) {
    Developing how = developing_for(noted, printing.glow);
    how.filtered = !printing.as_traced && can_be_filtered(noted.film);
    const PictureNotes& notes = noted.notes;
    const std::filesystem::path path = folder / (file_stem(notes.picture) + ".png");
    std::error_code ignored;
    std::filesystem::remove(folder / (file_stem(notes.picture) + ".json"), ignored);
    write_png(path, how.filtered ? develop(filtered(noted.film), how) : develop(noted.film, how),
              {{"Title", notes.panel + ", " + notes.picture},
               {"Description", "rendering, not a photograph; not finished: " + how_far},
               {"Software", notes.program},
               {"Exposure", exposure_text(notes, how.ev100)},
               {kFilterKey, filter_words(how.filtered)}});
    return path;
}

}  // namespace rakelight
