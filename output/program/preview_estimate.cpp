#include "output/program/preview_estimate.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <nlohmann/json.hpp>
#include <utility>

#include "output/film/json_head.h"
#include "output/film/scene_hash.h"
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
constexpr double kSample_px = 4096;  // sixteen tiles

double now_s() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

double pixels(const Picture& picture) {
    return static_cast<double>(picture.width_px) * picture.height_px;
}

// The same picture in fewer pixels.
Picture sample_of(const Picture& picture) {
    Picture sample = picture;
    const double scale = std::sqrt(std::min(1.0, kSample_px / pixels(picture)));
    const auto side = [&](int px) { return std::max(1, static_cast<int>(std::lround(px * scale))); };
    sample.width_px = side(picture.width_px);
    sample.height_px = side(picture.height_px);
    return sample;
}

// Seconds that the sample took.
double trace_sample(const LitRooms::Room& room, const PictureNotes& notes, const EstimatedPicture& each,
                    int threads) {
    const Picture sample = sample_of(each.picture);
    RenderOptions options;
    options.threads = threads;
    options.card_cd_per_m2 = card_cd_per_m2(notes);
    options.cancelled = interrupted;
    const double began_s = now_s();
    render(room.world, room.bvh, room.layout, sample, options);
    return now_s() - began_s;
}

// How many pixels of the picture's wanted rows there are to one of the sample.
double times_sample(const EstimatedPicture& each) {
    const double share =
        static_cast<double>(each.rows.end_row - each.rows.first_row) / each.picture.height_px;
    return share * pixels(each.picture) / pixels(sample_of(each.picture));
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
            const double sample_s = trace_sample(room, notes, each, threads);
            each.trace_s = sample_s * times_sample(each);
            samples_s += sample_s;
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
