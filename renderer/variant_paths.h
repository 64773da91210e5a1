// The payload of variants on shared paths (variants.h): light paths as in path.h that carry the reflectances
// of several worlds at once. Until a path meets something that differs between them it carries one.
#pragma once

#include "renderer/path.h"
#include "renderer/variants.h"

namespace rakelight {

/// What a path carries besides its own throughput, which is that of all pictures until it splits.
struct VariantPath {
    bool split = false;
    Seen seen = Seen::other;
    std::array<SampledSpectrum, kMostVariants> throughput;  ///< of each picture, once split
    std::array<float, kMostVariants> mirrored;              ///< and of each: Path::mirrored
};

/// Where light is added, XYZ in cd/m2. What paths splat before they split counts to all pictures.
struct VariantSums {
    std::size_t pictures = 0;
    std::size_t groups = 0;
    std::vector<glm::dvec3> shared;              ///< [slot][group]
    std::vector<glm::dvec3> own;                 ///< [slot][picture][group]
    std::vector<glm::dvec3> seen, seen_by_body;  ///< [Seen][picture + 1][group]; picture 0: shared
    std::array<double, kSeenKinds> rays{};       ///< [Seen], eye rays
    /// Luminance in the mean of the pictures of [path][group] of the wavefront, cd/m2; or empty.
    std::span<float> of_path;
};

/// The scene with several sets of materials.
struct VariantScene {
    SceneView<Bvh> scene;
    const VariantSurfaces& surfaces;
    std::span<const Seen> kinds;  ///< [object]
};

/// Follows paths to their ends. At most kMostPaths, and as many `parts` to carry with. `sums` are added to.
void trace_variants(const VariantScene& variants, std::span<Path> paths, std::span<VariantPath> parts,
                    VariantSums& sums);

}  // namespace rakelight
