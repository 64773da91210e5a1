#include "output/preview/lit_pictures.h"

#include <algorithm>

#include "output/system/file_names.h"
#include "scene/light/window_light.h"
#include "scene/light/with_light.h"
#include "scene/model/layout.h"
#include "scene/text/word_list.h"

namespace rakelight {
namespace {

void drop_lamps_it_lacks(Picture& picture, const Layout& layout) {
    if (picture.lamps.empty()) return;
    const std::vector<std::string> known = light_names(with_light(layout, picture.light));
    if (!std::all_of(picture.lamps.begin(), picture.lamps.end(),
                     [&](const std::string& name) { return holds(known, name); }))
        picture.lamps.clear();
}

}  // namespace

std::vector<std::string> chosen_lights(const Layout& layout, std::span<const std::string> asked) {
    std::vector<std::string> lights;
    if (asked.empty()) lights = layout.lights;
    for (const std::string& name : asked) {
        if (holds(lights, name)) continue;
        with_light(layout, name);  // throws when there is no such light here
        lights.push_back(name);
    }
    if (lights.empty()) lights.emplace_back(kOwnLight);
    check_file_names(lights, "set-ups of light");
    return lights;
}

std::vector<Picture> pictures_in_lights(const Layout& layout, std::span<const Picture> pictures,
                                        std::span<const std::string> asked) {
    const std::vector<std::string> lights = chosen_lights(layout, asked);
    const bool by_each = !asked.empty() || lights.size() > 1;
    std::vector<std::string> order = lights;
    for (const Picture& picture : pictures)
        if (asked.empty() && !picture.light.empty() && !holds(order, picture.light))
            order.push_back(picture.light);
    std::vector<Picture> lit;
    for (std::size_t i = 0; i < order.size(); ++i)
        for (Picture picture : pictures) {
            if (asked.empty() && !picture.light.empty()) {
                if (picture.light == order[i]) lit.push_back(std::move(picture));
                continue;
            }
            if (i >= lights.size()) continue;
            if (by_each) {
                picture.name += " " + order[i];
                picture.light = order[i];
                drop_lamps_it_lacks(picture, layout);
            }
            lit.push_back(std::move(picture));
        }
    std::vector<std::string> names;
    for (const Picture& picture : lit) names.push_back(picture.name);
    check_picture_names(names);
    return lit;
}

}  // namespace rakelight
