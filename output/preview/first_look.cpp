#include "output/preview/first_look.h"

#include <algorithm>

#include "output/preview/picture_notes.h"
#include "output/system/interrupt.h"
#include "renderer/render.h"

namespace rakelight {

namespace {

constexpr double kLong_paths = 8e6;     // that a picture may ask for: some seconds
constexpr double kLongPass_px = 400e3;  // whose first pass takes some seconds

double pixels(const Picture& picture) {
    return static_cast<double>(picture.width_px) * picture.height_px;
}

}  // namespace

bool is_worth_a_look(const Picture& picture) {
    return pixels(picture) * picture.most_samples >= kLong_paths;
}

bool is_worth_a_second_look(const Picture& picture) {
    return is_worth_a_look(picture) && pixels(picture) >= kLongPass_px;
}

double look_detail_mm(const Views& views, const Picture& picture) {
    const auto view = std::ranges::find(views.viewpoints, picture.viewpoint, &Viewpoint::name);
    if (view == views.viewpoints.end()) return 0;
    return 2 * view->view_width_mm * kFirstLook.divisor / picture.width_px;
}

NotedFilm look_at(const LitRooms::Room& room, const Picture& picture, const LookSize& size) {
    Picture small = picture;
    small.width_px = std::max(1, picture.width_px / size.divisor);
    small.height_px = std::max(1, picture.height_px / size.divisor);
    small.most_samples = size.paths;
    NotedFilm look{{}, notes_of(room.layout, room.world, room.bvh, small, 0)};
    RenderOptions options;
    options.card_cd_per_m2 = card_cd_per_m2(look.notes);
    options.cancelled = interrupted;
    look.film = render(room.world, room.bvh, room.layout, small, options);
    return look;
}

}  // namespace rakelight
