#include "scene/read_views.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "scene/defaults.h"
#include "scene/nearest_word.h"
#include "scene/room_check.h"
#include "scene/window_light.h"

namespace rakelight {
namespace {

constexpr Range kAnywhere_mm{-100'000, 100'000};
constexpr Range kDistance_mm{10, 50'000};

const std::vector<std::string> kExposures{"grey-card", "eye"};

void read_eye(Section& in, Viewpoint& view, const Layout& layout) {
    std::string key = "eye";
    bool good = true;
    if (in.find("eye")) {
        for (const char* other : {"distance", "height", "aside"})
            if (in.find(other))
                in.problem(other, fmt::format("found {} with eye, expected one or the other", other));
        good = in.set(view.eye_mm, "eye", Quantity::length_mm, kAnywhere_mm);
    } else {
        key = "distance";
        view.eye_mm = usual_viewpoint(layout).eye_mm;
        const auto set = [&](double& target, std::string_view each, Range range) {
            good &= in.set(target, each, Quantity::length_mm, range) || !in.has(each);
        };
        set(view.eye_mm.z, "distance", kDistance_mm);
        set(view.eye_mm.y, "height", kAnywhere_mm);
        set(view.eye_mm.x, "aside", kAnywhere_mm);
    }
    if (!good || layout.width_mm <= 0) return;
    if (const std::string text = why_not_free(view.eye_mm, layout); !text.empty()) in.problem(key, text);
    if (glm::distance(view.eye_mm, view.look_at_mm) < 1)
        in.problem("look at", "found the eye's own place, expected a point away from it");
}

void read_lamp_names(Section& in, Picture& picture, const Layout& layout) {
    const YamlValue* list = in.find("lamps");
    if (!list) return;
    if (list->shape != YamlValue::Shape::list || list->items.empty()) {
        in.problem("lamps", "found " + found(*list) + ", expected a list of lamps or groups");
        return;
    }
    const std::vector<std::string> known = light_names(layout);
    for (const YamlValue& item : list->items) {
        if (item.shape != YamlValue::Shape::scalar ||
            std::find(known.begin(), known.end(), item.text) == known.end())
            in.problems().add(item, in.path("lamps"),
                              "found " + found(item) + ", expected the name of a lamp or of a group" +
                                  did_you_mean(item.text, known));
        else
            picture.lamps.push_back(item.text);
    }
}

void read_viewpoint_name(Section& in, Picture& picture, const Layout& layout) {
    picture.viewpoint = layout.viewpoints.front().name;
    std::vector<std::string> names;
    for (const Viewpoint& view : layout.viewpoints) names.push_back(view.name);
    if (!in.set(picture.viewpoint, "viewpoint")) return;
    if (std::find(names.begin(), names.end(), picture.viewpoint) == names.end())
        in.problem("viewpoint", "found " + quoted(picture.viewpoint) + ", expected the name of a viewpoint" +
                                    did_you_mean(picture.viewpoint, names));
}

void read_size(Section& in, Picture& picture) {
    glm::dvec2 size{picture.width_px, picture.height_px};
    if (!in.set(size, "size", Quantity::plain, kPictureSide_px)) return;
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
    if (in.set_word(exposure, "exposure", kExposures)) picture.exposure = kExposures[exposure];
    if (double ev = 0; in.set(ev, "ev", Quantity::plain, {-10, 25})) picture.ev = ev;
}

}  // namespace

void read_viewpoints(Section& file, Layout& layout) {
    std::vector<std::string> names;
    for_each_item(file, "viewpoints", [&](Section& in) {
        Viewpoint view;
        view.place = in.place();
        view.look_at_mm = panel_centre_mm(layout);
        set_unique_name(in, view.name, names);
        in.set(view.look_at_mm, "look at", Quantity::length_mm, kAnywhere_mm);
        read_eye(in, view, layout);
        in.set(view.view_width_mm, "view width", Quantity::length_mm, {1, 50'000});
        layout.viewpoints.push_back(std::move(view));
    });
    if (!layout.viewpoints.empty()) return;
    layout.viewpoints.push_back(usual_viewpoint(layout));
    if (const std::string text = why_not_free(layout.viewpoints[0].eye_mm, layout);
        !text.empty() && layout.width_mm > 0)
        file.problem("viewpoints", "the usual viewpoint does not fit here: " + text);
}

void read_pictures(Section& file, Layout& layout) {
    std::vector<std::string> names;
    for_each_item(file, "pictures", [&](Section& in) {
        Picture picture;
        picture.place = in.place();
        set_unique_name(in, picture.name, names);
        read_viewpoint_name(in, picture, layout);
        read_lamp_names(in, picture, layout);
        read_size(in, picture);
        read_exposure(in, picture);
        in.set(picture.error, "error", Quantity::share, {0.0005, 0.5});
        in.set(picture.most_samples, "most samples", {1, 65'536});
        layout.pictures.push_back(std::move(picture));
    });
}

}  // namespace rakelight
