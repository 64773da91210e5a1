// Progressive refinement: a picture traced in passes over the whole frame, each of which gives every tile
// that is not fine enough more samples. Tiles stop as in `render`, and the last pass leaves the same film to
// the bit.
#pragma once

#include <functional>
#include <span>
#include <vector>

#include "renderer/picture_settings.h"
#include "renderer/render.h"
#include "renderer/tile.h"

namespace rakelight {

class Passes {
  public:
    /// Arguments and exceptions as of `render`; they must outlive the passes. `options.rows` is not heeded.
    Passes(const World& world, const Bvh& bvh, const Layout& layout, const Picture& picture,
           RenderOptions options);

    /// What passes over so large a picture with so many lamp groups keep in memory, in bytes.
    static double bytes(const Picture& picture, std::size_t groups);

    /// Samples that each pixel has, but for tiles that were done before.
    int samples() const;
    bool is_done() const;
    /// How far they are, 0..1, done tiles counting whole: at least that, as others may be done early.
    double share() const;

    /// Goes on until each pixel has twice as many samples as now, or 16, or its tile is done. \throws
    /// Cancelled when `options.cancelled` said so: tiles are then as far as they came, and another call goes
    /// on with them.
    void go_on();

    /// The film as it stands after a whole pass.
    Film film() const;

    /// All that a tile's samples have left so far, in pieces of plain memory: to be kept, and to be put back
    /// into passes over the same picture by the same program.
    void each_part(const std::function<void(std::span<std::byte>)>& take);

  private:
    const World& world_;
    const Bvh& bvh_;
    RenderOptions options_;
    PictureSettings settings_;
    LightSampler lights_;
    Film film_;
    std::vector<Tile> places_;
    std::vector<TileLight> tiles_;
};

}  // namespace rakelight
