#include "scene/room/furniture_forms.h"

#include <algorithm>
#include <array>

#include "scene/geometry/loft.h"
#include "scene/model/layout.h"
#include "scene/room/doors.h"
#include "scene/room/furnishing_check.h"
#include "scene/room/hung_panel.h"
#include "scene/room/joinery.h"

namespace rakelight {

namespace {

constexpr double kOffWall_mm = 30;

// Whether it keeps doors free, a step before them too, and what stands there already.
bool is_clear(const Furniture& piece, const Room& room, std::span<const Furniture> standing) {
    const auto [low, high] = corners_of(piece);
    for (const Furniture& other : standing) {
        const auto [other_low, other_high] = corners_of(other);
        if (glm::all(glm::lessThan(low, other_high)) && glm::all(glm::lessThan(other_low, high)))
            return false;
    }
    for (const Door& door : room.doors) {
        const FacePlane face = face_plane(room, door.wall);
        const auto [a, b] = door_area(door);
        const glm::dvec3 p = face.point(a), q = face.point(b) + 800.0 * face.inward;
        if (glm::all(glm::lessThan(low, glm::max(p, q))) && glm::all(glm::lessThan(glm::min(p, q), high)))
            return false;
    }
    return true;
}

std::vector<Mesh> bench_boards(const glm::dvec3& size) {
    constexpr double kSeat_mm = 48, kLeg_mm = 52;
    const double x = size.x / 2, z = size.z / 2, y = size.y;
    std::vector<Mesh> boards{slab_mesh({-x, y - kSeat_mm, -z}, {x, y, z}, 4)};
    for (const double at : {-x + 150, x - 150 - kLeg_mm})
        boards.push_back(slab_mesh({at, 0, -z + 20}, {at + kLeg_mm, y - kSeat_mm, z - 20}, 3));
    boards.push_back(
        slab_mesh({-x + 150 + kLeg_mm, y - kSeat_mm - 90, -16}, {x - 150 - kLeg_mm, y - kSeat_mm, 16}, 3));
    return boards;
}

std::vector<Mesh> chair_boards(const glm::dvec3& size) {
    constexpr double kPost_mm = 34, kSeat_mm = 26;
    const double seat = 450.0 / 820 * size.y, x = size.x / 2, z = size.z / 2;
    std::vector<Mesh> boards{slab_mesh({-x, seat - kSeat_mm, -z}, {x, seat, z - kPost_mm}, 4)};
    for (const double side : {-1.0, 1.0}) {
        const double low = side < 0 ? -x : x - kPost_mm;
        boards.push_back(
            slab_mesh({low, 0, -z + 8}, {low + kPost_mm, seat - kSeat_mm, -z + 8 + kPost_mm}, 3));
        boards.push_back(slab_mesh({low, 0, z - kPost_mm}, {low + kPost_mm, size.y, z}, 3));
    }
    for (const double share : {0.68, 0.88})
        boards.push_back(slab_mesh({-x + kPost_mm, share * size.y, z - 26},
                                   {x - kPost_mm, share * size.y + 70, z - 8}, 3));
    return boards;
}

std::vector<Mesh> table_boards(const glm::dvec3& size) {
    constexpr double kTop_mm = 26, kLeg_mm = 42, kApron_mm = 75, kIn_mm = 12;
    const double x = size.x / 2, z = size.z / 2, under = size.y - kTop_mm;
    std::vector<Mesh> boards{eased_box_mesh({-x, under, -z}, {x, size.y, z}, 4)};
    const double leg_x = x - kIn_mm, leg_z = z - kIn_mm;
    for (const double side : {-1.0, 1.0})
        for (const double end : {-1.0, 1.0}) {
            const glm::dvec3 a(side * leg_x, 0, end * leg_z),
                b(side * (leg_x - kLeg_mm), under, end * (leg_z - kLeg_mm));
            boards.push_back(eased_box_mesh(glm::min(a, b), glm::max(a, b), 3));
        }
    for (const double side : {-1.0, 1.0}) {
        const double at_z = side * (leg_z - 6), at_x = side * (leg_x - 6);
        boards.push_back(
            eased_box_mesh({-leg_x + kLeg_mm, under - kApron_mm, std::min(at_z, at_z - side * 20)},
                           {leg_x - kLeg_mm, under, std::max(at_z, at_z - side * 20)}, 1.5));
        boards.push_back(
            eased_box_mesh({std::min(at_x, at_x - side * 20), under - kApron_mm, -leg_z + kLeg_mm},
                           {std::max(at_x, at_x - side * 20), under, leg_z - kLeg_mm}, 1.5));
    }
    return boards;
}

}  // namespace

glm::dvec3 usual_size_mm(FurnitureForm form) {
    switch (form) {
        case FurnitureForm::box:
            return {500, 500, 500};
        case FurnitureForm::bench:
            return {1300, 450, 380};
        case FurnitureForm::table:
            return {480, 550, 400};
        case FurnitureForm::chair:
            break;
    }
    return {430, 820, 480};
}

std::vector<Mesh> furniture_boards(FurnitureForm form, const glm::dvec3& size_mm) {
    switch (form) {
        case FurnitureForm::box:
            return {eased_box_mesh({-size_mm.x / 2, 0, -size_mm.z / 2},
                                   {size_mm.x / 2, size_mm.y, size_mm.z / 2}, 3)};
        case FurnitureForm::bench:
            return bench_boards(size_mm);
        case FurnitureForm::table:
            return table_boards(size_mm);
        case FurnitureForm::chair:
            break;
    }
    return chair_boards(size_mm);
}

Mesh furniture_mesh(FurnitureForm form, const glm::dvec3& size_mm) {
    Mesh whole;
    for (const Mesh& board : furniture_boards(form, size_mm)) append(whole, board);
    return whole;
}

std::optional<glm::dvec3> usual_place_mm(const Furniture& piece, const Layout& layout,
                                         std::span<const Furniture> standing) {
    constexpr double kUnderWork_mm = 150, kBeside_mm[] = {1400, 1100, 800, 500, 350};
    const HungWork work = all_hung(layout);
    const double wall_z = piece.size_mm.z / 2 + kOffWall_mm;
    std::vector<glm::dvec3> places;
    if (piece.form == FurnitureForm::bench) {
        if (piece.size_mm.y + kUnderWork_mm < layout.panel.centre_height_mm - work.outer_half_mm.y)
            places.push_back({work.centre_mm.x, 0, wall_z});
        places.push_back({work.centre_mm.x, 0, 1900});
    }
    for (const double side : {1.0, -1.0})
        for (const double aside : kBeside_mm)
            places.push_back({work.centre_mm.x + side * (work.outer_half_mm.x + aside), 0, wall_z});
    Furniture tried = piece;
    for (const glm::dvec3& place : places) {
        tried.at_mm = place;
        if (why_no_furniture(tried, layout).empty() && is_clear(tried, layout.room, standing)) return place;
    }
    return {};
}

}  // namespace rakelight
