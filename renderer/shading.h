// Shading frames, surfaces and grain at eight hits.
#pragma once

#include <glm/glm.hpp>

#include "materials/maths/noise.h"
#include "materials/maths/noise_lanes.h"
#include "materials/optics/surface.h"
#include "materials/optics/wood_grain.h"
#include "renderer/bvh.h"
#include "renderer/marked.h"
#include "scene/world/world.h"

namespace rakelight {

/// Eight of Basis.
struct Bases {
    Vec3s x, y, z;

    /// `n`: unit, the z axis; how x and y lie round it follows from it alone.
    explicit Bases(const Vec3s& n) : z(n) {
        const Floats sign = n.z < 0 ? -1.0f : 1.0f;
        const Floats a = -1 / (sign + n.z);
        const Floats b = n.x * n.y * a;
        x = {1 + sign * n.x * n.x * a, sign * b, -sign * n.x};
        y = {b, sign + n.y * n.y * a, -n.y};
    }
    /// Turns x and y about z so that x runs as `along` does on the surface, where `which` holds and `along`
    /// does not stand upright on it.
    void turn(const Ints& which, const Vec3s& along) {
        const Vec3s flat = along - z * dot(along, z);
        const Floats length2 = dot(flat, flat);
        const Ints turned = which & (length2 > 1e-4f);
        const Vec3s way = flat * (1 / sqrt(max(length2, broadcast(1e-4f))));
        x = select(turned, way, x);
        y = select(turned, {z.y * x.z - z.z * x.y, z.z * x.x - z.x * x.z, z.x * x.y - z.y * x.x}, y);
    }
    /// A direction in the frame, and back.
    Vec3s to_local(const Vec3s& v) const { return {dot(v, x), dot(v, y), dot(v, z)}; }
    Vec3s to_world(const Vec3s& v) const { return x * v.x + y * v.y + z * v.z; }
};

/// Distance to step off a surface so that a new ray does not meet it again: a thousandth of a millimetre near
/// the panel, more where coordinates are large and rounding coarser.
inline Floats step_off_mm(const Vec3s& at_mm) {
    const Floats size = max(max(max(at_mm.x, -at_mm.x), max(at_mm.y, -at_mm.y)), max(at_mm.z, -at_mm.z));
    return 1e-3f + 1e-6f * size;
}

/// Where an object's grain, other than timber's, is asked of its noise.
inline glm::vec3 grain_place(const Object& object, const glm::vec3& at_mm) {
    glm::vec3 p = at_mm + object.noise_shift_mm;
    if (object.grain.band_ratio > 1)
        p -= object.along * (glm::dot(p, object.along) * (1 - 1 / object.grain.band_ratio));
    return p / object.grain.size_mm;
}

/// Noise of an object's grain at a place: factor on its base, mean 1.
inline float grain_scale(const Object& object, const glm::vec3& at_mm) {
    if (object.grain.contrast <= 0) return 1;
    if (object.timber)
        return std::clamp(1 + object.grain.contrast * wood_tone(at_mm + object.noise_shift_mm, object.along,
                                                                object.grain.size_mm, object.seed),
                          0.2f, 1.8f);
    const glm::vec3 p = grain_place(object, at_mm);
    // Two octaves whose weights make a standard deviation of one.
    const float n = (0.8f * noise_value(p, object.seed) + 0.6f * noise_value(p * 2.7f, object.seed + 1)) /
                    kNoiseDeviation;
    return std::clamp(1 + object.grain.contrast * n, 0.2f, 1.8f);
}

/// `grain_scale` at eight places, the same to the bit; 1 in lanes that are not `fine`.
inline Floats grain_scales(const LaneArray<const Object*>& objects, const Vec3s& at_mm, const Floats& fine) {
    const auto place = [&](std::size_t k) { return glm::vec3(at_mm.x[k], at_mm.y[k], at_mm.z[k]); };
    constexpr int kFew = 3;  // are sooner asked one by one
    Ints noisy{}, alone{};
    int count = 0;
    for (std::size_t k = 0; k < kLanes; ++k) {
        if (!(fine[k] > 0) || objects[k]->grain.contrast <= 0) continue;
        (objects[k]->timber ? alone : noisy)[k] = -1;
        count += !objects[k]->timber;
    }
    if (count < kFew) alone |= noisy;
    Floats scale = broadcast(1);
    if (count >= kFew) {
        Vec3s p{};
        for (std::size_t k = 0; k < kLanes; ++k) {
            if (!noisy[k]) continue;
            const glm::vec3 at = grain_place(*objects[k], place(k));
            p.x[k] = at.x, p.y[k] = at.y, p.z[k] = at.z;
        }
        const Words seed = gather_words([&](std::size_t k) { return objects[k]->seed; });
        const Floats contrast = gather([&](std::size_t k) { return objects[k]->grain.contrast; });
        const Floats n = (0.8f * noise_values(p, seed) + 0.6f * noise_values(p * broadcast(2.7f), seed + 1)) /
                         kNoiseDeviation;
        scale = noisy ? min(max(1 + contrast * n, broadcast(0.2f)), broadcast(1.8f)) : scale;
    }
    for (std::size_t k = 0; k < kLanes; ++k)
        if (alone[k]) scale[k] = grain_scale(*objects[k], place(k));
    return scale;
}

/// Where eight rays meet the world. Lanes past the last ray repeat another one.
struct ShadingLanes {
    Vec3s at_mm;
    Vec3s geometric;  ///< unit, on the side the ray came from
    Vec3s normal;     ///< unit, shading, seen from the front by the ray
    LaneArray<const Object*> objects;
    LaneArray<const Surface*> surfaces;
    Floats base_scale;  ///< grain: factor on the base's reflectance
    Floats edge_mm;     ///< distance from the piece's edge; below 0 = as the whole face in the mean
};

/// Unit normals bent over their triangles, not yet turned towards the ray.
inline Vec3s smooth_normals(const World& world, const LaneArray<const Hit*>& hits) {
    const Floats u = gather([&](std::size_t k) { return hits[k]->u; });
    const Floats v = gather([&](std::size_t k) { return hits[k]->v; });
    const auto corner = [&](std::size_t c) {
        return unpack_normals(
            gather_words([&](std::size_t k) { return world.packed_normals[hits[k]->triangle].normals[c]; }));
    };
    return normalised(corner(0) * (1 - u - v) + corner(1) * u + corner(2) * v);
}

/// The surface of an object that an eye sees at a place: of slag, bare or glassy.
inline const Surface* seen_surface(const World& world, const Object& object, const glm::vec3& at_mm) {
    if (object.glassy_surface == kNone) return &world.surfaces[object.surface];
    const glm::vec3 p = (at_mm + object.noise_shift_mm) / object.glassy_patch_mm;
    const float patch = noise_value(p, object.seed) + 0.6f * noise_value(p * 2.3f, object.seed + 1) +
                        0.45f * noise_value(p * 6.1f, object.seed + 2);
    const bool glassy = patch > object.glassy_threshold;
    return &world.surfaces[glassy ? object.glassy_surface : object.surface];
}

/// Distance of a hit from the outline of its piece, mm. The object has edges.
inline float edge_of(const World& world, const Object& object, const Hit& hit) {
    const auto& c = world.edges[object.edges + (hit.triangle - object.first_triangle)].corners;
    const auto at = [&](std::size_t i) { return static_cast<float>(c[i]); };
    return (at(0) * (1 - hit.u - hit.v) + at(1) * hit.u + at(2) * hit.v) * (1 / PackedEdges::kPerMm);
}

/// Gradient of the distance that a triangle's corners tell, in its plane; 0 of a sliver.
inline glm::vec3 edge_gradient(const World& world, const Object& object, const Hit& hit) {
    const auto& c = world.edges[object.edges + (hit.triangle - object.first_triangle)].corners;
    const glm::uvec3& t = world.triangles[hit.triangle];
    const glm::vec3 a = world.positions_mm[t.y] - world.positions_mm[t.x],
                    b = world.positions_mm[t.z] - world.positions_mm[t.x];
    const auto beyond_first = [&](std::size_t i) {
        return (static_cast<float>(c[i]) - static_cast<float>(c[0])) * (1 / PackedEdges::kPerMm);
    };
    const float da = beyond_first(1), db = beyond_first(2);
    const float aa = glm::dot(a, a), ab = glm::dot(a, b), bb = glm::dot(b, b), det = aa * bb - ab * ab;
    if (!(det > 1e-6f * aa * bb)) return glm::vec3(0);
    return ((da * bb - db * ab) * a + (db * aa - da * ab) * b) * (1 / det);
}

/// Puts an object's markings on one of eight hits that is shaded as an eye sees it.
inline void mark(const World& world, const Object& object, const Hit& hit, std::size_t k,
                 const Vec3s& direction, ShadingLanes& s) {
    const auto lane = [k](const Vec3s& v) { return glm::vec3(v.x[k], v.y[k], v.z[k]); };
    MarkedHit at{lane(s.at_mm), lane(direction), lane(s.normal)};
    if (object.edges != kNone && object.piece == 0) {
        at.edge_mm = s.edge_mm[k] - PackedEdges::kUnder_mm;
        at.inward = edge_gradient(world, object, hit);
        s.edge_mm[k] = -1;
    }
    const MarkedLook look = marked_look(world, object, at);
    if (look.surface != &world.surfaces[object.surface]) s.surfaces[k] = look.surface;
    s.base_scale[k] = std::min(s.base_scale[k] * look.scale, s.surfaces[k]->max_base_scale);
    s.normal.x[k] = look.normal.x, s.normal.y[k] = look.normal.y, s.normal.z[k] = look.normal.z;
}

/// `fine`, above 0 in lanes shaded as an eye sees them, with grain, patches and sharp faces; the others are
/// shaded as light meets them that a dull surface has scattered before.
inline ShadingLanes shading_at(const World& world, const LaneArray<const Hit*>& hits, const Vec3s& from_mm,
                               const Vec3s& direction, const Floats& fine) {
    ShadingLanes s;
    s.at_mm = from_mm + direction * gather([&](std::size_t k) { return hits[k]->distance_mm; });
    s.geometric =
        normalised(gather3([&](std::size_t k) -> const glm::vec3& { return hits[k]->geometric_normal; }));
    s.normal = smooth_normals(world, hits);
    s.geometric = select(dot(s.geometric, direction) > 0, -s.geometric, s.geometric);
    s.normal = select(dot(s.normal, s.geometric) < 0, -s.normal, s.normal);
    // A shading normal that faces away at a silhouette is bent back until the ray just sees its front.
    constexpr float kLeastCosine = 1e-2f;
    const Floats lacking = max(kLeastCosine + dot(s.normal, direction), Floats{});
    if (any(lacking > 0))
        s.normal = select(lacking > 0, normalised(s.normal - direction * lacking), s.normal);

    for (std::size_t k = 0; k < kLanes; ++k)
        s.objects[k] = &world.objects[world.packed_normals[hits[k]->triangle].object];
    s.base_scale = grain_scales(s.objects, s.at_mm, fine);
    s.edge_mm = broadcast(-1);
    for (std::size_t k = 0; k < kLanes; ++k) {
        const Object& object = *s.objects[k];
        if (fine[k] > 0) {
            s.surfaces[k] = seen_surface(world, object, {s.at_mm.x[k], s.at_mm.y[k], s.at_mm.z[k]});
            s.base_scale[k] = std::min(s.base_scale[k], s.surfaces[k]->max_base_scale);
            if (object.edges != kNone) s.edge_mm[k] = edge_of(world, object, *hits[k]);
            if (object.marks != kNone) mark(world, object, *hits[k], k, direction, s);
        } else {
            s.surfaces[k] = &world.surfaces[object.roughened_surface];
        }
    }
    return s;
}

}  // namespace rakelight
