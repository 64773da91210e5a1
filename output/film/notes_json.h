// Notes as JSON, used inside the film file and in the record.
#pragma once

#include <nlohmann/json.hpp>

#include "output/film/notes.h"
#include "output/film/scene_hash.h"

namespace rakelight {

/// [X, Y, Z].
inline void to_json(nlohmann::ordered_json& j, const Xyz& c) {
    j = {c.x, c.y, c.z};
}
/// \throws nlohmann::json::exception unless there are three numbers at least.
inline void from_json(const nlohmann::ordered_json& j, Xyz& c) {
    c = {j.at(0).get<double>(), j.at(1).get<double>(), j.at(2).get<double>()};
}

/// {altitude_deg, aside_deg}.
inline void to_json(nlohmann::ordered_json& j, const NotedSun& sun) {
    j = {{"altitude_deg", sun.altitude_deg}, {"aside_deg", sun.aside_deg}};
}
/// \throws nlohmann::json::exception unless both are there.
inline void from_json(const nlohmann::ordered_json& j, NotedSun& sun) {
    sun = {j.at("altitude_deg").get<double>(), j.at("aside_deg").get<double>()};
}

/// The keys of the record; `light` only where it is named.
inline void to_json(nlohmann::ordered_json& j, const PictureNotes& n) {
    j = {{"program", n.program},
         {"panel", n.panel},
         {"layout_file", n.layout_file},
         {"picture", n.picture},
         {"scene_hash", hash_digits(n.scene_hash)},
         {"illuminance_xyz_lx", n.illuminance_xyz},
         {"stated_ev100", n.ev ? nlohmann::ordered_json(*n.ev) : nlohmann::ordered_json()},
         {"exposure_rule", n.exposure_rule},
         {"pixel_deg", n.pixel_deg},
         {"wanted_error", n.wanted_error},
         {"most_samples", n.most_samples}};
    if (!n.light.empty()) j["light"] = n.light;
    if (n.sun) j["sun"] = *n.sun;
}

/// \throws nlohmann::json::exception when a key is missing or of another kind, std::invalid_argument or
/// std::out_of_range when `scene_hash` is no hexadecimal number of 64 bits.
inline void from_json(const nlohmann::ordered_json& j, PictureNotes& n) {
    j.at("program").get_to(n.program);
    j.at("panel").get_to(n.panel);
    j.at("layout_file").get_to(n.layout_file);
    j.at("picture").get_to(n.picture);
    n.light = j.value("light", "");
    n.scene_hash = std::stoull(j.at("scene_hash").get<std::string>(), nullptr, 16);
    j.at("illuminance_xyz_lx").get_to(n.illuminance_xyz);
    n.ev = j.at("stated_ev100").is_null() ? std::nullopt : std::optional(j.at("stated_ev100").get<double>());
    j.at("exposure_rule").get_to(n.exposure_rule);
    j.at("pixel_deg").get_to(n.pixel_deg);
    j.at("wanted_error").get_to(n.wanted_error);
    j.at("most_samples").get_to(n.most_samples);
    if (j.contains("sun")) n.sun = j["sun"].get<NotedSun>();
}

}  // namespace rakelight
