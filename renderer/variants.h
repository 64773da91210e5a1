// Variants on shared paths: pictures of one place in several colours, all from the same light paths. Where
// worlds differ only in the bands of their surfaces (another grout, another bed), a path scatters alike in
// all of them: its rays, lamps and directions are followed once, and it carries the reflectances of each
// world. Each picture is the whole light of its own world, nothing is approximated; and since all are sampled
// by the same paths, their difference shows what was changed and hardly any noise.
#pragma once

#include <array>
#include <cstdint>
#include <glm/glm.hpp>
#include <span>
#include <vector>

#include "renderer/film.h"
#include "renderer/render.h"
#include "scene/model/views.h"
#include "scene/world/material_set.h"

namespace rakelight {

struct Layout;

/// Pictures from one set of paths; more make no sense of it, for memory's sake.
inline constexpr std::size_t kMostVariants = 16;

/// Whether paths scatter alike with two material sets of one world: interfaces, grain and kinds of base are
/// the same wherever they are seen, only bands differ.
bool can_share_paths(const MaterialSet& a, const MaterialSet& b);

/// Surfaces of several material sets under common numbers.
struct VariantSurfaces {
    std::vector<std::vector<Surface>> of;  ///< [set][number]
    std::vector<char> differs;             ///< [number]: not the same in all
    /// How many variants there are.
    std::size_t count() const { return of.size(); }
};

/// Gives `world` the objects of the first set, with surfaces numbered so that one number fits all of
/// them. 1 to kMostVariants sets that can share paths. Geometry is not touched: a `Bvh` over it stays good.
VariantSurfaces apply_variants(World& world, std::span<const MaterialSet> sets);

/// What an eye ray may meet first on a board.
enum class Seen : std::uint8_t {
    glass,  ///< a translucent piece: bed and grout show in it
    piece,  ///< any other
    joint,
    other
};
inline constexpr std::size_t kSeenKinds = 4;

/// What each object of a world is. Materials from number `first_tint` (from 0) on are fillings of joints.
std::vector<Seen> kinds_of_objects(const World& world, std::size_t first_tint);

/// Light that came by all eye rays which met one kind of object first, divided by their number.
struct SeenLight {
    double share = 0;                 ///< of all eye rays
    std::vector<glm::dvec3> xyz;      ///< [group], mean, cd/m2
    std::vector<glm::dvec3> by_body;  ///< the same without what the first interface mirrored
};

/// One picture of several.
struct VariantFilm {
    Film film;
    std::array<SeenLight, kSeenKinds> seen;  ///< [Seen]
};

/// Renders all the pictures. As `render`, but rows are always whole; sampling goes on tile by tile until the
/// mean of the pictures is good enough. `kinds`: what each object counts as, see kinds_of_objects.
/// \throws std::invalid_argument, Cancelled as `render`.
std::vector<VariantFilm> render_variants(const World& world, const VariantSurfaces& surfaces, const Bvh& bvh,
                                         const Layout& layout, const Picture& picture,
                                         std::span<const Seen> kinds, const RenderOptions& options = {});

}  // namespace rakelight
