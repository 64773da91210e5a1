// Light paths as in path.h that carry the reflectances of several worlds at once, see alike.h. Until a path
// meets something that differs between them it carries one.
#pragma once

#include "renderer/alike.h"
#include "renderer/path.h"

namespace rakelight {

struct AlikePath : Path {
    bool split = false;
    Seen seen = Seen::other;
    std::array<Bands, kMostAlike> own;           ///< throughput of each, once split
    std::array<float, kMostAlike> own_mirrored;  ///< and of each: Path::mirrored
};

/// Where light is added, XYZ in cd/m2. What paths bring before they split counts to all pictures.
struct AlikeSums {
    std::size_t pictures = 0;
    std::size_t groups = 0;
    std::vector<glm::dvec3> shared;              ///< [slot][group]
    std::vector<glm::dvec3> own;                 ///< [slot][picture][group]
    std::vector<glm::dvec3> seen, seen_by_body;  ///< [Seen][picture + 1][group]; picture 0: shared
};

namespace path_detail {

struct AlikeStage {
    const World& world;
    const AlikeSurfaces& surfaces;
    const Rays& rays;
    const LampField& lamps;
    std::span<const Seen> kinds;  ///< [thing]
};

/// Light that a lamp gives, in each picture if the path has split.
struct AskedAlike {
    std::array<glm::vec3, kMostAlike> xyz;
    std::array<float, kMostAlike> mirrored;
    std::uint32_t path = 0;
    std::uint32_t group = 0;
    bool split = false;
};

}  // namespace path_detail

/// Follows paths to their ends. At most kMostPaths.
void trace_alike(const path_detail::AlikeStage& stage, std::span<AlikePath> paths, AlikeSums& sums);

}  // namespace rakelight
