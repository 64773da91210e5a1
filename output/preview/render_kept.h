// A picture rendered so that it can be interrupted: with its progress shown, and its rows kept.
#pragma once

#include "output/preview/render_in_bands.h"
#include "renderer/bvh.h"
#include "scene/model/views.h"
#include "scene/world/world.h"

namespace rakelight {

struct Layout;

struct KeptRender {
    RowRange rows;             ///< wanted, within the picture
    int threads = 0;           ///< 0 = all the machine has
    double save_every_s = 20;  ///< rows are kept at least so often
    bool quiet = false;        ///< show no progress
};

/// Renders rows of a picture, whose light `place.notes` tell (`notes_of`), going on from those that are kept
/// at `place`; says so on stderr, and how far they are kept when a signal stops it. \throws Cancelled then;
/// OutputError when rows cannot be kept; as `render`.
Film render_kept(const World& world, const Bvh& bvh, const Layout& layout, const Picture& picture,
                 const KeptRender& how, const BegunPlace& place);

}  // namespace rakelight
