#include "output/compare/json.h"

namespace rakelight {
namespace {

using Json = nlohmann::ordered_json;

constexpr int kCompareVersion = 1;

Json of(const Lab& lab) {
    return {lab.l, lab.a, lab.b};
}

Json of(const Corners& corners) {
    Json j = Json::array();
    for (const glm::dvec2& c : corners) j.push_back({c.x, c.y});
    return j;
}

Json of(const std::vector<ComparedArea>& areas) {
    Json j = Json::array();
    for (const ComparedArea& a : areas)
        j.push_back({{"name", a.name},
                     {"place", a.pieces ? "pieces" : "joints and round the work"},
                     {"pixels", a.pixels},
                     {"photograph_lab", of(a.photo)},
                     {"picture_lab", of(a.picture)},
                     {"ciede2000", a.delta_e}});
    return j;
}

}  // namespace

std::string compare_json(const Compared& c, const CompareNames& names,
                         const std::vector<Correction>& corrections, const MadeFrom& from,
                         const std::vector<std::string>& files) {
    Json j{{"note", "of one place; mirrored light is left out where it is most"},
           {"photograph", names.photo},
           {"picture", names.picture},
           {"light", names.light},
           {"white", names.white.empty() ? Json() : Json(names.white)},
           {"chart_px", names.chart ? of(*names.chart) : Json()},
           {"gain", {c.gain.r, c.gain.g, c.gain.b}},
           {"corners_given_px", of(c.given)},
           {"corners_px", of(c.found)},
           {"corners_in_picture_px", of(c.in_picture)},
           {"matched_by_edges", c.by_edges},
           {"correlation", c.laid.alike},
           {"panel_pixels", c.panel_pixels},
           {"mirrored_pixels", c.mirrored_out},
           {"exposed_badly_pixels", c.spoilt_out},
           {"outside_pixels", c.outside},
           {"median_ciede2000", c.median},
           {"ninety_percent_ciede2000", c.nine_in_ten},
           {"materials", of(c.materials)},
           {"fields", of(c.fields)},
           {"corrections", Json::array()},
           {"files", files}};
    for (const Correction& each : corrections)
        j["corrections"].push_back({{"name", each.name},
                                    {"new_name", each.new_name.empty() ? Json() : Json(each.new_name)},
                                    {"shelf", each.tint ? "tints" : "stock"},
                                    {"ciede2000", each.delta_e},
                                    {"left_ciede2000", each.left},
                                    {"why_not", each.why_not}});
    return json_text(json_head("comparison", kCompareVersion, from), j);
}

}  // namespace rakelight
