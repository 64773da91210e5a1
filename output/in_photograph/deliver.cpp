#include "output/in_photograph/deliver.h"

#include <fmt/format.h>

#include <cmath>

#include "output/film/scene_hash.h"
#include "output/film/sealed_json.h"
#include "output/portfolio/mounted_print.h"
#include "output/print/picture_writer.h"
#include "output/system/errors.h"
#include "output/system/program.h"
#include "output/system/safe_file.h"

namespace rakelight {
namespace {

using Json = nlohmann::ordered_json;
namespace fs = std::filesystem;

constexpr int kVersion = 1;

double rounded(double value, int decimals) {
    const double scale = std::pow(10.0, decimals);
    return std::round(value * scale) / scale;
}

Json numbers(const glm::dvec3& v, int decimals) {
    return {rounded(v.x, decimals), rounded(v.y, decimals), rounded(v.z, decimals)};
}

Json camera_json(const TakenPhotograph& t) {
    const SheetPose& pose = t.pose;
    Json camera{{"eye_mm", numbers(t.eye_mm, 1)},
                {"forward", numbers(pose.forward, 6)},
                {"right", numbers(pose.right, 6)},
                {"distance_to_sheet_mm", rounded(glm::length(pose.eye_mm), 1)},
                {"focal_length_35mm", rounded(t.focal_35mm, 2)},
                {"focal_length_found", t.focal_found},
                {"corners_found", t.by_marks},
                {"misfit_px", rounded(pose.misfit_px, 3)}};
    camera["doubt"] = {{"direction_deg", rounded(pose.direction_doubt_deg, 3)},
                       {"distance_share", rounded(pose.distance_doubt, 4)},
                       {"focal_length_share", rounded(pose.focal_doubt, 4)}};
    return camera;
}

}  // namespace

std::uint64_t hash_in_photograph(const TakenPhotograph& t, std::uint64_t sources) {
    Picture picture;
    picture.name = t.said.name;
    picture.width_px = t.size_px.x;
    picture.height_px = t.size_px.y;
    picture.most_samples = t.said.samples;
    std::uint64_t hash = fnv1a(read_file(t.said.file), scene_hash(sources, kProgram, picture));
    if (!t.said.mask.empty()) hash = fnv1a(read_file(t.said.mask), hash);
    return hash;
}

std::string in_photograph_json(const PrintInPhotograph& made, const TakenPhotograph& t,
                               const std::string& panel, const MadeFrom& from,
                               const std::vector<std::string>& files) {
    Json body{{"note", "a photograph with a rendering set in"},
              {"panel", panel},
              {"picture", t.said.name},
              {"photograph", fs::path(t.said.file).filename().string()},
              {"size_px", {t.size_px.x, t.size_px.y}},
              {"light", made.light},
              {"exposure_by", t.said.exposure_by == ExposureBy::sheet ? "sheet" : "wall"},
              {"white_cd_per_m2", numbers(made.white_cd_per_m2, 4)},
              {"camera", camera_json(t)}};
    body["grain_sd"] = rounded(made.look.grain_sd(), 5);
    body["sharpness_sd_px"] = made.look.blur_px ? Json(rounded(*made.look.blur_px, 2)) : Json();
    body["softened_sd_px"] = rounded(made.softened_px, 2);
    body["samples"] = t.said.samples;
    body["warnings"] = t.warnings;
    body["files"] = files;
    return json_text(json_head("in-photograph", kVersion, from), body);
}

std::vector<fs::path> deliver_in_photograph(const PrintInPhotograph& made, const TakenPhotograph& t,
                                            const std::string& panel, const MadeFrom& from,
                                            const fs::path& folder) {
    const std::string stem = file_stem(t.said.name);
    const std::vector<fs::path> files{folder / (stem + ".png"), folder / (stem + ".json")};
    write_png(files[0], made.print,
              {{"Title", panel + ", " + t.said.name},
               {"Description", kSetIntoAPhotograph},
               {"Software", kProgram},
               {"Scene hash", hash_digits(from.scene_hash.value_or(0))}});
    const std::string record = in_photograph_json(made, t, panel, from, {stem + ".png", stem + ".json"});
    write_file(files[1], sealed_json(record, folder));
    return files;
}

bool is_in_photograph_finished(const TakenPhotograph& t, std::uint64_t hash, const fs::path& folder) try {
    const std::string stem = file_stem(t.said.name);
    const fs::path record = folder / (stem + ".json");
    if (!fs::is_regular_file(record) || !fs::is_regular_file(folder / (stem + ".png"))) return false;
    if (!damage(record, true).empty()) return false;
    const Json json = Json::parse(read_file(record));
    return json.value("format", "") == "rakelight in-photograph" &&
           json.value("scene_hash", "") == hash_digits(hash);
} catch (const nlohmann::json::exception&) {
    return false;
} catch (const OutputError&) {
    return false;
}

}  // namespace rakelight
