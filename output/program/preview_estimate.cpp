#include "output/program/preview_estimate.h"

#include <chrono>
#include <nlohmann/json.hpp>
#include <utility>

#include "output/film/json_head.h"
#include "output/film/scene_hash.h"
#include "output/preview/expected_time.h"
#include "output/preview/lit_rooms.h"
#include "output/preview/picture_notes.h"
#include "output/system/interrupt.h"
#include "output/system/program.h"
#include "renderer/render.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kEstimateVersion = 1;

double now_s() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

// Of the wanted rows.
double trace_s(const LitRooms::Room& room, const PictureNotes& notes, const EstimatedPicture& each,
               int threads) {
    RenderOptions options;
    options.threads = threads;
    options.rows = each.rows;
    options.card_cd_per_m2 = card_cd_per_m2(notes);
    options.cancelled = interrupted;
    return expected_seconds(room.world, room.bvh, room.layout, each.picture, options);
}

}  // namespace

PreviewEstimate estimate(const Layout& layout, std::vector<EstimatedPicture> pictures, int threads) {
    PreviewEstimate estimate{0, std::move(pictures)};
    std::vector<std::string> lights;
    std::vector<std::size_t> left;
    for (std::size_t i = 0; i < estimate.pictures.size(); ++i) {
        if (estimate.pictures[i].finished) continue;
        left.push_back(i);
        lights.push_back(estimate.pictures[i].picture.light);
    }
    if (left.empty()) return estimate;
    double samples_s = 0;
    const double began_s = now_s();
    const Laying laying = lay(layout);
    stop_if_interrupted();
    LitRooms rooms(layout, laying);
    for (const std::vector<std::size_t>& in_one_world : rooms.sharing_a_world(lights))
        for (const std::size_t i : in_one_world) {
            stop_if_interrupted();
            EstimatedPicture& each = estimate.pictures[left[i]];
            const LitRooms::Room room = rooms.in(lights[i]);
            const PictureNotes notes =
                notes_of(room.layout, room.world, room.bvh, each.picture, each.scene_hash);
            const double sample_began_s = now_s();
            each.trace_s = trace_s(room, notes, each, threads);
            samples_s += now_s() - sample_began_s;
        }
    estimate.set_up_s = now_s() - began_s - samples_s;
    return estimate;
}

std::string estimate_json(const PreviewEstimate& estimate, const Layout& layout) {
    Json body{{"set_up_s", estimate.set_up_s}, {"pictures", Json::array()}};
    for (const EstimatedPicture& each : estimate.pictures)
        body["pictures"].push_back({{"folder", each.folder.string()},
                                    {"stem", each.stem},
                                    {"scene_hash", hash_digits(each.scene_hash)},
                                    {"size_px", {each.picture.width_px, each.picture.height_px}},
                                    {"finished", each.finished},
                                    {"trace_s", each.trace_s}});
    return json_text(json_head("estimate", kEstimateVersion, made_from(layout, kProgram)), body);
}

}  // namespace rakelight
