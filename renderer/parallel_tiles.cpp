#include "renderer/parallel_tiles.h"

#include <tbb/blocked_range.h>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

#include <atomic>
#include <mutex>

#include "renderer/flush_denormals.h"

namespace rakelight {

std::vector<Tile> tiles_of(const Film& film) {
    std::vector<Tile> tiles;
    for (int top = film.rows.first_row / kTileSize * kTileSize; top < film.rows.end_row; top += kTileSize)
        for (int left = 0; left < film.width; left += kTileSize) tiles.push_back(tile_at(film, left, top));
    return tiles;
}

void parallel_tiles(std::size_t tiles, const RenderOptions& options,
                    const std::function<void(std::size_t number)>& work) {
    std::atomic<bool> stopped = false;
    std::mutex telling;
    double done = 0;
    tbb::task_arena arena(options.threads > 0 ? options.threads : tbb::task_arena::automatic);
    arena.execute([&] {
        tbb::parallel_for(
            tbb::blocked_range<std::size_t>(0, tiles, 1),
            [&](const auto& range) {
                const FlushDenormals flush;
                for (std::size_t t = range.begin(); t != range.end(); ++t) {
                    if (stopped) return;
                    work(t);
                    const std::scoped_lock lock(telling);
                    if (options.cancelled && options.cancelled()) stopped = true;
                    if (options.progress) options.progress(++done / static_cast<double>(tiles));
                }
            },
            tbb::simple_partitioner());
    });
    if (stopped) throw Cancelled{};
}

}  // namespace rakelight
