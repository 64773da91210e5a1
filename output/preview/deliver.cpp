#include "output/preview/deliver.h"

#include <fmt/format.h>

#include "output/film/scene_hash.h"
#include "output/film/sealed_json.h"
#include "output/preview/sidecar.h"
#include "output/print/exposure.h"
#include "output/print/picture_writer.h"
#include "output/system/errors.h"
#include "output/system/safe_file.h"

namespace rakelight {

namespace {

double exposure_of(const NotedFilm& noted) {
    const PictureNotes& notes = noted.notes;
    if (notes.ev) return *notes.ev;
    if (notes.exposure_rule == "adapted") return ev100_of(eye_luminance_cd_per_m2(noted.film));
    return ev100_of(card_luminance_cd_per_m2(total_illuminance_xyz(notes).y));
}

std::string exposure_text(const PictureNotes& notes, double ev100) {
    return fmt::format("EV {:.2f} at ISO 100, {}", ev100,
                       notes.ev ? "as stated" : "by " + notes.exposure_rule);
}

}  // namespace

void check_exposure(const PictureNotes& notes) {
    if (!notes.ev && notes.exposure_rule != "adapted" && notes.exposure_rule != "grey-card")
        throw RequestError(
            fmt::format("picture {}: there is no exposure called {}; use grey-card, eye or a number",
                        notes.picture, notes.exposure_rule));
    if (!notes.ev && notes.exposure_rule == "grey-card" && !(total_illuminance_xyz(notes).y > 0))
        throw RequestError(
            fmt::format("picture {}: no light falls on the panel, so a grey card cannot set the exposure; "
                        "switch a lamp on or "
                        "state the exposure as a number",
                        notes.picture));
}

Developing developing_for(const NotedFilm& noted, bool glow) {
    check_exposure(noted.notes);
    Developing how;
    how.ev100 = exposure_of(noted);
    const Xyz light = total_illuminance_xyz(noted.notes);
    if (light.x > 0 && light.y > 0 && light.z > 0) {
        how.light_white = {light.x / light.y, 1, light.z / light.y};
        how.adaptation = adaptation_degree(card_luminance_cd_per_m2(light.y));
    } else {
        how.adaptation = 0;  // nothing to adapt to
    }
    if (glow && noted.notes.pixel_deg > 0) how.pixel_deg = noted.notes.pixel_deg;
    return how;
}

std::vector<std::filesystem::path> deliver(const NotedFilm& noted, const std::filesystem::path& folder,
                                           bool glow) {
    const PictureNotes& notes = noted.notes;
    const Developing how = developing_for(noted, glow);
    const std::string stem = file_stem(notes.picture);
    const std::vector<std::filesystem::path> files{folder / (stem + ".png"), folder / (stem + ".exr"),
                                                   folder / (stem + ".json")};
    write_film(files[1], noted.film, notes);
    write_png(files[0], develop(noted.film, how),
              {{"Title", notes.panel + ", " + notes.picture},
               {"Description", "rendering, not a photograph"},
               {"Software", notes.program},
               {"Exposure", exposure_text(notes, how.ev100)},
               {"Scene hash", hash_digits(notes.scene_hash)}});
    const std::string record = sidecar_json(noted, how, {stem + ".png", stem + ".exr", stem + ".json"});
    write_file(files[2], sealed_json(record, folder));
    return files;
}

}  // namespace rakelight
