#include "scene/reading/panel.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "scene/model/layout.h"
#include "scene/reading/division.h"
#include "scene/reading/light/furnishing.h"
#include "scene/reading/stock/treatment.h"
#include "scene/room/defaults.h"
#include "scene/room/panel_frame.h"

namespace rakelight {
namespace {

void read_substrate(Section& panel, Layout& layout, const Shelf& stock) {
    Substrate& substrate = layout.panel.substrate;
    const YamlValue* value = panel.find("substrate");
    if (!value) {
        substrate.material =
            set_material(panel, "substrate", kUsualSubstrate, stock, layout.stock).value_or(0);
        return;
    }
    Section in(*value, panel, "substrate");
    substrate.material = set_material(in, "material", kUsualSubstrate, stock, layout.stock).value_or(0);
    in.set(substrate.thickness_mm, "thickness");
    in.set(substrate.bed_mm, "bed thickness");
    in.finish();
}

// A finish of the frame's own makes another material of what it is made of.
std::uint32_t finished_frame(Section& in, std::uint32_t material, std::vector<Material>& stock) {
    Material own = stock[material];
    const std::string finish = read_finishes(in, own);
    if (finish.empty()) return material;
    own.name += ", " + finish;
    const auto same = std::ranges::find(stock, own.name, &Material::name);
    const auto index = static_cast<std::uint32_t>(same - stock.begin());
    if (same == stock.end()) stock.push_back(std::move(own));
    return index;
}

void read_frame(Section& panel, Layout& layout, const Shelf& stock) {
    for_mapping(panel, "frame", [&](Section& in) {
        Frame frame;
        if (const auto material = set_material(in, "material", kUsualFrame, stock, layout.stock))
            frame.material = finished_frame(in, *material, layout.stock);
        in.set(frame.width_mm, "width");
        in.set(frame.proud_mm, "proud");
        in.set(frame.gap_mm, "gap");
        layout.panel.frame = frame;
    });
}

void check_panel_fits(Section& in, const Layout& layout) {
    const Room& room = layout.room;
    const glm::dvec2 outer = 2.0 * outer_half_mm(layout.panel, layout.panel.lean_deg);
    const double width = outer.x, height = outer.y;
    if (width > room.width_mm || height > room.height_mm) {
        in.problem(
            "size",
            fmt::format(
                "found a wall of {:.6g} x {:.6g} mm, expected room for panel and frame, {:.6g} x {:.6g} mm",
                room.width_mm, room.height_mm, width, height));
        return;
    }
    const double low = height / 2, high = room.height_mm - height / 2;
    if (layout.panel.centre_height_mm < low || layout.panel.centre_height_mm > high)
        in.problem(
            "panel centre height",
            fmt::format(
                "found {:.6g} mm, expected {:.6g} to {:.6g} mm for the panel to hang between floor and "
                "ceiling",
                layout.panel.centre_height_mm, low, high));
}

}  // namespace

void read_panel(Section& file, Layout& layout, const Shelf& stock) {
    const YamlValue* value = file.require("panel", "the panel with its size");
    if (!value) return;
    Section in(*value, file, "panel");
    layout.panel.name = "panel";
    in.set(layout.panel.name, "name");
    glm::dvec2 size{0};
    in.require("size", "the panel's width and height");
    in.set(size, "size");
    layout.panel.width_mm = size.x;
    layout.panel.height_mm = size.y;
    in.set(layout.panel.seed, "seed");
    read_substrate(in, layout, stock);
    read_frame(in, layout, stock);
    read_division(in, layout.panel);
    in.finish();
}

void read_room(Section& file, Layout& layout, const Shelf& stock) {
    Room& room = layout.room;
    room.width_mm = std::max(room.width_mm, layout.panel.width_mm + 2000);
    room.height_mm = std::max(room.height_mm, layout.panel.height_mm + 1200);
    layout.panel.centre_height_mm = std::max(layout.panel.centre_height_mm, layout.panel.height_mm / 2 + 300);

    YamlValue empty;
    empty.shape = YamlValue::Shape::mapping;
    const YamlValue* value = file.find("room");
    Section in(value ? *value : empty, file, "room");
    glm::dvec3 size{room.width_mm, room.depth_mm, room.height_mm};
    in.set(size, "size");
    room.width_mm = size.x;
    room.depth_mm = size.y;
    room.height_mm = size.z;
    room.wall = read_opaque(in, "wall", kUsualWall, stock, layout);
    for (auto& [face, key] : {std::pair(&room.left_wall, "left wall"),
                              {&room.right_wall, "right wall"},
                              {&room.opposite_wall, "opposite wall"},
                              {&room.panel_wall, "panel wall"}}) {
        *face = in.find(key) ? read_opaque(in, key, "", stock, layout) : room.wall;
    }
    std::size_t finish = 0;
    if (in.set_word(finish, "wall finish")) room.wall_finish = static_cast<WallFinish>(finish);
    room.floor = read_opaque(in, "floor", kUsualFloor, stock, layout);
    room.ceiling = read_opaque(in, "ceiling", kUsualCeiling, stock, layout);
    in.set(layout.panel.centre_height_mm, "panel centre height");
    in.set(layout.panel.lean_deg, "lean");
    read_furnishing(in, layout, stock);
    in.finish();
    check_panel_fits(in, layout);
}

}  // namespace rakelight
