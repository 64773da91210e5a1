// Little worlds built by hand, whose light is known in closed form.
#pragma once

#include <memory>

#include "materials/colour/illuminants.h"
#include "materials/maths/basis.h"
#include "renderer/bvh.h"
#include "renderer/path.h"
#include "scene/room/joinery.h"
#include "scene/world/world.h"

namespace rakelight {

inline World empty_world() {
    World world;
    world.interfaces = std::make_shared<InterfaceTables>();
    world.groups = {"light"};
    return world;
}

/// Matte (Lambertian) stuff of one reflectance, no face.
inline Material matte(float reflectance) {
    Material m;
    m.name = "matte";
    m.reflectance = SampledSpectrum(reflectance);
    return m;
}

/// A smooth or rough face of `index` over a body of one reflectance.
inline Material faced(float index, float roughness, float reflectance) {
    Material m = matte(reflectance);
    m.index = index;
    m.roughness = roughness;
    return m;
}

inline Object object_of(World& world, const Material& material) {
    Object object;
    object.surface =
        add_surface(world, make_surface(material, 6, SampledSpectrum(0.0f), 1, *world.interfaces));
    object.roughened_surface =
        add_surface(world, make_surface(roughened(material), 6, SampledSpectrum(0.0f), 1, *world.interfaces));
    object.material = 1;
    return object;
}

/// A lamp of even luminance.
inline Emitter lamp_of(const EmitterShape& shape, const glm::vec3& centre_mm, const glm::vec3& axis,
                       float cd_per_m2) {
    Emitter e;
    e.shape = shape;
    e.centre_mm = centre_mm;
    const Basis basis(axis);
    e.u = basis.x;
    e.v = basis.y;
    e.axis = axis;
    e.peak_cd_per_m2 = cd_per_m2;
    e.weights = tristimulus_weights(*find_illuminant("D65"));
    return e;
}

/// A square in the plane z = 0 round the origin, facing +z.
inline Mesh floor_square(double side_mm) {
    return rectangle_mesh({-side_mm / 2, -side_mm / 2, 0}, {side_mm, 0, 0}, {0, side_mm, 0});
}

/// Mean XYZ over paths along one eye ray, cd/m2.
inline glm::dvec3 seen_xyz(const World& world, const glm::vec3& from_mm, const glm::vec3& direction,
                           int paths) {
    const Bvh bvh(world);
    const LightSampler lamps(world.emitters);
    const SceneView<Bvh> scene{world, bvh, lamps};
    std::vector<glm::dvec3> total(world.groups.size(), glm::dvec3(0));
    for (int i = 0; i < paths; ++i) {
        Path path{
            .from_mm = from_mm, .direction = direction, .sampler = Sampler(1, static_cast<std::uint32_t>(i))};
        trace_paths(scene, std::span(&path, 1), total);
    }
    return total[0] / double(paths);
}

inline double seen_cd_per_m2(const World& world, const glm::vec3& from_mm, const glm::vec3& direction,
                             int paths) {
    return seen_xyz(world, from_mm, direction, paths).y;
}

}  // namespace rakelight
