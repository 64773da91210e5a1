// Where the cells of a sample board are traced, with all that they can share: see render.h.
#pragma once

#include <array>
#include <memory>
#include <string>
#include <vector>

#include "output/board/layouts.h"
#include "output/board/render.h"

namespace rakelight {

/// A cell's light before it is printed.
struct CellFilm {
    Film film;                                           ///< one group: the cell's lamps mixed; no features
    std::array<SeenLight, kSeenKinds> seen;              ///< likewise
    std::shared_ptr<const std::vector<Seen>> of_pixels;  ///< see CellLight
    Xyz illuminance;                                     ///< on the panel, lux
};

/// The light of every cell, in their order. `field`: which the board is about, empty = all. Adds to `work`.
/// \throws Cancelled.
std::vector<CellFilm> trace_cells(const std::vector<CellLayout>& cells, const std::string& field,
                                  const BoardOptions& options, BoardWork& work);

}  // namespace rakelight
