// A picture traced in bands of rows, from the top, so that an interruption costs seconds and not the night:
// rows that are done are kept on disk, and the next run goes on below them, to the same bits.
#pragma once

#include <functional>

#include "output/film/begun_film.h"

namespace rakelight {

struct BandWork {
    RowRange rows;                               ///< wanted, within the picture
    std::function<Film(const RowRange&)> trace;  ///< a film of these rows; may throw to stop the work
    std::function<void(int until_row)> began;    ///< told once, where rows before `until_row` were on disk
    double save_every_s = 20;                    ///< rows are kept at least so often; 0 = after every band
};

/// The film of all wanted rows. When `trace` throws, the rows before are kept and the exception goes on.
/// Bands are whole tiles high and take a few seconds each; how the picture is cut into them does not change
/// it. The caller forgets kept rows once the picture is delivered. \throws OutputError when rows cannot be
/// kept.
Film render_in_bands(const BegunPlace& place, const BandWork& work);

}  // namespace rakelight
