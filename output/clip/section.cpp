#include "output/clip/section.h"

#include <fmt/format.h>

#include <algorithm>

#include "scene/light/window_light.h"
#include "scene/model/layout.h"
#include "scene/reading/deliverable_section.h"
#include "scene/text/nearest_word.h"

namespace rakelight {

namespace {

void read_size(Section& in, Clips& clips) {
    glm::dvec2 size(clips.size_px);
    if (!in.set(size, "size")) return;
    clips.size_px = glm::ivec2(size);
    if (glm::dvec2(clips.size_px) != size || clips.size_px.x % 2 != 0 || clips.size_px.y % 2 != 0)
        in.problem("size",
                   fmt::format("found [{:g}, {:g}], expected two even whole numbers", size.x, size.y));
}

void read_viewpoint_name(Section& in, Clips& clips, const Views& views) {
    clips.viewpoint = views.viewpoints.front().name;
    if (!in.set(clips.viewpoint, "viewpoint")) return;
    std::vector<std::string> known;
    for (const Viewpoint& view : views.viewpoints) known.push_back(view.name);
    if (std::ranges::find(known, clips.viewpoint) == known.end())
        in.problem("viewpoint", "found " + rakelight::quoted(clips.viewpoint) +
                                    ", expected the name of a viewpoint" +
                                    did_you_mean(clips.viewpoint, known));
}

void read_walk(Section& in, ClipWalk& walk, const Room& room) {
    for_mapping(in, "walk past", [&](Section& path) {
        const double side_mm = room.width_mm / 2 - 50;
        path.set(walk.from_mm, "from", {-side_mm, side_mm});
        path.set(walk.to_mm, "to", {-side_mm, side_mm});
        if (walk.from_mm == walk.to_mm)
            path.problem("to", "found the place where the walk begins, expected another");
        path.set(walk.distance_mm, "distance", {200, room.depth_mm - 100});
        path.set(walk.eye_mm, "height", {500, room.height_mm - 100});
    });
}

void read_lamps(Section& in, ClipDimming& dimming, const Layout& layout) {
    const YamlValue* list = in.find("lamps");
    if (!list) return;
    if (list->shape != YamlValue::Shape::list || list->items.empty()) {
        in.problem("lamps", "found " + found(*list) + ", expected a list of lamps or groups");
        return;
    }
    const std::vector<std::string> known = light_names(layout);
    for (const YamlValue& item : list->items) {
        if (item.shape == YamlValue::Shape::scalar && std::ranges::find(known, item.text) != known.end())
            dimming.lamps.push_back(item.text);
        else
            in.problems().add(item, in.path("lamps"),
                              "found " + found(item) + ", expected the name of a lamp or of a group" +
                                  did_you_mean(item.text, known));
    }
}

}  // namespace

Clips read_clips(Section& in, const Layout& layout) {
    Clips clips;
    in.set(clips.seconds, "seconds");
    in.set(clips.frames_per_s, "frames a second");
    read_size(in, clips);
    in.set(clips.grain, "grain");
    in.set(clips.most_samples, "most samples");
    read_viewpoint_name(in, clips, layout.views);
    read_walk(in, clips.walk, layout.room);
    for_mapping(in, "dimmed", [&](Section& dimming) {
        read_lamps(dimming, clips.dimming, layout);
        dimming.set(clips.dimming.to, "to");
    });
    for_mapping(in, "day", [&](Section& day) {
        day.set(clips.day.from_h, "from");
        day.set(clips.day.to_h, "to");
        if (clips.day.from_h >= clips.day.to_h)
            day.problem("to", fmt::format("found {:g} h, expected an hour after {:g} h", clips.day.to_h,
                                          clips.day.from_h));
    });
    return clips;
}

Clips read_clips(const Layout& layout) {
    Clips clips;
    read_deliverable(layout, "clips", [&](Section& in) { clips = read_clips(in, layout); });
    return clips;
}

}  // namespace rakelight
