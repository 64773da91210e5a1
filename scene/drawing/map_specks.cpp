// Small patches of a map go to their neighbours. Patches are found in two passes with disjoint sets
// (Rosenfeld and Pfaltz, "Sequential operations in digital picture processing", JACM 13(4), 1966).
#include <map>
#include <queue>
#include <stdexcept>
#include <tuple>
#include <utility>

#include "scene/drawing/map_colours.h"

namespace rakelight {
namespace {

constexpr std::size_t kMostPatches = 500'000;

class DisjointSets {
  public:
    explicit DisjointSets(std::size_t count) : parent_(count) {
        for (std::size_t i = 0; i < count; ++i) parent_[i] = static_cast<std::uint32_t>(i);
    }
    std::uint32_t root(std::uint32_t i) {
        while (parent_[i] != i) i = parent_[i] = parent_[parent_[i]];
        return i;
    }
    /// The set of b becomes part of that of a.
    void join(std::uint32_t a, std::uint32_t b) { parent_[root(b)] = root(a); }

  private:
    std::vector<std::uint32_t> parent_;
};

}  // namespace

std::size_t merge_specks(LabelMap& map, double least_pixels) {
    const auto width = static_cast<std::uint32_t>(map.width);
    const auto count = static_cast<std::uint32_t>(map.labels.size());
    DisjointSets sets(count);
    for (std::uint32_t i = 0; i < count; ++i) {
        if (i % width > 0 && map.labels[i] == map.labels[i - 1]) sets.join(i - 1, i);
        if (i >= width && map.labels[i] == map.labels[i - width]) sets.join(i - width, i);
    }
    std::vector<std::uint32_t> pixels(count, 0);  // of the patch, at its root
    std::size_t patches = 0;
    for (std::uint32_t i = 0; i < count; ++i)
        if (pixels[sets.root(i)]++ == 0) ++patches;
    if (patches > kMostPatches) throw std::length_error("too many patches");

    const auto small = [&](std::uint32_t root) { return pixels[root] < least_pixels; };
    std::map<std::uint32_t, std::map<std::uint32_t, std::uint32_t>> borders;  // of small patches, by root
    const auto meet = [&](std::uint32_t i, std::uint32_t j) {
        const std::uint32_t a = sets.root(i), b = sets.root(j);
        if (a == b) return;
        if (small(a)) ++borders[a][b];
        if (small(b)) ++borders[b][a];
    };
    for (std::uint32_t i = 0; i < count; ++i) {
        if (i % width > 0) meet(i - 1, i);
        if (i >= width) meet(i - width, i);
    }
    using Waiting = std::pair<std::uint32_t, std::uint32_t>;  // pixels, root
    std::priority_queue<Waiting, std::vector<Waiting>, std::greater<>> waiting;
    for (const auto& each : borders) waiting.emplace(pixels[each.first], each.first);
    std::size_t given = 0;
    while (!waiting.empty()) {
        const auto [size, speck] = waiting.top();
        waiting.pop();
        if (sets.root(speck) != speck || pixels[speck] != size || !small(speck)) continue;  // grown since
        std::map<std::uint32_t, std::uint32_t> now;
        for (const auto& [other, length] : borders[speck])
            if (const auto root = sets.root(other); root != speck) now[root] += length;
        if (now.empty()) continue;  // it is the whole map
        std::uint32_t into = now.begin()->first, longest = 0;
        for (const auto& [root, length] : now)
            if (length > longest) std::tie(into, longest) = std::pair(root, length);
        sets.join(into, speck);
        pixels[into] += size;
        if (const auto at = borders.find(into); at != borders.end()) {
            for (const auto& [root, length] : now)
                if (root != into) at->second[root] += length;
            waiting.emplace(pixels[into], into);
        }
        ++given;
    }
    const std::vector<std::uint8_t> before = map.labels;
    for (std::uint32_t i = 0; i < count; ++i) map.labels[i] = before[sets.root(i)];
    return given;
}

}  // namespace rakelight
