#include "scene/world/room_world.h"

#include <glm/gtc/matrix_transform.hpp>

#include "materials/maths/hash.h"
#include "materials/optics/marked.h"
#include "scene/model/layout.h"
#include "scene/room/boards.h"
#include "scene/room/doors.h"
#include "scene/room/furniture_forms.h"
#include "scene/room/joinery.h"
#include "scene/room/skirting.h"
#include "scene/room/wall_finish.h"
#include "scene/room/window_bars.h"

namespace rakelight {

namespace {

constexpr double kBoardThick_mm = 4;  // what shows of it in a joint

glm::mat4 from_room(const World& world) {
    return glm::translate(glm::mat4(1), glm::vec3(-world.origin_mm));
}

// Boards run along the longer side of the room, on a ground of their own timber.
void add_boards(World& world, const Layout& layout, SurfaceCache& cache) {
    const Room& room = layout.room;
    const bool along_z = room.depth_mm >= room.width_mm;
    const double across = along_z ? room.width_mm : room.depth_mm,
                 along = along_z ? room.depth_mm : room.width_mm;
    const std::uint64_t seed = hash_combine(layout.panel.seed, hash_text("floor"));
    // From across and along to x and z, turned so that up stays up.
    glm::mat4 place = glm::translate(from_room(world), glm::vec3(-room.width_mm / 2, 0, 0));
    if (!along_z) {
        place = glm::translate(place, glm::vec3(0, 0, room.depth_mm));
        place = glm::rotate(place, glm::half_pi<float>(), glm::vec3(0, 1, 0));
    }
    std::vector<Mesh> meshes;
    std::vector<Object> objects;
    const std::vector<FloorBoard> boards = lay_boards(across, along, *room.board_mm, seed);
    for (std::size_t i = 0; i < boards.size(); ++i) {
        const std::uint64_t own = hash_combine(seed, 1000 + i);
        meshes.push_back(board_mesh(boards[i], kBoardThick_mm));
        Object object = cache.plain(room.floor, own, Rng(own).spread());
        object.along = glm::vec3(place * glm::vec4(0, 0, 1, 0));
        objects.push_back(object);
    }
    add(world, meshes, place, objects);
}

// Of its finish, where the paint has no markings of its own.
void mark_wall(Object& wall, std::uint32_t marks) {
    if (marks == kNone || wall.marks != kNone) return;
    wall.along = {0, 1, 0};
    wall.marks = marks;
    wall.upright = true;
}

std::uint32_t marks_of_walls(World& world, const Layout& layout) {
    Material wall = layout.stock[layout.room.panel_wall];
    wall.markings = wall_markings(layout.room.wall_finish);
    return wall.markings.any() ? add_marks(world, marks_of(wall)) : kNone;
}

// Bricks and slabs of their own tone where the paint has a spread; timber stands upright in panelling.
void add_walls_relief(World& world, const Layout& layout, SurfaceCache& cache, std::uint32_t marks) {
    const Room& room = layout.room;
    const std::pair<RoomFace, std::uint32_t> walls[]{{RoomFace::left, room.left_wall},
                                                     {RoomFace::right, room.right_wall},
                                                     {RoomFace::opposite, room.opposite_wall},
                                                     {RoomFace::panel, room.panel_wall}};
    for (const auto& [wall, stock] : walls) {
        if (layout.on.all_round && wall != RoomFace::panel) continue;
        const std::vector<FaceArea> parts = wall_parts(layout, wall);
        std::vector<Mesh> meshes;
        std::vector<Object> objects;
        for (std::size_t i = 0; i < parts.size(); ++i) {
            const std::uint64_t own =
                hash_combine(layout.panel.seed, 20'000 + 5000 * static_cast<std::uint64_t>(wall) + i);
            meshes.push_back(wall_part_mesh(room, wall, parts[i]));
            objects.push_back(cache.plain(stock, own, Rng(own).spread()));
            objects.back().along = {0, 1, 0};
            mark_wall(objects.back(), marks);
        }
        add(world, meshes, from_room(world), objects);
    }
}

void add_joinery(World& world, const Layout& layout, SurfaceCache& cache) {
    const Room& room = layout.room;
    const auto place = from_room(world);
    for (const Mesh& mesh : skirting_meshes(layout, room.skirting_mm.value_or(0)))
        add(world, mesh, place, cache.plain(room.joinery.value(), 25));
    for (const Door& door : room.doors) {
        const DoorParts parts = door_parts(room, door);
        add(world, parts.frame, place, cache.plain(room.joinery.value(), 26));
        Object leaf = cache.plain(door.leaf, hash_text(door.name));
        leaf.along = {0, 1, 0};
        add(world, parts.leaf, place, leaf);
        add(world, parts.handle, place, cache.plain(door.handle, 27));
    }
}

// The longest side of a board, which its grain runs along.
glm::vec3 longest_side(const Mesh& board) {
    glm::vec3 low(1e9f), high(-1e9f);
    for (const glm::vec3& p : board.positions_mm) low = glm::min(low, p), high = glm::max(high, p);
    const glm::vec3 side = high - low;
    if (side.y > side.x && side.y > side.z) return {0, 1, 0};
    return side.x >= side.z ? glm::vec3(1, 0, 0) : glm::vec3(0, 0, 1);
}

void add_furniture(World& world, const Layout& layout, SurfaceCache& cache) {
    for (const Furniture& piece : layout.room.furniture) {
        const std::vector<Mesh> boards = furniture_boards(piece.form, piece.size_mm);
        std::vector<Object> objects;
        for (std::size_t i = 0; i < boards.size(); ++i) {
            objects.push_back(cache.plain(piece.material, hash_combine(hash_text(piece.name), i)));
            objects.back().along = longest_side(boards[i]);
        }
        add(world, boards, glm::translate(from_room(world), glm::vec3(piece.at_mm)), objects);
    }
}

}  // namespace

std::vector<WindowBar> window_bars_of(const Layout& layout) {
    std::vector<WindowBar> bars;
    for (const Window& window : layout.on.windows) {
        if (window.curtain != Curtain::none) continue;  // they stand behind it
        for (const auto& [from, to] : window_bars(layout.room, window))
            bars.push_back({from, to, window.bar_material.value()});
    }
    return bars;
}

void add_room(World& world, const Layout& layout, SurfaceCache& cache) {
    const Room& room = layout.room;
    const bool boards = room.board_mm.value_or(0) > 0;
    const double foot = boards ? -kBoardThick_mm : 0;  // walls go down to what the boards lie on
    const glm::dvec3 low(-room.width_mm / 2, foot, 0);
    const glm::dvec3 x(room.width_mm, 0, 0);
    const glm::dvec3 y(0, room.height_mm - foot, 0);
    const glm::dvec3 z(0, 0, room.depth_mm);
    const auto place = from_room(world);
    const std::uint32_t marks = marks_of_walls(world, layout);
    const auto paint = [&](std::uint32_t stock) {
        Object wall = cache.plain(stock, 21);
        mark_wall(wall, marks);
        return wall;
    };
    add(world, rectangle_mesh(low, x, y), place, paint(room.panel_wall));
    if (!layout.on.all_round) {
        add(world, rectangle_mesh(low + x + z, -x, y), place, paint(room.opposite_wall));
        add(world, rectangle_mesh(low + z, -z, y), place, paint(room.left_wall));
        add(world, rectangle_mesh(low + x, z, y), place, paint(room.right_wall));
        add(world, rectangle_mesh(low, z, x), place, cache.plain(room.floor, 22));
        add(world, rectangle_mesh(low + y, x, z), place, cache.plain(room.ceiling, 23));
        if (boards) add_boards(world, layout, cache);
        add_joinery(world, layout, cache);
    }
    add_walls_relief(world, layout, cache, marks);
    for (const WindowBar& bar : window_bars_of(layout))
        add(world, box_mesh(bar.from_mm, bar.to_mm), place, cache.plain(bar.material, 24));
    add_furniture(world, layout, cache);
}

}  // namespace rakelight
