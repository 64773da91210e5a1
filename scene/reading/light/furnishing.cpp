#include "scene/reading/light/furnishing.h"

#include <fmt/format.h>

#include "scene/light/window_light.h"
#include "scene/model/layout.h"
#include "scene/room/defaults.h"
#include "scene/room/furnishing_check.h"
#include "scene/room/window_bars.h"

namespace rakelight {
namespace {

/// Of pane and curtain together: double glazing, the same behind net, behind a roller blind. Common practice,
/// no published source.
constexpr double kTransmittance[] = {0.8, 0.4, 0.1};

void read_bars(Section& in, Window& window, const Shelf& stock, Layout& layout) {
    glm::dvec2 panes{0};
    const bool given = in.set(panes, "panes");
    if (given && panes != glm::floor(panes))
        in.problem("panes", fmt::format("found {} x {}, expected whole numbers", panes.x, panes.y));
    else if (given)
        window.panes = panes;
    in.set(window.bar_mm, "bar");
    window.bar_material = read_opaque(in, "bar material", kUsualBars, stock, layout);
    if (window.panes.x > 0 && bars_close(window))
        in.problem("panes", fmt::format("found bars of {:.6g} mm that leave no glass, expected fewer panes",
                                        window.bar_mm));
}

void read_window(Section& in, Layout& layout, const Shelf& stock, std::vector<std::string>& names) {
    Window window;
    set_unique_name(in, window.name, names);
    if (window.name == kSunName)
        in.problem("name", "found \"sun\", which names the sun itself, expected another name");
    window.group = window.name;
    in.set(window.group, "group");
    std::size_t wall = 0, curtain = 0;
    in.require("wall", "the wall it is in: left, right, opposite, panel or ceiling");
    bool placed = in.set_word(wall, "wall");
    window.wall = static_cast<RoomFace>(wall);
    in.require("at", "where the middle of its sill is: [along the wall, height]");
    placed &= in.set(window.at_mm, "at");
    in.require("size", "the window's width and height");
    placed &= in.set(window.size_mm, "size");
    in.set_word(curtain, "curtain");
    window.curtain = static_cast<Curtain>(curtain);
    window.transmittance = kTransmittance[curtain];
    in.set(window.transmittance, "transmittance");
    if (double lux = 0; in.set(lux, "lux")) window.lux = lux;
    in.set(window.dimming, "dimmed to");
    read_bars(in, window, stock, layout);
    if (!placed) return;
    if (const std::string text = why_no_window(window, layout, layout.on.windows); !text.empty())
        in.problem("at", text);
    layout.on.windows.push_back(std::move(window));
}

void read_piece_of_furniture(Section& in, Layout& layout, const Shelf& stock,
                             std::vector<std::string>& names) {
    Furniture box;
    set_unique_name(in, box.name, names);
    in.require("at", "the middle of its underside, [x, y, z]");
    bool placed = in.set(box.at_mm, "at");
    in.require("size", "its size [along x, up, along z]");
    placed &= in.set(box.size_mm, "size");
    box.material = read_opaque(in, "material", kUsualFurniture, stock, layout);
    if (!placed) return;
    if (const std::string text = why_no_furniture(box, layout); !text.empty()) in.problem("at", text);
    layout.room.furniture.push_back(std::move(box));
}

}  // namespace

std::uint32_t read_opaque(Section& in, std::string_view key, std::string_view usual, const Shelf& stock,
                          Layout& layout) {
    const auto material = set_material(in, key, usual, stock, layout.stock);
    if (!material) return 0;
    if (const Material& m = layout.stock[*material]; !m.opaque)
        in.problem(key, "found the translucent " + quoted(m.name) + ", expected an opaque material");
    return *material;
}

void read_windows(Section& section, Layout& layout, const Shelf& stock) {
    if (section.has("windows")) layout.on.windows.clear();
    std::vector<std::string> names;
    for_each_item(section, "windows", [&](Section& in) { read_window(in, layout, stock, names); });
}

void read_furnishing(Section& room, Layout& layout, const Shelf& stock) {
    std::vector<std::string> boxes;
    read_windows(room, layout, stock);
    for_each_item(room, "furniture", [&](Section& in) { read_piece_of_furniture(in, layout, stock, boxes); });
}

}  // namespace rakelight
