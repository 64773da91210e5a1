#include "scene/room/usual_furnishing.h"

#include <algorithm>

#include "materials/stock/stock.h"
#include "scene/model/layout.h"
#include "scene/room/defaults.h"
#include "scene/room/doors.h"
#include "scene/room/furnishing_check.h"
#include "scene/room/furniture_forms.h"
#include "scene/room/hung_panel.h"

namespace rakelight {

namespace {

std::uint32_t stock_called(Layout& layout, std::string_view name) {
    const auto at = std::ranges::find(layout.stock, name, &Material::name);
    const auto number = static_cast<std::uint32_t>(at - layout.stock.begin());
    if (at == layout.stock.end()) layout.stock.push_back(*find_stock(name));
    return number;
}

// As boxes that keep their places free.
std::vector<Furniture> boxes_of(std::span<const StandInPlace> stand_ins) {
    std::vector<Furniture> boxes;
    for (const StandInPlace& s : stand_ins) boxes.push_back(box_round(s));
    return boxes;
}

// Left of the work, else right of it, a good step away.
void hang_door(Layout& layout, std::span<const Furniture> standing) {
    const HungWork work = all_hung(layout);
    Door door;
    door.name = "door";
    door.leaf = stock_called(layout, kUsualFurniture);
    door.size_mm.y = std::min(door.size_mm.y, layout.room.height_mm - 150);
    for (const double away_mm : {1150.0, 900.0, 700.0})
        for (const double side : {-1.0, 1.0}) {
            door.at_mm = work.centre_mm.x + side * (work.outer_half_mm.x + away_mm);
            const FaceArea area = door_area(door);
            const bool stands_before = std::ranges::any_of(standing, [&](const Furniture& box) {
                const auto [low, high] = corners_of(box);
                return area.meets({glm::dvec2(low), glm::dvec2(high)}) && low.z < 1200;
            });
            if (stands_before || !why_no_door(door, layout, layout.room.doors).empty()) continue;
            door.handle = stock_called(layout, kUsualHandle);
            layout.room.doors.push_back(door);
            return;
        }
}

void put(FurnitureForm form, Layout& layout, std::vector<Furniture>& standing) {
    Furniture piece;
    piece.form = form;
    piece.name = "usual " + kFurnitureWords[static_cast<std::size_t>(form)];
    piece.size_mm = usual_size_mm(form);
    const auto place = usual_place_mm(piece, layout, standing);
    if (!place) return;
    piece.at_mm = *place;
    piece.material = stock_called(layout, kUsualFurniture);
    standing.push_back(piece);
    layout.room.furniture.push_back(piece);
}

}  // namespace

void furnish(Layout& layout, std::span<const StandInPlace> stand_ins) {
    if (layout.on.all_round) return;
    Room& room = layout.room;
    if (!room.board_mm) room.board_mm = layout.stock[room.floor].kind == Kind::timber ? kUsualBoard_mm : 0;
    if (!room.skirting_mm) room.skirting_mm = kUsualSkirting_mm;
    if (!room.joinery) room.joinery = stock_called(layout, kUsualJoinery);
    std::vector<Furniture> standing = boxes_of(stand_ins);
    standing.insert(standing.end(), room.furniture.begin(), room.furniture.end());
    if (!room.doors_said) hang_door(layout, standing);
    const bool seats =
        std::ranges::any_of(stand_ins, [](const StandInPlace& s) { return s.what != StandIn::figure; });
    if (room.furniture_said || seats) return;
    put(FurnitureForm::bench, layout, standing);
    put(FurnitureForm::table, layout, standing);
}

}  // namespace rakelight
