// Pictures of light all round whose light is known in closed form.
#pragma once

#include "scene/light/surround_emitters.h"
#include "scene/model/layout.h"
#include "scene/surround/all_round.h"
#include "scene/world/world.h"

namespace rakelight {

/// A picture `height_px` high, each pixel with what `rgb_towards` says of the direction of its middle.
template <class F>
SurroundPicture surround_of(int height_px, F&& rgb_towards) {
    SurroundPicture p;
    p.height_px = height_px;
    p.width_px = 2 * height_px;
    for (int y = 0; y < p.height_px; ++y)
        for (int x = 0; x < p.width_px; ++x) p.rgb.push_back(rgb_towards(pixel_direction(p, x, y)));
    return p;
}

/// Of one colour everywhere.
inline SurroundPicture even_surround(int height_px, const glm::vec3& rgb) {
    return surround_of(height_px, [&](const glm::vec3&) { return rgb; });
}

/// A layout whose light is this picture, in cd/m2, and nothing else.
inline Layout lit_all_round(SurroundPicture picture) {
    Layout layout;
    AllRoundLight light;
    light.picture = std::make_shared<const AllRound>(std::move(picture));
    layout.on.all_round = light;
    return layout;
}

/// Puts it round a world, in the first group.
inline void put_round(World& world, SurroundPicture picture) {
    for (const WindowLight& light : surround_lights(lit_all_round(std::move(picture))))
        world.emitters.push_back(light.emitter);
}

}  // namespace rakelight
