#include "scene/reading/light/furnishing.h"

#include <fmt/format.h>

#include "scene/light/window_light.h"
#include "scene/model/layout.h"
#include "scene/room/defaults.h"
#include "scene/room/doors.h"
#include "scene/room/furnishing_check.h"
#include "scene/room/furniture_forms.h"
#include "scene/room/window_bars.h"
#include "scene/text/nearest_word.h"

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

void read_door(Section& in, Layout& layout, const Shelf& stock, std::vector<std::string>& names) {
    Door door;
    set_unique_name(in, door.name, names);
    std::size_t wall = static_cast<std::size_t>(door.wall);
    in.set_word(wall, "wall");
    door.wall = static_cast<RoomFace>(wall);
    in.require("at", "where its middle is along the wall");
    const bool placed = in.set(door.at_mm, "at");
    in.set(door.size_mm, "size");
    door.leaf = read_opaque(in, "material", kUsualFurniture, stock, layout);
    door.handle = read_opaque(in, "handle", kUsualHandle, stock, layout);
    if (!placed) return;
    if (const std::string text = why_no_door(door, layout, layout.room.doors); !text.empty())
        in.problem("at", text);
    layout.room.doors.push_back(std::move(door));
}

// Where it is to stand unless that is said; told when there is no such place.
bool find_place(Section& in, Furniture& piece, const Layout& layout) {
    const auto place = usual_place_mm(piece, layout, layout.room.furniture);
    if (place)
        piece.at_mm = *place;
    else
        in.problem("at", fmt::format("found no free place for a {}, expected at: [x, y, z] of one",
                                     kFurnitureWords[static_cast<std::size_t>(piece.form)]));
    return place.has_value();
}

void read_piece_of_furniture(Section& in, Layout& layout, const Shelf& stock,
                             std::vector<std::string>& names) {
    Furniture piece;
    set_unique_name(in, piece.name, names);
    std::size_t form = 0;
    bool placed = in.set_word(form, "form") || !in.has("form");
    piece.form = static_cast<FurnitureForm>(form);
    piece.size_mm = usual_size_mm(piece.form);
    if (piece.form == FurnitureForm::box) {
        in.require("at", "the middle of its underside, [x, y, z]");
        in.require("size", "its size [along x, up, along z]");
    }
    placed &= in.set(piece.size_mm, "size") || !in.has("size");
    if (in.has("at")) placed &= in.set(piece.at_mm, "at");
    piece.material = read_opaque(in, "material", kUsualFurniture, stock, layout);
    if (!placed || (piece.form == FurnitureForm::box && !(in.has("at") && in.has("size")))) return;
    if (!in.has("at") && !find_place(in, piece, layout)) return;
    if (const std::string text = why_no_furniture(piece, layout); !text.empty()) in.problem("at", text);
    layout.room.furniture.push_back(std::move(piece));
}

// A word of the list: as usual, at its usual place.
void read_usual_piece(Section& room, const YamlValue& item, const std::string& path, Layout& layout,
                      const Shelf& stock) {
    const auto word = std::ranges::find(kFurnitureWords, item.text);
    if (word == kFurnitureWords.end() || *word == "box") {
        room.problems().add(item, path,
                            "found " + found(item) + ", expected bench, table, chair or a mapping" +
                                did_you_mean(item.text, kFurnitureWords));
        return;
    }
    Furniture piece;
    piece.name = item.text;
    piece.form = static_cast<FurnitureForm>(word - kFurnitureWords.begin());
    piece.size_mm = usual_size_mm(piece.form);
    piece.material =
        use_material(item, path, std::string(kUsualFurniture), stock, layout.stock, room.problems())
            .value_or(0);
    const auto place = usual_place_mm(piece, layout, layout.room.furniture);
    if (!place) {
        room.problems().add(
            item, path,
            fmt::format("found no free place for a {}, expected a mapping with at: [x, y, z]", item.text));
        return;
    }
    piece.at_mm = *place;
    layout.room.furniture.push_back(std::move(piece));
}

void read_furniture(Section& room, Layout& layout, const Shelf& stock) {
    const YamlValue* list = room.find("furniture");
    if (!list) return;
    layout.room.furniture_said = true;
    if (list->shape != YamlValue::Shape::list || list->items.size() > kMostItems) {
        room.problem("furniture", fmt::format("found {}, expected a list of at most {} pieces of furniture",
                                              found(*list), kMostItems));
        return;
    }
    std::vector<std::string> names;
    for (std::size_t i = 0; i < list->items.size(); ++i) {
        const YamlValue& item = list->items[i];
        const std::string path = fmt::format("{}[{}]", room.path("furniture"), i + 1);
        if (item.shape == YamlValue::Shape::scalar) {
            read_usual_piece(room, item, path, layout, stock);
            continue;
        }
        Section in(item, path, table_under(room.table(), "furniture"), room.problems());
        read_piece_of_furniture(in, layout, stock, names);
        in.finish();
    }
}

void read_joinery(Section& room, Layout& layout, const Shelf& stock) {
    const auto height = [&](std::optional<double>& target, const char* key, double least) {
        double mm = 0;
        if (!room.set(mm, key)) return;
        if (mm > 0 && mm < least)
            room.problem(key, fmt::format("found {:.6g} mm, expected 0 or at least {:.6g} mm", mm, least));
        else
            target = mm;
    };
    height(layout.room.board_mm, "boards", 30);
    height(layout.room.skirting_mm, "skirting", 20);
    if (room.has("joinery") || room.has("doors") || layout.room.skirting_mm.value_or(0) > 0)
        layout.room.joinery = read_opaque(room, "joinery", kUsualJoinery, stock, layout);
    std::vector<std::string> names;
    layout.room.doors_said = room.has("doors");
    for_each_item(room, "doors", [&](Section& in) { read_door(in, layout, stock, names); });
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
    read_windows(room, layout, stock);
    read_joinery(room, layout, stock);
    read_furniture(room, layout, stock);
}

}  // namespace rakelight
