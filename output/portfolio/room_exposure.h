// How bright a picture of the place is printed: between what the work and what its wall want, so that the
// room reads as a lit room and the work still glows in it.
#pragma once

#include "output/film/notes.h"
#include "renderer/bvh.h"
#include "scene/world/world.h"

namespace rakelight {

struct Layout;

/// Illuminance of the panel's wall at standing eye height, lux, at places beside the works.
struct WallLight {
    double mean_lux = 0;  ///< geometric
    double most_lux = 0;
};
/// By all lights of the world.
WallLight wall_light(const World& world, const Bvh& bvh, const Layout& layout);

/// The illuminance under which a grey card prints as a grey card: so far from the wall's towards the work's,
/// by stops, that the work stands out; never more than `kMostOver` times below the work's, nor than
/// `kMostOverWall` times below the brightest place of the wall. All above 0.
double exposed_lux(const WallLight& wall, double work_lux);

inline constexpr double kMostOver = 2.2, kMostOverWall = 1.4;

}  // namespace rakelight
