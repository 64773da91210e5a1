#include "renderer/passes.h"

#include <tbb/parallel_for.h>

#include <algorithm>

#include "renderer/parallel_tiles.h"

namespace rakelight {

Passes::Passes(const World& world, const Bvh& bvh, const Layout& layout, const Picture& picture,
               RenderOptions options)
    : world_(world),
      bvh_(bvh),
      options_(std::move(options)),
      settings_(picture_settings(world, bvh, layout, picture, options_)),
      lights_(settings_.lamps),
      film_(blank_film(world, picture, {0, picture.height_px})),
      places_(tiles_of(film_)) {
    if (options_.mirrored)
        film_.mirrored.assign(film_.groups.size(), std::vector<float>(film_.pixel_count(), 0.0f));
    for (const Tile& tile : places_) tiles_.emplace_back(tile, film_);
}

double Passes::bytes(const Picture& picture, std::size_t groups) {
    const std::size_t a_group = sizeof(glm::dvec3) + (groups > 1 ? sizeof(BatchSums) : 0);
    return static_cast<double>(picture.width_px) * picture.height_px *
           static_cast<double>(sizeof(PixelSum) + groups * a_group);
}

int Passes::samples() const {
    int fewest = settings_.tile.most_samples;
    for (const TileLight& tile : tiles_)
        if (!tile.sampled.is_done) fewest = std::min(fewest, tile.sampled.samples);
    return fewest;
}

bool Passes::is_done() const {
    return std::ranges::all_of(tiles_, [](const TileLight& tile) { return tile.sampled.is_done; });
}

double Passes::share() const {
    const double most = settings_.tile.most_samples;
    double sum = 0;
    for (const TileLight& tile : tiles_) sum += tile.sampled.is_done ? 1 : tile.sampled.samples / most;
    return sum / static_cast<double>(tiles_.size());
}

void Passes::go_on() {
    const int until = std::max(kSamplesARound, 2 * samples());
    std::vector<std::size_t> left;
    for (std::size_t t = 0; t < tiles_.size(); ++t)
        if (!tiles_[t].sampled.is_done && tiles_[t].sampled.samples < until) left.push_back(t);
    const double before = share(), most = settings_.tile.most_samples;
    double pass = 0;
    for (const std::size_t t : left) pass += std::min<double>(until, most) - tiles_[t].sampled.samples;
    pass /= most * static_cast<double>(tiles_.size());
    RenderOptions options = options_;
    if (options_.progress)
        options.progress = [&](double share_of_pass) { options_.progress(before + share_of_pass * pass); };
    const SceneView<Bvh> scene{world_, bvh_, lights_};
    parallel_tiles(left.size(), options, [&](std::size_t i) {
        trace_tile(scene, settings_.tile, film_, places_[left[i]], until, tiles_[left[i]]);
    });
}

Film Passes::film() const {
    Film film = film_;
    tbb::parallel_for(std::size_t{0}, tiles_.size(),
                      [&](std::size_t t) { write_tile(places_[t], tiles_[t], film); });
    return film;
}

void Passes::each_part(const std::function<void(std::span<std::byte>)>& take) {
    for (TileLight& tile : tiles_) {
        take(std::as_writable_bytes(std::span(&tile.sampled.samples, 1)));
        take(std::as_writable_bytes(std::span(&tile.sampled.is_done, 1)));
        take(std::as_writable_bytes(std::span(tile.sampled.pixels)));
        take(std::as_writable_bytes(std::span(tile.sampled.blocks)));
        take(std::as_writable_bytes(tile.sampled.by_group.sums()));
        take(std::as_writable_bytes(std::span(tile.xyz)));
        take(std::as_writable_bytes(std::span(tile.mirrored)));
    }
}

}  // namespace rakelight
