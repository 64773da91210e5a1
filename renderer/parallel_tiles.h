// The parallel loop over the tiles of a film, by as many threads as there are.
#pragma once

#include <functional>
#include <vector>

#include "renderer/render.h"
#include "renderer/tile_samples.h"

namespace rakelight {

/// Tiles that hold `film.rows`, row by row.
std::vector<Tile> tiles_of(const Film& film);

/// Does `work` on each of so many tiles, by its number, in no order. Heeds threads and progress of `options`.
/// \throws Cancelled when `options.cancelled` said so.
void parallel_tiles(std::size_t tiles, const RenderOptions& options,
                    const std::function<void(std::size_t number)>& work);

}  // namespace rakelight
