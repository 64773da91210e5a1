// What a layout's picture asks of its tiles, and the film it is kept on.
#pragma once

#include <vector>

#include "renderer/film.h"
#include "renderer/render.h"
#include "renderer/tile_samples.h"

namespace rakelight {

struct PictureSettings {
    std::vector<Emitter> lamps;  ///< that shine
    TileSettings tile;
};

/// \throws std::invalid_argument as `render`.
PictureSettings picture_settings(const World& world, const Bvh& bvh, const Layout& layout,
                                 const Picture& picture, const RenderOptions& options);

/// A film of nothing, of these rows.
Film blank_film(const World& world, const Picture& picture, const RowRange& rows);

}  // namespace rakelight
