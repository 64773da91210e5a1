#include "output/preview/render_kept.h"

#include <fmt/format.h>

#include "output/preview/picture_notes.h"
#include "output/system/interrupt.h"
#include "output/system/progress.h"
#include "renderer/render.h"
#include "scene/model/layout.h"

namespace rakelight {

Film render_kept(const World& world, const Bvh& bvh, const Layout& layout, const Picture& picture,
                 const KeptRender& how, const BegunPlace& place) {
    Progress progress(picture.name, progress_kind(stderr, how.quiet));
    const double all_rows = how.rows.end_row - how.rows.first_row;
    BandWork work;
    work.rows = how.rows;
    work.save_every_s = how.save_every_s;
    work.began = [&](int until_row) {
        fmt::print(stderr, "Note: {} goes on from row {}\n", place.stem, until_row + 1);
    };
    work.trace = [&](const RowRange& band) {
        RenderOptions options;
        options.threads = how.threads;
        options.rows = band;
        options.card_cd_per_m2 = card_cd_per_m2(place.notes);
        options.progress = [&](double share) {
            const double done = band.first_row - how.rows.first_row + share * (band.end_row - band.first_row);
            progress.show(done / all_rows);
        };
        options.cancelled = interrupted;
        return render(world, bvh, layout, picture, options);
    };
    try {
        return render_in_bands(place, work);
    } catch (const Cancelled&) {
        progress.clear();
        if (const int until_row = begun_until(place, how.rows.first_row); until_row > how.rows.first_row)
            fmt::print(stderr, "Note: {} is kept up to row {}; the same command goes on from there\n",
                       place.stem, until_row);
        throw;
    }
}

}  // namespace rakelight
