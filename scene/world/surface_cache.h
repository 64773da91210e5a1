// The cache of a world's surfaces: made on demand and shared by all objects that are alike, as tone and
// thickness come in small steps.
#pragma once

#include <map>
#include <optional>
#include <tuple>

#include "materials/optics/material.h"
#include "scene/model/piece.h"
#include "scene/world/world.h"

namespace rakelight {

struct Layout;

class SurfaceCache {
  public:
    /// `world` and `layout` must outlive the cache. The layout's materials are added to the world's.
    SurfaceCache(World& world, const Layout& layout);

    /// An object of a material without outline. `number`: index in the layout's stock, tints counted on after
    /// it; `material`: that one, or the same tumbled. `piece`: whose bed, and filling at its sides, show
    /// in translucent material; null = nothing behind (black).
    Object object(std::size_t number, const Material& material, double thickness_mm, const Piece* piece,
                  std::uint64_t seed, double tone_deviate);

    /// An object of a material of the layout's stock, as thick as usual.
    Object plain(std::uint32_t stock, std::uint64_t seed);
    /// The same, so many steps of its tone spread off.
    Object plain(std::uint32_t stock, std::uint64_t seed, double tone_deviate);

    /// An object of one of the layout's tints.
    Object filling(std::uint32_t tint, std::uint64_t seed);

  private:
    struct Made {
        std::uint32_t surface = 0;
        std::uint32_t glassy = kNone;
        std::uint32_t roughened = 0;
        std::uint32_t marks = kNone;
    };
    /// Markings of a material, and how much of a face shows each of its looks.
    struct Marked {
        std::uint32_t marks = kNone;
        std::vector<float> shares;
    };
    const Marked& marked(std::size_t number, const Material& material, double washed);
    Made make(const Marked& marked, const Material& material, double thickness_mm,
              const SampledSpectrum& behind, double tone, const SideWall& side);

    World& world_;
    const Layout& layout_;
    std::size_t first_material_;  // of this layout in World::materials
    bool coarse_ = false;         // few widths of pieces are told apart, and no second colours
    /// By material, bed, filling, width and bonded height of the piece, steps of tone and thickness,
    /// roughness.
    using Key = std::tuple<std::size_t, std::optional<std::uint32_t>, std::optional<std::uint32_t>, double,
                           double, int, int, float>;
    std::map<Key, Made> made_;
    std::map<std::tuple<std::size_t, double, float>, Marked> marked_;  ///< by material, wash and roughness
};

/// What a piece of the layout is, but for its mesh.
Object piece_object(SurfaceCache& cache, const Layout& layout, const Piece& piece);

}  // namespace rakelight
