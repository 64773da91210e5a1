#include "scene/model/layout.h"
#include "scene/world/world.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>

#include "materials/maths/hash.h"
#include "scene/forms/forms.h"
#include "scene/forms/joint_surface.h"
#include "scene/forms/side_wall.h"
#include "scene/light/window_light.h"
#include "scene/model/levels.h"
#include "scene/model/panel_spans.h"
#include "scene/room/hung_panel.h"
#include "scene/room/joinery.h"
#include "scene/world/room_world.h"
#include "scene/world/surface_cache.h"

namespace rakelight {

namespace {

glm::vec3 turned(const glm::mat4& place, const glm::dvec2& along) {
    return glm::normalize(glm::vec3(place * glm::vec4(glm::vec2(along), 0, 0)));
}

struct PanelLook {
    bool numbered;  // pieces carry their numbers; those of the panel beside do not, they are part of the room
    double finest_mm;
};

// Forms take more memory than the triangles that come of them, so no more are kept than keep every processor
// busy.
constexpr std::size_t kFormedAtOnce = 4096;

// Room for so many times what is there, so that growing lists are not copied.
void reserve_times(World& world, double times) {
    const auto grow = [times](auto& list) {
        list.reserve(static_cast<std::size_t>(static_cast<double>(list.size()) * times * 1.1));
    };
    grow(world.positions_mm);
    grow(world.triangles);
    grow(world.packed_normals);
    grow(world.edges);
}

void add_pieces(World& world, const Layout& layout, const Laying& laying, SurfaceCache& cache,
                const glm::mat4& place, const PanelLook& look) {
    const std::size_t pieces = laying.pieces.size();
    for (std::size_t first = 0; first < pieces; first += kFormedAtOnce) {
        const std::size_t some = std::min(kFormedAtOnce, pieces - first);
        std::vector<Mesh> forms(some);
        tbb::parallel_for(std::size_t{0}, some, [&](std::size_t i) {
            const Piece& piece = laying.pieces[first + i];
            const Material& stuff = layout.stock[piece.material];
            forms[i] = form_piece(piece, stuff, look.finest_mm);
            if (!stuff.opaque && stuff.leaf == Leaf::none)
                forms[i].edge_mm = distances_from_edge(forms[i].positions_mm, piece.outline_mm);
        });
        std::vector<Object> objects;
        for (std::size_t i = 0; i < some; ++i) {
            const Piece& piece = laying.pieces[first + i];
            Object object = piece_object(cache, layout, piece);
            if (look.numbered) object.piece = static_cast<std::int32_t>(first + i) + 1;
            object.along = turned(place, piece.along);
            objects.push_back(object);
        }
        add(world, forms, place, objects);
        if (first == 0) reserve_times(world, static_cast<double>(pieces) / static_cast<double>(some));
    }
    std::vector<Object> objects;
    std::vector<Mesh> stones(laying.stones.size());
    tbb::parallel_for(std::size_t{0}, stones.size(), [&](std::size_t i) {
        stones[i] = form_stone(laying.stones[i], layout.stock[laying.stones[i].material], look.finest_mm);
    });
    for (std::size_t i = 0; i < stones.size(); ++i) {
        const SetStone& set = laying.stones[i];
        const std::uint64_t seed = hash_combine(layout.panel.seed, set.stone.seed + 7919 * (i + 1));
        Object object = cache.object(set.material, layout.stock[set.material], set.stone.size_mm.z, nullptr,
                                     seed, Rng(seed).spread() / 2);
        if (look.numbered) object.piece = static_cast<std::int32_t>(pieces + i) + 1;
        const double turn = glm::radians(set.stone.turn_deg);
        object.along = turned(place, {std::cos(turn), std::sin(turn)});
        objects.push_back(object);
    }
    add(world, stones, place, objects);
}

// The grain of a filling is that of its place, whatever other tints the layout lists.
std::size_t first_filled(const std::vector<Field>& fields, std::uint32_t tint) {
    const auto f = std::find_if(fields.begin(), fields.end(),
                                [&](const Field& field) { return filling_of(field) == tint; });
    return static_cast<std::size_t>(f - fields.begin());
}

void add_joints(World& world, const Layout& layout, const Laying& laying, SurfaceCache& cache,
                const glm::mat4& place, double finest_mm) {
    const JointSurface joints = form_joints(layout, laying, finest_mm);
    for (std::uint32_t tint = 0; tint < layout.tints.size(); ++tint) {
        Mesh part = part_of(joints, tint);
        if (part.triangles.empty()) continue;
        if (!layout.tints[tint].markings.any()) part.edge_mm.clear();
        for (float& edge_mm : part.edge_mm) edge_mm += PackedEdges::kUnder_mm;
        add(world, part, place,
            cache.filling(tint, hash_combine(layout.panel.seed, 9000 + first_filled(layout.fields, tint))));
    }
}

// Of one panel of the work; `place` puts the whole work's lower left corner.
void add_substrate_and_frame(World& world, const Layout& layout, std::size_t index, SurfaceCache& cache,
                             const glm::mat4& place) {
    const PanelSpan span = panel_spans(layout.panel)[index];
    const Panel panel = panel_of(layout.panel, span);
    const double face_mm = face_plane_mm(layout);
    const glm::dvec2 half(panel.width_mm / 2, panel.height_mm / 2);
    const double thickness = panel.substrate.thickness_mm;
    const auto centred =
        place * glm::translate(glm::mat4(1), glm::vec3(glm::vec2(half + glm::dvec2(span.left_mm, 0)), 0));
    const double gap = panel.frame ? panel.frame->gap_mm : 0;
    add(world, box_mesh({-half - gap, -thickness}, {half + gap, 0}), centred,
        cache.plain(panel.substrate.material, 11));
    if (!panel.frame) return;
    for (int side = 0; side < kFrameSides; ++side) {
        const std::uint64_t bar_of_work = 500 + static_cast<std::uint64_t>(side) + kFrameSides * index;
        Object bar = cache.plain(panel.frame->material, hash_combine(panel.seed, bar_of_work));
        bar.along = turned(place, side % 2 == 0 ? glm::dvec2(1, 0) : glm::dvec2(0, 1));
        add(world,
            frame_bar_mesh(side, panel.width_mm + 2 * gap, panel.height_mm + 2 * gap, panel.frame->width_mm,
                           -thickness, face_mm + panel.frame->proud_mm),
            centred, bar);
    }
}

std::uint32_t group_called(World& world, const std::string& name) {
    auto group = std::find(world.groups.begin(), world.groups.end(), name);
    if (group == world.groups.end()) group = world.groups.insert(group, name);
    return static_cast<std::uint32_t>(group - world.groups.begin());
}

void add_lamps(World& world, const Layout& layout) {
    for (const auto& lamp : layout.on.lamps) {
        const std::string& name = lamp.group.empty() ? lamp.name : lamp.group;
        world.emitters.push_back(make_emitter(lamp, world.origin_mm, group_called(world, name)));
        world.emitter_names.push_back(lamp.name);
    }
    for (WindowLight& light : window_lights(layout, world.origin_mm)) {
        light.emitter.group = group_called(world, light.group);
        world.emitters.push_back(light.emitter);
        world.emitter_names.push_back(light.name);
    }
}

}  // namespace

void set_lights(World& world, const Layout& layout) {
    world.emitters.clear();
    world.emitter_names.clear();
    world.groups.clear();
    add_lamps(world, layout);
}

namespace {

// Substrate, pieces, joints and frame of a work, centred on `centre_mm` of the world.
void add_panel(World& world, const Layout& layout, const Laying& laying, SurfaceCache& cache,
               const glm::mat4& tilted, const glm::vec3& centre_mm, const PanelLook& look) {
    const glm::vec3 corner(-layout.panel.width_mm / 2, -layout.panel.height_mm / 2, 0);
    const auto place =
        glm::translate(glm::mat4(1), centre_mm) * tilted * glm::translate(glm::mat4(1), corner);
    add_pieces(world, layout, laying, cache, place, look);
    add_joints(world, layout, laying, cache, place, look.finest_mm);
    for (std::size_t i = 0; i < panel_spans(layout.panel).size(); ++i)
        add_substrate_and_frame(world, layout, i, cache, place);
}

}  // namespace

bool differ_in_lights_only(const Layout& a, const Layout& b) {
    return std::ranges::equal(a.stock, b.stock, {}, &Material::name, &Material::name) &&
           window_bars_of(a) == window_bars_of(b) && a.on.all_round.has_value() == b.on.all_round.has_value();
}

std::optional<Laying> lay_beside(const Layout& layout) {
    if (!layout.beside || !layout.beside->layout) return {};
    return lay(*layout.beside->layout);
}

namespace {

World empty_world(const Layout& layout) {
    World world;
    world.interfaces = std::make_shared<InterfaceTables>();
    world.panel_size_mm = {layout.panel.width_mm, layout.panel.height_mm, face_plane_mm(layout)};
    world.origin_mm = hung_panels(layout).front().centre_mm;
    world.panel_normal = glm::vec3(turned_by_lean(layout.panel.lean_deg) * glm::vec4(0, 0, 1, 0));
    return world;
}

}  // namespace

World build_bare_wall(const Layout& layout) {
    World world = empty_world(layout);
    SurfaceCache cache(world, layout);
    add_room(world, layout, cache);
    add_lamps(world, layout);
    finish(world);
    return world;
}

World build_world(const Layout& layout, const Laying& laying, const Laying* beside, double finest_mm) {
    World world = empty_world(layout);
    if (finest_mm > 0) world.interfaces->side_walks().be_coarse();
    const std::vector<HungPanel> hung = hung_panels(layout);
    const auto tilted = turned_by_lean(layout.panel.lean_deg);

    SurfaceCache cache(world, layout);
    add_panel(world, layout, laying, cache, tilted, glm::vec3(0), {true, finest_mm});
    if (hung.size() > 1) {
        const HungPanel& by = hung[1];
        SurfaceCache other(world, *by.layout);
        add_panel(world, *by.layout, beside ? *beside : lay(*by.layout), other, tilted,
                  glm::vec3(by.centre_mm - world.origin_mm), {false, finest_mm});
    }
    add_room(world, layout, cache);
    add_lamps(world, layout);
    finish(world);
    return world;
}

}  // namespace rakelight
