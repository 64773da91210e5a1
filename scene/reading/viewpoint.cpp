#include "scene/reading/viewpoint.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "scene/model/eye_heights.h"
#include "scene/model/layout.h"
#include "scene/model/viewpoint.h"
#include "scene/room/defaults.h"
#include "scene/room/room_check.h"

namespace rakelight {
namespace {

struct Walk {
    double from_mm = 0;  ///< sideways
    double to_mm = 0;
    int steps = 5;
};

void not_with(Section& in, std::string_view key, std::initializer_list<const char*> others) {
    if (!in.has(key)) return;
    for (const char* other : others)
        if (in.find(other))
            in.problem(other, fmt::format("found {} with {}, expected one or the other", other, key));
}

// By who looks or in figures. \return whether all that is said is good.
bool read_height(Section& in, double& height_mm) {
    not_with(in, "eyes", {"height"});
    std::size_t who = 0;
    const bool told = in.set_word(who, "eyes");
    if (told) height_mm = kEyeHeights[who].above_floor_mm;
    const bool figures = in.set(height_mm, "height");
    return (told || !in.has("eyes")) && (figures || !in.has("height"));
}

/// Where the eye is, and the key that says so; empty when something about it is wrong.
std::string read_eye(Section& in, Viewpoint& view, const Layout& layout) {
    not_with(in, "eye", {"distance", "height", "sideways", "eyes", "walk past"});
    if (in.has("eye")) return in.set(view.eye_mm, "eye") ? "eye" : "";
    view.eye_mm = usual_viewpoint(layout).eye_mm;
    bool good = read_height(in, view.eye_mm.y);
    good &= in.set(view.eye_mm.z, "distance") || !in.has("distance");
    good &= in.set(view.eye_mm.x, "sideways") || !in.has("sideways");
    return good ? "distance" : "";
}

std::optional<Walk> read_walk(Section& in) {
    const YamlValue* value = in.find("walk past");
    if (!value) return {};
    not_with(in, "walk past", {"sideways"});
    Section path(*value, in, "walk past");
    Walk walk;
    path.require("from", "how far sideways it begins, negative to the left");
    path.require("to", "how far sideways it ends");
    bool good = path.set(walk.from_mm, "from");
    good &= path.set(walk.to_mm, "to");
    good &= path.set(walk.steps, "steps") || !path.has("steps");
    path.finish();
    return good ? std::optional(walk) : std::nullopt;
}

void read_stance(Section& in, Viewpoint& view) {
    std::size_t perspective = 0;
    in.set_word(perspective, "perspective");
    view.perspective = static_cast<Perspective>(perspective);
    not_with(in, "focal length", {"view width"});
    in.set(view.view_width_mm, "view width");
    in.set(view.focal_length_mm, "focal length");
}

/// \return whether nothing is wrong.
bool check(Section& in, const std::string& key, const Viewpoint& view, const Layout& layout) {
    if (layout.panel.width_mm <= 0) return true;
    const std::string stand = why_not_free(view.eye_mm, layout), sight = why_no_sight(view);
    if (!stand.empty()) in.problem(key, stand);
    if (!sight.empty()) in.problem("look at", sight);
    return stand.empty() && sight.empty();
}

void read_viewpoint(Section& in, Layout& layout, std::vector<std::string>& names) {
    Viewpoint view;
    view.place = in.place();
    view.look_at_mm = panel_centre_mm(layout.panel);
    set_unique_name(in, view.name, names);
    in.set(view.look_at_mm, "look at");
    const std::string key = read_eye(in, view, layout);
    const std::optional<Walk> walk = read_walk(in);
    read_stance(in, view);
    if (!walk) {
        if (!key.empty() && !in.has("walk past")) check(in, key, view, layout);
        layout.views.viewpoints.push_back(std::move(view));
        return;
    }
    view.walk = view.name;
    bool good = !key.empty();
    for (int step = 0; step < walk->steps; ++step) {
        view.name = fmt::format("{} {}", view.walk, step + 1);
        view.eye_mm.x = walk->from_mm + (walk->to_mm - walk->from_mm) * step / (walk->steps - 1);
        if (std::find(names.begin(), names.end(), view.name) != names.end())
            in.problem("name", fmt::format("found a step called {} again", quoted(view.name)));
        names.push_back(view.name);
        good = good && check(in, "walk past", view, layout);  // the first step amiss is enough
        layout.views.viewpoints.push_back(view);
    }
}

}  // namespace

void read_viewpoints(Section& file, Layout& layout) {
    std::vector<std::string> names;
    for_each_item(file, "viewpoints", [&](Section& in) { read_viewpoint(in, layout, names); });
    if (!layout.views.viewpoints.empty()) return;
    layout.views.viewpoints.push_back(usual_viewpoint(layout));
    if (const std::string text = why_not_free(layout.views.viewpoints[0].eye_mm, layout);
        !text.empty() && layout.panel.width_mm > 0)
        file.problem("viewpoints", "the usual viewpoint does not fit here: " + text);
}

}  // namespace rakelight
