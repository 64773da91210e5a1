// The settings of a picture's tiles, as layout and options ask, and the blank film it is rendered to.
#pragma once

#include <vector>

#include "renderer/film.h"
#include "renderer/render.h"
#include "renderer/tile_samples.h"
#include "scene/model/views.h"

namespace rakelight {

struct Layout;

struct PictureSettings {
    std::vector<Emitter> lamps;  ///< that shine
    TileSettings tile;
};

/// Settings of a picture of `layout`; meters the panel unless the options say the grey card. Thread-safe.
/// \throws std::invalid_argument as `render`.
PictureSettings picture_settings(const World& world, const Bvh& bvh, const Layout& layout,
                                 const Picture& picture, const RenderOptions& options);

/// A film of nothing, of these rows.
Film blank_film(const World& world, const Picture& picture, const RowRange& rows);

}  // namespace rakelight
