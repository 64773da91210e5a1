#include "output/preview/sidecar.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "output/film/json_head.h"
#include "output/film/notes_json.h"
#include "output/print/exposure.h"

namespace rakelight {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kRecordVersion = 2;

double mean(const auto& values, auto&& number_of) {
    double sum = 0;
    for (const auto& value : values) sum += number_of(value);
    return values.empty() ? 0 : sum / static_cast<double>(values.size());
}

Json lamp_groups(const NotedFilm& noted) {
    Json groups = Json::array();
    for (std::size_t g = 0; g < noted.film.groups.size(); ++g)
        groups.push_back(
            {{"name", noted.film.groups[g]},
             {"illuminance_on_panel_lx", noted.notes.illuminance_xyz[g].y},
             {"illuminance_on_panel_xyz_lx", noted.notes.illuminance_xyz[g]},
             {"mean_luminance_cd_per_m2", mean(noted.film.xyz[g], [](const glm::vec3& c) { return c.y; })}});
    return groups;
}

Json luminances(const Film& film) {
    std::vector<double> y(film.pixel_count());
    for (std::size_t i = 0; i < y.size(); ++i) y[i] = total_xyz(film, i).y;
    const auto [least, most] = std::minmax_element(y.begin(), y.end());
    return {{"least", *least},
            {"mean", mean(y, [](double v) { return v; })},
            {"log_mean", eye_luminance_cd_per_m2(film)},
            {"most", *most}};
}

// Standard error of the picture's mean luminance, cd/m2. Pixels are traced each for itself: variances add.
double error_of_mean(const Film& film) {
    double sum = 0;
    for (const float e : film.error) sum += static_cast<double>(e) * e;
    return film.error.empty() ? 0 : std::sqrt(sum) / static_cast<double>(film.error.size());
}

}  // namespace

std::string sidecar_json(const NotedFilm& noted, const Developing& how,
                         const std::vector<std::string>& files) {
    const Film& film = noted.film;
    const PictureNotes& notes = noted.notes;
    const auto [fewest, most] = std::minmax_element(film.samples.begin(), film.samples.end());
    const Json luminance = luminances(film);
    const double error = mean(film.error, [](float e) { return e; });
    const double light = luminance.at("mean").get<double>();
    const Xyz on_panel = total_illuminance_xyz(notes);
    Json record{{"note", "rendering, not a photograph"},
                {"panel", notes.panel},
                {"picture", notes.picture},
                {"size_px", {film.width, film.height}},
                {"pixel_deg", notes.pixel_deg},
                {"lamp_groups", lamp_groups(noted)},
                {"illuminance_on_panel_lx", on_panel.y},
                {"exposure",
                 {{"rule", notes.ev ? "stated" : notes.exposure_rule},
                  {"ev100", how.ev100},
                  {"middle_luminance_cd_per_m2", middle_luminance_cd_per_m2(how.ev100)},
                  {"grey_card_luminance_cd_per_m2", card_luminance_cd_per_m2(on_panel.y)},
                  {"white_xyz", how.light_white},
                  {"adaptation", how.adaptation},
                  {"glow", how.pixel_deg.has_value()}}},
                {"luminance_cd_per_m2", luminance},
                {"samples",
                 {{"fewest", *fewest},
                  {"mean", mean(film.samples, [](int n) { return n; })},
                  {"most", *most},
                  {"allowed", notes.most_samples}}},
                {"grain",
                 {{"wanted_relative", notes.wanted_error},
                  {"mean_cd_per_m2", error},
                  {"mean_relative", light > 0 ? Json(error / light) : Json()},
                  {"of_mean_relative", light > 0 ? Json(error_of_mean(film) / light) : Json()}}},
                {"materials", film.materials},
                {"files", files}};
    if (!notes.light.empty()) record["light"] = notes.light;
    if (notes.sun) record["sun"] = *notes.sun;
    return json_text(
        json_head("record", kRecordVersion, {notes.program, notes.layout_file, notes.scene_hash}), record);
}

}  // namespace rakelight
