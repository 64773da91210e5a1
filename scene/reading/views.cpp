#include "scene/reading/views.h"

#include <fmt/format.h>

#include <algorithm>

#include "scene/light/window_light.h"
#include "scene/light/with_light.h"
#include "scene/model/layout.h"
#include "scene/reading/light/set_ups.h"
#include "scene/text/nearest_word.h"
#include "scene/text/word_list.h"

namespace rakelight {
namespace {

void read_light(Section& in, Picture& picture, Layout& layout) {
    if (const YamlValue* value = in.find("light"))
        if (const Lighting* set_up = use_set_up(*value, in.path("light"), layout, in.problems()))
            picture.light = set_up->name;
}

std::vector<std::string> names_in_light(const Layout& layout, const std::string& light) {
    if (light == layout.on.name) return light_names(layout);
    Layout lit = layout;
    put_light(lit, set_up_called(layout, light));
    return light_names(lit);
}

// Lamps of the picture's own light; without one, of the first of the layout's lights that has them all.
void read_lamp_names(Section& in, Picture& picture, const Layout& layout) {
    const YamlValue* list = in.find("lamps");
    if (!list) return;
    if (list->shape != YamlValue::Shape::list || list->items.empty()) {
        in.problem("lamps", "found " + found(*list) + ", expected a list of lamps or groups");
        return;
    }
    for (const YamlValue& item : list->items) picture.lamps.push_back(item.text);
    const auto lights = picture.light.empty() ? layout.lights : std::vector{picture.light};
    for (const std::string& light : lights) {
        const std::vector<std::string> known = names_in_light(layout, light);
        if (!std::all_of(picture.lamps.begin(), picture.lamps.end(),
                         [&](const std::string& name) { return holds(known, name); }))
            continue;
        if (lights.size() > 1) picture.light = light;
        return;
    }
    const std::vector<std::string> known = names_in_light(layout, lights.front());
    for (const YamlValue& item : list->items)
        if (item.shape != YamlValue::Shape::scalar || !holds(known, item.text))
            in.problems().add(item, in.path("lamps"),
                              "found " + found(item) + ", expected the name of a lamp or of a group" +
                                  did_you_mean(item.text, known));
}

// A viewpoint, or a walk past: then of all its steps.
void read_viewpoint_name(Section& in, Picture& picture, const Views& views) {
    picture.viewpoint = views.viewpoints.front().name;
    std::vector<std::string> names;
    for (const Viewpoint& view : views.viewpoints)
        for (const std::string& name : {view.name, view.walk})
            if (!name.empty() && !holds(names, name)) names.push_back(name);
    if (!in.set(picture.viewpoint, "viewpoint")) return;
    if (!holds(names, picture.viewpoint))
        in.problem("viewpoint", "found " + quoted(picture.viewpoint) + ", expected the name of a viewpoint" +
                                    did_you_mean(picture.viewpoint, names));
}

void add_picture(Section& in, Picture picture, std::vector<std::string>& names, Layout& layout) {
    const std::string walk = picture.viewpoint, name = picture.name;
    int step = 0;
    for (const Viewpoint& view : layout.views.viewpoints) {
        if (view.walk != walk) continue;
        picture.viewpoint = view.name;
        picture.name = fmt::format("{} {}", name, ++step);
        if (holds(names, picture.name))
            in.problem("name", fmt::format("found a picture called {} again", quoted(picture.name)));
        names.push_back(picture.name);
        layout.views.pictures.push_back(picture);
    }
    if (step == 0) layout.views.pictures.push_back(std::move(picture));
}

void read_size(Section& in, Picture& picture) {
    glm::dvec2 size{picture.width_px, picture.height_px};
    if (!in.set(size, "size")) return;
    if (size != glm::floor(size)) {
        in.problem("size", fmt::format("found {} x {} px, expected whole numbers", size.x, size.y));
        return;
    }
    picture.width_px = static_cast<int>(size.x);
    picture.height_px = static_cast<int>(size.y);
}

void read_exposure(Section& in, Picture& picture) {
    if (in.has("ev") && in.has("exposure")) in.problem("ev", "found ev and exposure, expected one of them");
    size_t exposure = 0;
    if (in.set_word(exposure, "exposure")) picture.exposure = words_of(in.table(), "exposure")[exposure];
    if (double ev = 0; in.set(ev, "ev")) picture.ev = ev;
}

}  // namespace

void read_pictures(Section& file, Layout& layout) {
    std::vector<std::string> names;
    for_each_item(file, "pictures", [&](Section& in) {
        Picture picture;
        picture.place = in.place();
        set_unique_name(in, picture.name, names);
        read_viewpoint_name(in, picture, layout.views);
        read_light(in, picture, layout);
        read_lamp_names(in, picture, layout);
        read_size(in, picture);
        read_exposure(in, picture);
        in.set(picture.error, "grain");
        in.set(picture.most_samples, "most samples");
        if (std::uint64_t seed = 0; in.set(seed, "grain seed")) picture.grain_seed = seed;
        add_picture(in, std::move(picture), names, layout);
    });
}

}  // namespace rakelight
