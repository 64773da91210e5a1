// One direction at a time out of the lanes in which paths are shaded, for tests that go over what a surface
// does. All lanes must hold the same surface.
#pragma once

#include "materials/optics/surface_lanes.h"

namespace rakelight {

/// BRDF times cosine of `in`, per steradian.
struct Lobes {
    SampledSpectrum base;
    float interface = 0;
};

/// Both lobes; nothing below the surface.
inline Lobes evaluate(const SurfaceLanes& bsdf, const glm::vec3& in) {
    if (!(in.z > 0)) return {};
    const LobeLanes lobes = bsdf.evaluate(broadcast3(in));
    return {bsdf.base(0, lobes.base), lobes.interface[0]};
}

/// A sampled continuation.
struct Bounce {
    glm::vec3 in{0, 0, 1};
    Lobes weight;  ///< both lobes over the density with which `in` was taken
    bool mirror = false;
    bool from_interface = false;
};

/// Takes a direction; false (the path ends) when it falls below the surface. `u` in [0, 1)^3: the first
/// chooses the lobe.
inline bool sample(const SurfaceLanes& bsdf, const glm::vec3& u, Bounce& b) {
    const SurfaceLanes::Taken taken = bsdf.sample(broadcast(u.x), broadcast(u.y), broadcast(u.z));
    b.in = {taken.in.x[0], taken.in.y[0], taken.in.z[0]};
    b.mirror = taken.mirror[0] != 0;
    b.from_interface = taken.from_interface[0] != 0;
    if (!(b.in.z > 0)) return false;
    if (b.mirror) {
        b.weight = {SampledSpectrum(), bsdf.mirror_weight()[0]};
        return true;
    }
    const LobeLanes lobes = bsdf.evaluate(taken.in);
    const float density = lobes.density[0];
    b.weight = {bsdf.base(0, lobes.base) * (1 / density), lobes.interface[0] / density};
    return density > 0;
}

}  // namespace rakelight
