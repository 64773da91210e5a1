#include "output/preview/sidecar.h"

#include "output/film/json_head.h"
#include "output/film/notes_json.h"
#include "output/print/exposure.h"

namespace rakelight {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kRecordVersion = 2;

Json lamp_groups(const PictureNotes& notes, const Film& about, const PictureFigures& figures) {
    Json groups = Json::array();
    for (std::size_t g = 0; g < about.groups.size(); ++g)
        groups.push_back({{"name", about.groups[g]},
                          {"illuminance_on_panel_lx", notes.illuminance_xyz[g].y},
                          {"illuminance_on_panel_xyz_lx", notes.illuminance_xyz[g]},
                          {"mean_luminance_cd_per_m2", figures.group_mean_cd_per_m2[g]}});
    return groups;
}

}  // namespace

std::string sidecar_json(const NotedFilm& about, const PictureFigures& figures, const Developing& how,
                         const std::vector<std::string>& files) {
    const Film& film = about.film;
    const PictureNotes& notes = about.notes;
    const double light = figures.mean_cd_per_m2;
    const auto relative = [&](double error) { return light > 0 ? Json(error / light) : Json(); };
    const Xyz on_panel = total_illuminance_xyz(notes);
    Json record{{"note", "rendering, not a photograph"},
                {"panel", notes.panel},
                {"picture", notes.picture},
                {"size_px", {film.width, film.height}},
                {"pixel_deg", notes.pixel_deg},
                {"lamp_groups", lamp_groups(notes, film, figures)},
                {"illuminance_on_panel_lx", on_panel.y},
                {"exposure",
                 {{"rule", notes.ev ? "stated" : notes.exposure_rule},
                  {"ev100", how.ev100},
                  {"middle_luminance_cd_per_m2", middle_luminance_cd_per_m2(how.ev100)},
                  {"grey_card_luminance_cd_per_m2", card_luminance_cd_per_m2(on_panel.y)},
                  {"white_xyz", how.light_white},
                  {"adaptation", how.adaptation},
                  {"glow", how.pixel_deg.has_value()},
                  {"filtered", how.filtered}}},
                {"luminance_cd_per_m2",
                 {{"least", figures.least_cd_per_m2},
                  {"mean", light},
                  {"log_mean", figures.log_mean_cd_per_m2},
                  {"most", figures.most_cd_per_m2}}},
                {"samples",
                 {{"fewest", figures.fewest_samples},
                  {"mean", figures.mean_samples},
                  {"most", figures.most_samples},
                  {"allowed", notes.most_samples}}},
                {"grain",
                 {{"wanted_relative", notes.wanted_error},
                  {"mean_cd_per_m2", figures.error_cd_per_m2},
                  {"mean_relative", relative(figures.error_cd_per_m2)},
                  {"of_mean_relative", relative(figures.error_of_mean_cd_per_m2)}}},
                {"materials", film.materials},
                {"files", files}};
    if (!notes.light.empty()) record["light"] = notes.light;
    if (notes.sun) record["sun"] = *notes.sun;
    return json_text(
        json_head("record", kRecordVersion, {notes.program, notes.layout_file, notes.scene_hash}), record);
}

}  // namespace rakelight
