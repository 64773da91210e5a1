// From a world and a wanted picture to a film of physical luminance.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "renderer/bvh.h"
#include "renderer/camera.h"
#include "renderer/film.h"
#include "renderer/lens.h"
#include "scene/model/views.h"
#include "scene/world/world.h"

namespace rakelight {

struct Layout;

struct RenderOptions {
    int threads = 0;                       ///< 0 = all the machine has
    std::optional<RowRange> rows;          ///< only these rows; none = the whole picture
    std::optional<int> most_samples;       ///< instead of the picture's own
    std::optional<double> error;           ///< instead of the picture's own
    std::optional<double> card_cd_per_m2;  ///< grey_card_cd_per_m2 of its lamps; none = metered
    std::optional<Camera> camera;          ///< instead of that of the picture's viewpoint
    Lens lens;                             ///< a point unless told
    /// Paths end by chance only when less than 1 / this of their light is left. A lone path that is kept
    /// carries so much: beside a window 1 shows it as a stray bright dot. More takes longer.
    float patience = 1;
    bool mirrored = false;
    bool footprints = true;  ///< see footprint.h; none = glints as sharp as they are, and grainier
    std::function<void(double share)> progress;  ///< called from any worker, never two at a time; share 0..1
    std::function<bool()> cancelled;             ///< asked between tiles; true stops the work
};

/// Renders a picture. The result depends on world, layout and picture alone: not on threads, nor on how rows
/// are split between calls. Sampling goes on tile by tile, in each most where it is noisiest (blocks.h),
/// until the mean relative standard error of a tile, from the scatter of batches (batches.h), is below the
/// wanted error, where errors are taken relative to a pixel's luminance plus a tenth of that of a grey card
/// on the panel; and the same for each lamp group alone, but that one which gives less than a tenth of the
/// light counts as if it gave a tenth (tile_error.h). \throws std::invalid_argument when the picture names a
/// viewpoint or lamp that the layout lacks;
///         Cancelled when `cancelled` said so.
Film render(const World& world, const Bvh& bvh, const Layout& layout, const Picture& picture,
            const RenderOptions& options = {});

/// The work was stopped on request.
struct Cancelled {};

/// Lamps of a layout that a picture switches on (all when it names none), dimmed to black ones left out.
std::vector<Emitter> lamps_of_picture(const World& world, const Layout& layout, const Picture& picture);

}  // namespace rakelight
