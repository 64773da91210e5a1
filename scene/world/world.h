// The scene as a ray tracer walks it, without search: everything that light can meet or come from, in flat
// arrays: one triangle list for panel, frame and room; 16 bytes a triangle for shading; one record for each
// object. Coordinates: room axes, millimetres, origin at the centre of the panel's substrate front, where
// precision counts.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "materials/markings/marks.h"
#include "materials/maths/lanes.h"
#include "materials/optics/material.h"
#include "materials/optics/surface.h"
#include "scene/geometry/mesh.h"
#include "scene/laying/laying.h"
#include "scene/light/emitter.h"

namespace rakelight {

struct Layout;

inline constexpr std::uint32_t kNone = 0xffffffffu;

/// What a triangle needs for shading, in one quarter of a cache line. `normals`: octahedral, 16 bits an axis
/// (Cigolle et al. 2014, "A Survey of Efficient Representations for Independent Unit Vectors").
struct PackedNormals {
    std::uint32_t normals[3] = {0, 0, 0};
    std::uint32_t object = 0;
};

/// Distances of a triangle's corners from the outline of its piece, in steps of 1/256 mm.
struct PackedEdges {
    static constexpr float kPerMm = 256;
    static constexpr float kUnder_mm = 3;  ///< a filling's distances from the pieces are kept with this added
    std::uint16_t corners[4] = {0, 0, 0, 0};  ///< the last is spare
};

/// One object of one material: a tessera, a stone, a wall.
struct Object {
    std::uint32_t surface = 0;             ///< index in World::surfaces
    std::uint32_t glassy_surface = kNone;  ///< slag: the other surface, in patches
    std::uint32_t roughened_surface = 0;  ///< met by light that a dull surface has scattered, see roughened()
    float glassy_threshold = 0;           ///< noise above this is glassy
    float glassy_patch_mm = 1;
    Grain grain;
    bool timber = false;         ///< its grain is that of wood (wood_grain.h)
    glm::vec3 along{1, 0, 0};    ///< direction the grain is stretched along
    glm::vec3 noise_shift_mm{};  ///< so that no two pieces show the same grain
    std::uint32_t seed = 0;
    std::uint32_t marks = kNone;  ///< in World::marks; `surface` is then the first of its looks' surfaces
    bool upright = false;         ///< markings lie on each of its faces, not in the plane of the panel
    glm::vec2 sheet{1, 0};        ///< cosine and sine of the way from `along` to that of the sheet it is from
    std::uint32_t edges =
        kNone;  ///< of its first triangle, in World::edges; none = it looks the same all over
    std::uint32_t first_triangle = 0;
    std::int32_t piece = 0;     ///< 1-based number of the piece; 0 = not a piece
    std::int32_t material = 0;  ///< 1-based index in World::materials
    friend bool operator==(const Object&, const Object&) = default;
};

/// A uniform far surround, for measuring and for tests of energy.
struct UniformEnvironment {
    float cd_per_m2 = 0;
    TristimulusWeights weights;
    std::uint32_t group = 0;
};

struct World {
    std::vector<glm::vec3> positions_mm;  ///< ends with one spare element: Embree reads 16 bytes a vertex
    std::vector<glm::uvec3> triangles;
    std::vector<PackedNormals> packed_normals;  ///< one a triangle
    std::vector<PackedEdges> edges;             ///< of objects whose look changes from the edge inward
    std::vector<Object> objects;
    std::vector<Surface> surfaces;
    std::vector<Marks> marks;                     ///< of materials that have markings
    std::shared_ptr<InterfaceTables> interfaces;  ///< what `surfaces` point into
    std::vector<Emitter> emitters;  ///< lamps in the order of the layout, then windows or parts of a picture
    std::vector<std::string> emitter_names;  ///< of `emitters`
    std::optional<UniformEnvironment> environment;
    std::vector<std::string> groups;     ///< lamp groups, in the order of the layout
    std::vector<std::string> materials;  ///< names of stock, then tints
    glm::dvec3 origin_mm{};              ///< room coordinates of the world's origin
    glm::dvec3 panel_size_mm{};          ///< width, height, height of the usual face above the substrate
    glm::vec3 panel_normal{0, 0, 1};
};

/// Octahedral packing of a unit vector, 16 bits an axis; error below 0.004 degrees.
std::uint32_t pack_normal(const glm::vec3& unit);

/// Eight packed vectors, not of unit length: callers interpolate first and normalise once.
inline Vec3s unpack_normals(const Words& packed) {
    const auto axis = [](const Words& bits) {
        return __builtin_convertvector(Ints(bits), Floats) * (2.0f / 65535.0f) - 1;
    };
    Vec3s n{axis(packed & 0xffffu), axis(packed >> 16), {}};
    const Floats flat = max(n.x, -n.x) + max(n.y, -n.y);
    n.z = 1 - flat;
    const Floats fold = max(flat - 1, Floats{});
    n.x += n.x >= 0 ? -fold : fold;
    n.y += n.y >= 0 ? -fold : fold;
    return n;
}

/// One packed vector, not of unit length.
inline glm::vec3 unpack_normal(std::uint32_t packed) {
    const Vec3s n = unpack_normals(Words{} + packed);
    return {n.x[0], n.y[0], n.z[0]};
}

/// Adds a mesh, moved by `place` (a rigid transform), as an object.
void add(World& world, const Mesh& mesh, const glm::mat4& place, const Object& object);

/// Adds a mesh for each object, as `add` would one after another.
void add(World& world, std::span<const Mesh> meshes, const glm::mat4& place, std::span<const Object> objects);

/// The material with its interfaces and leaf roughened to at least GGX 0.3. Light that a wall or a stone has
/// already scattered meets glass as this: the caustics it would throw are faint and blurred in a room, and
/// sharp ones would only be sampled as stray bright dots. Keeps all energy (Kaplanyan and Dachsbacher 2013,
/// "Path Space Regularization", in its simplest form).
Material roughened(Material material);

/// Whether a material has an interface or leaf that roughened() makes rougher: anything else is matte
/// throughout.
bool has_gloss(const Material& material);

/// Adds a material's surface and returns its index.
std::uint32_t add_surface(World& world, Surface surface);

/// Adds markings where the world has none like them, and returns their index.
std::uint32_t add_marks(World& world, const Marks& marks);

/// Ends the building of a world by hand (tests): adds what Embree wants after the last vertex.
void finish(World& world);

/// Puts the lamps and windows of a layout in place of those that are there.
void set_lights(World& world, const Layout& layout);

/// Whether two lights of one layout make the same world but for what `set_lights` puts into it: the same
/// materials, the same glazing bars, both with a picture all round or neither.
bool differ_in_lights_only(const Layout& a, const Layout& b);

/// What is laid of the panel beside, if there is one. \throws LayoutError as `lay`.
std::optional<Laying> lay_beside(const Layout& layout);

/// Panel, frame, room and lamps of a layout, ready for rays. `beside`: the panel beside as `lay_beside` lays
/// it; null = it is laid here. `finest_mm`: forms of the panel are told no finer than a pixel this wide
/// shows; 0 = all of them.
World build_world(const Layout& layout, const Laying& laying, const Laying* beside = nullptr,
                  double finest_mm = 0);

/// The same room without what hangs there, under the same light; its origin is where the panel's would be.
World build_bare_wall(const Layout& layout);

}  // namespace rakelight
