#include "output/preview/lit_rooms.h"

#include <algorithm>

#include "scene/light/with_light.h"
#include "scene/model/layout.h"

namespace rakelight {

LitRooms::LitRooms(const Layout& layout, const Laying& laying, double finest_mm)
    : layout_(layout), laying_(laying), finest_mm_(finest_mm), beside_(lay_beside(layout)) {}

Layout LitRooms::lit_by(const std::string& light) const {
    return light.empty() || light == layout_.on.name ? layout_ : with_light(layout_, light);
}

LitRooms::Room LitRooms::in(const std::string& light) {
    if (!stand_ || light != light_) {
        Layout lit = lit_by(light);
        if (stand_ && differ_in_lights_only(*lit_, lit)) {
            set_lights(stand_->world, lit);
        } else {
            stand_.reset();  // first, for its memory
            stand_ = std::make_unique<Stand>(
                build_world(lit, laying_, beside_ ? &*beside_ : nullptr, finest_mm_), finest_mm_ > 0);
            ++worlds_built_;
        }
        lit_ = std::move(lit);
        light_ = light;
    }
    return {*lit_, stand_->world, stand_->bvh};
}

std::vector<std::vector<std::size_t>> LitRooms::sharing_a_world(std::span<const std::string> lights) const {
    std::vector<std::vector<std::size_t>> shared;
    std::vector<Layout> firsts;
    for (std::size_t i = 0; i < lights.size(); ++i) {
        const Layout lit = lit_by(lights[i]);
        const auto first = std::ranges::find_if(
            firsts, [&](const Layout& other) { return differ_in_lights_only(other, lit); });
        const auto at = static_cast<std::size_t>(first - firsts.begin());
        if (first == firsts.end()) {
            firsts.push_back(lit);
            shared.emplace_back();
        }
        shared[at].push_back(i);
    }
    return shared;
}

}  // namespace rakelight
