// A picture rendered so that it can be interrupted: with its progress shown, and what is done of it kept.
#pragma once

#include <functional>

#include "output/preview/render_in_bands.h"
#include "renderer/bvh.h"
#include "scene/model/views.h"
#include "scene/world/world.h"

namespace rakelight {

struct Layout;

struct KeptRender {
    RowRange rows;             ///< wanted, within the picture
    int threads = 0;           ///< 0 = all the machine has
    double save_every_s = 20;  ///< what is done is kept at least so often
    bool quiet = false;        ///< show no progress
    /// Told of a whole picture as it stands after a pass over all of it, but not the last: samples of each
    /// pixel that is not done. Not told in the first second.
    std::function<void(const Film& film, int samples)> seen;
    /// Asked between tiles of a whole picture: true stops it as a signal does, but keeps nothing. May be
    /// empty.
    std::function<bool()> stop;
};

/// Renders rows of a picture, whose light `place.notes` tell (`notes_of`), going on from what is kept
/// at `place`; says so on stderr, and how far it is kept when a signal stops it. A whole picture is traced in
/// passes over all of it, as long as they fit in some 400 MB; rows, and larger ones, in bands from the top.
/// The film is the same. \throws Cancelled then, or when `how.stop` says so; OutputError when nothing can be
/// kept; as `render`.
Film render_kept(const World& world, const Bvh& bvh, const Layout& layout, const Picture& picture,
                 const KeptRender& how, const BegunPlace& place);

}  // namespace rakelight
