#include "output/preview/render_kept.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <optional>

#include "output/film/begun_passes.h"
#include "output/preview/picture_notes.h"
#include "output/system/interrupt.h"
#include "output/system/progress.h"
#include "renderer/passes.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

constexpr double kMostPasses_bytes = 400e6;
constexpr double kUnseen_s = 1;       // of passes: nobody looks at a picture that is about to be done
constexpr double kKeepingCosts = 20;  // times what keeping takes lie between one and the next

double now_s() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

Film in_bands(const World& world, const Bvh& bvh, const Layout& layout, const Picture& picture,
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

// Passes that are kept now and then, also in the midst of one.
class KeptPasses {
  public:
    KeptPasses(const World& world, const Bvh& bvh, const Layout& layout, const Picture& picture,
               const KeptRender& how, const BegunPlace& place)
        : how_(how), place_(place), progress_(picture.name, progress_kind(stderr, how.quiet)) {
        RenderOptions options;
        options.threads = how.threads;
        options.card_cd_per_m2 = card_cd_per_m2(place.notes);
        options.progress = [this](double share) { progress_.show(share); };
        options.cancelled = [this] { return interrupted() || stopped() || now_s() >= keep_at_s_; };
        passes_.emplace(world, bvh, layout, picture, std::move(options));
        if (take_up_passes(place, *passes_))
            fmt::print(stderr, "Note: {} goes on from {:.0f} %\n", place.stem, 100 * passes_->share());
    }

    Film trace() {
        const double began_s = now_s();
        keep_at_s_ = began_s + how_.save_every_s;
        while (!passes_->is_done()) try {
                passes_->go_on();
                if (how_.seen && !passes_->is_done() && now_s() - began_s > kUnseen_s)
                    how_.seen(passes_->film(), passes_->samples());
            } catch (const Cancelled&) {
                if (stopped() && !interrupted()) throw;
                keep();
                if (interrupted()) throw;
            }
        return passes_->film();
    }

  private:
    bool stopped() const { return how_.stop && how_.stop(); }

    void keep() {
        const double began_s = now_s();
        progress_.clear();
        keep_passes(place_, *passes_);
        if (interrupted())
            fmt::print(stderr,
                       "Note: {} is kept as far as it is traced; the same command goes on from there\n",
                       place_.stem);
        const double now = now_s();
        keep_at_s_ = now + std::max(how_.save_every_s, kKeepingCosts * (now - began_s));
    }

    const KeptRender& how_;
    const BegunPlace& place_;
    Progress progress_;
    double keep_at_s_ = 0;
    std::optional<Passes> passes_;
};

}  // namespace

Film render_kept(const World& world, const Bvh& bvh, const Layout& layout, const Picture& picture,
                 const KeptRender& how, const BegunPlace& place) {
    const bool whole = how.rows == RowRange{0, picture.height_px};
    if (!whole || Passes::bytes(picture, world.groups.size()) > kMostPasses_bytes)
        return in_bands(world, bvh, layout, picture, how, place);
    return KeptPasses(world, bvh, layout, picture, how, place).trace();
}

}  // namespace rakelight
