#include "output/web/shown_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <filesystem>

#include "output/print/exposure.h"
#include "output/system/safe_file.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

double number_at(const Json& json, const char* pointer) {
    const Json::json_pointer at(pointer);
    return json.contains(at) && json[at].is_number() ? json[at].get<double>() : 0;
}

// Written out: 2440, not 2.44e+03.
std::string three_figures(double value) {
    const std::string figures = fmt::format("{:.2e}", value);
    double rounded = 0;
    std::from_chars(figures.data(), figures.data() + figures.size(), rounded);
    return fmt::format("{}", rounded);
}

void tell_record(ShownFile& shown, const MetadataFile& said) {
    const Json& j = said.json;
    shown.title = spoken(text_at(j, "picture"));
    const double lux = number_at(j, "/illuminance_on_panel_lx");
    std::vector<std::string> lamps;
    if (j.contains("lamp_groups"))
        for (const Json& group : j["lamp_groups"])
            if (number_at(group, "/mean_luminance_cd_per_m2") > 0) lamps.push_back(text_at(group, "name"));
    shown.facts.push_back(fmt::format("Lit by {}: {:.0f} lx on the panel", fmt::join(lamps, ", "), lux));
    shown.facts.push_back(fmt::format("Exposure EV {:.1f} at ISO 100 ({}); brightest spot {} cd/m\u00b2",
                                      number_at(j, "/exposure/ev100"),
                                      j.contains("exposure") ? text_at(j["exposure"], "rule") : "",
                                      three_figures(number_at(j, "/luminance_cd_per_m2/most"))));
    shown.facts.push_back(fmt::format("Grain {:.1f} %; {:.0f} samples a pixel",
                                      100 * number_at(j, "/grain/mean_relative"),
                                      number_at(j, "/samples/mean")));
    shown.alt = fmt::format("Rendering of the panel {}, picture {}, lit by {}, {:.0f} lux on the panel",
                            text_at(j, "panel"), text_at(j, "picture"), fmt::join(lamps, " and "), lux);
    shown.white_cd_per_m2 = number_at(j, "/exposure/middle_luminance_cd_per_m2") / kMiddleGrey;
    shown.scene_hash = text_at(j, "scene_hash");
    const Json::json_pointer glow("/exposure/glow");
    shown.glow = j.contains(glow) && j[glow].is_boolean() && j[glow].get<bool>();
    const Json::json_pointer filter("/exposure/filtered");
    shown.filtered = j.contains(filter) && j[filter].is_boolean() && j[filter].get<bool>();
    for (const std::string& name : said.names)
        if (lower_extension(name) == ".exr") shown.film = name;
}

// A photograph is never shown as if all of it were rendered, nor all of it photographed.
void tell_in_photograph(ShownFile& shown, const Json& json) {
    shown.title = spoken(text_at(json, "picture"));
    const std::string photograph = text_at(json, "photograph");
    shown.facts.push_back(
        fmt::format("A photograph with a rendering set in: the panel {} is rendered, the rest is {}",
                    text_at(json, "panel"), photograph));
    if (const std::string light = text_at(json, "light"); !light.empty())
        shown.facts.push_back("Light on the panel: " + light);
    shown.alt = fmt::format("The photograph {} with a rendering of the panel {} set in", photograph,
                            text_at(json, "panel"));
}

void tell_clip(ShownFile& shown, const Json& json) {
    const std::string clip = text_at(json, "clip");
    shown.title = spoken(clip);
    shown.facts.push_back(clip == "walk past"
                              ? "Drag along the picture to walk past; a click stops and goes on"
                              : "Drag along the picture to go through it; a click stops and goes on");
    shown.alt = fmt::format("Rendering of the panel {} that moves: {}", text_at(json, "panel"), clip);
}

void tell_glare(ShownFile& shown, const Json& json) {
    if (!json.contains("viewpoints") || !json["viewpoints"].is_array()) return;
    for (const Json& view : json["viewpoints"]) {
        const std::string name = text_at(view, "viewpoint");
        if (fs::path(shown.file).filename() != "glare-" + file_stem(name) + ".png") continue;
        shown.title = "Glare, " + name;
        shown.facts.push_back(text_at(view, "verdict"));
    }
}

void tell_comparison(ShownFile& shown, const MetadataFile& said) {
    const std::string stem = said.file.substr(0, said.file.size() - std::string(".json").size());
    if (shown.file != stem + ".png") return;
    shown.title =
        fmt::format("{} beside {}", text_at(said.json, "photograph"), text_at(said.json, "picture"));
    shown.facts.push_back(fmt::format("CIEDE2000: half of the panel within {:.1f}, nine tenths within {:.1f}",
                                      number_at(said.json, "/median_ciede2000"),
                                      number_at(said.json, "/ninety_percent_ciede2000")));
    const auto made = [&](const char* what) {
        const std::string name = stem + what;
        return std::find(said.names.begin(), said.names.end(), name) != said.names.end() ? name : "";
    };
    shown.photograph = made("-photograph.png");
    shown.picture = made("-picture.png");
}

// Any list of pictures that says title and note of each.
void tell_pictures(ShownFile& shown, const Json& json, const char* list) {
    if (!json.contains(list) || !json[list].is_array()) return;
    for (const Json& picture : json[list]) {
        if (!picture.is_object() || fs::path(shown.file).filename() != text_at(picture, "file")) continue;
        if (const std::string title = text_at(picture, "title"); !title.empty()) shown.title = title;
        if (const std::string note = text_at(picture, "note"); !note.empty()) shown.facts.push_back(note);
    }
}

}  // namespace

std::string text_at(const Json& json, const char* key) {
    return json.contains(key) && json[key].is_string() ? json[key].get<std::string>() : "";
}

// "glare-seated" -> "Glare seated"
std::string spoken(std::string_view name) {
    std::string words(name);
    std::replace(words.begin(), words.end(), '-', ' ');
    std::replace(words.begin(), words.end(), '_', ' ');
    if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
        words[0] = static_cast<char>(words[0] - 'a' + 'A');
    return words;
}

std::string lower_extension(const std::string& file) {
    std::string extension = fs::path(file).extension().string();
    for (char& c : extension) c = static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
    return extension;
}

ShownFile shown_file(const std::string& file, const MetadataFile* said) {
    ShownFile shown;
    shown.file = file;
    shown.title = spoken(fs::path(file).stem().string());
    if (said != nullptr) {
        shown.scene_hash = text_at(said->json, "scene_hash");
        const std::string title = text_at(said->json, "title");
        if (!title.empty() && (said->word == "board" || said->names.size() == 1)) shown.title = title;
        for (const char* list : {"pictures", "in_photographs"}) tell_pictures(shown, said->json, list);
        if (said->word == "record") tell_record(shown, *said);
        if (said->word == "in-photograph") tell_in_photograph(shown, said->json);
        if (said->word == "comparison") tell_comparison(shown, *said);
        if (said->word == "clip") tell_clip(shown, said->json);
        if (said->word == "glare") tell_glare(shown, said->json);
    }
    if (shown.title.empty()) shown.title = spoken(fs::path(file).stem().string());
    if (shown.alt.empty()) {
        const std::string panel = said != nullptr ? text_at(said->json, "panel") : "";
        shown.alt = fmt::format("Sheet: {}{}{}{}", shown.title, panel.empty() ? "" : ", of the panel ", panel,
                                shown.facts.empty() ? "" : ". " + shown.facts.front());
    }
    return shown;
}

}  // namespace rakelight
