#include "output/preview/render_in_bands.h"

#include <algorithm>
#include <chrono>
#include <cmath>

#include "output/film/film_join.h"

namespace rakelight {

namespace {

constexpr int kTileRows = 16;      // of a tile, see renderer/tile.h: a band cuts none
constexpr double kBand_s = 4;      // what a band should take
constexpr double kMostGrowth = 4;  // from one band to the next, the first being a guess

double now_s() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

// Rows of a band after one of `rows` that took `seconds`.
int next_height(int rows, double seconds) {
    const double growth = std::clamp(kBand_s / std::max(seconds, 1e-3), 0.25, kMostGrowth);
    return std::max(1, static_cast<int>(std::lround(rows * growth / kTileRows))) * kTileRows;
}

}  // namespace

Film render_in_bands(const BegunPlace& place, const BandWork& work) {
    Film whole;
    int next = work.rows.first_row;
    if (std::optional<Film> begun = begun_film(place, work.rows)) {
        whole = std::move(*begun);
        next = whole.rows.end_row;
        if (work.began) work.began(next);
    }
    int kept = next;
    int height = kTileRows;
    double saved_s = now_s();
    const auto keep = [&] {
        if (next > kept) keep_rows(place, whole, {kept, next});
        kept = next;
        saved_s = now_s();
    };
    while (next < work.rows.end_row) {
        const int end = std::min(work.rows.end_row, (next / kTileRows) * kTileRows + height);
        const double began_s = now_s();
        try {
            const Film band = work.trace({next, end});
            if (whole.pixel_count() == 0) whole = blank_like(band, work.rows);
            copy_rows(whole, band);
        } catch (...) {
            keep();
            throw;
        }
        height = next_height(end - next, now_s() - began_s);
        next = end;
        whole.rows = {work.rows.first_row, end};
        if (next < work.rows.end_row && now_s() - saved_s >= work.save_every_s) keep();
    }
    whole.rows = work.rows;
    return whole;
}

}  // namespace rakelight
