#include "output/filter/alike.h"

#include <array>

namespace rakelight::filter {

namespace {

constexpr float kDamping = 0.1f;         // of the variance that differences are measured by
constexpr float kLeastRelative = 1e-6f;  // variance that anything has, of its light squared
constexpr float kColourCounts = 2;       // of the squared logarithm of a ratio of colours, nearly
constexpr float kPieceCounts = 3;        // of a piece beside what is none
constexpr int kRows = kTileRows + 2 * kPatch_px;
constexpr int kEights = kTileEights + 2;
constexpr int kPatch = (2 * kPatch_px + 1) * (2 * kPatch_px + 1);

// Of the pixels of a tile and round it.
using Distances = std::array<std::array<Floats, kEights>, kRows>;

// (1 - d/8)^8, which is exp(-d) nearly, and 0 from 8 on.
Floats falling(const Floats& d) {
    Floats t = max(1 - d * 0.125f, Floats{});
    t *= t;
    t *= t;
    return t * t;
}

void measure(const BodyLight& light, int left, int top, const Aside& aside, Distances& first,
             Distances& second) {
    for (int r = 0; r < kRows; ++r)
        for (int e = 0; e < kEights; ++e) {
            const int x = left + 8 * (e - 1), y = top + r - kPatch_px;
            const auto pair = [&](const Plane& plane, Floats& here, Floats& there) {
                here = plane.eight(x, y), there = plane.eight(x + aside.dx, y + aside.dy);
            };
            Floats v, w, a, b, c, d;
            pair(light.variance, v, w);
            pair(light.first, a, b);
            pair(light.second, c, d);
            const Floats expected = v + min(v, w);
            const Floats scale = 1 / (kDamping * (v + w) + kLeastRelative * (a * a + c * c) + 1e-12f);
            first[static_cast<std::size_t>(r)][static_cast<std::size_t>(e)] =
                ((a - b) * (a - b) - expected) * scale;
            second[static_cast<std::size_t>(r)][static_cast<std::size_t>(e)] =
                ((c - d) * (c - d) - expected) * scale;
        }
}

// The mean over patches round the eights of row `r` of the tile.
void patch_means(const Distances& of, int r, std::array<Floats, kTileEights>& means) {
    static_assert(kPatch_px == 1);
    const auto row = static_cast<std::size_t>(r);
    std::array<float, 8 * kEights> sums;
    for (std::size_t e = 0; e < kEights; ++e) {
        const Floats sum = of[row][e] + of[row + 1][e] + of[row + 2][e];
        __builtin_memcpy(&sums[8 * e], &sum, sizeof(sum));
    }
    for (std::size_t e = 0; e < kTileEights; ++e) {
        Floats before, here, after;
        __builtin_memcpy(&before, &sums[8 * e + 7], sizeof(before));
        __builtin_memcpy(&here, &sums[8 * e + 8], sizeof(here));
        __builtin_memcpy(&after, &sums[8 * e + 9], sizeof(after));
        means[e] = max(before + here + after, Floats{}) * (1.0f / kPatch);
    }
}

// How much less alike two places are for what is seen there: bodies of other colours, or a joint beside a
// piece, do not get the same light.
Floats unlike(const BodyLight& light, const Floats& colour, int x, int y, const Aside& aside) {
    const Floats own = light.colour[1].eight(x, y);
    const Floats colours = (own - colour) * (own - colour) / max(own * colour, broadcast(1e-9f));
    const Floats pieces = light.piece.eight(x, y) - light.piece.eight(x + aside.dx, y + aside.dy);
    return kColourCounts * colours + kPieceCounts * pieces * pieces;
}

}  // namespace

void weigh(const BodyLight& light, int left, int top, Weights& by_first, Weights& by_second) {
    Distances first, second;
    std::array<Floats, kTileEights> of_first, of_second;
    for (int n = 0; n < kNeighbours; ++n) {
        const Aside aside(n);
        measure(light, left, top, aside, first, second);
        for (int r = 0; r < kTileRows; ++r) {
            patch_means(first, r, of_first);
            patch_means(second, r, of_second);
            for (int e = 0; e < kTileEights; ++e) {
                const int x = left + 8 * e, y = top + r;
                const Floats colour = light.colour[1].eight(x + aside.dx, y + aside.dy);
                const Floats least = unlike(light, colour, x, y, aside), weight = colour * colour;
                const auto i = static_cast<std::size_t>(e);
                by_first.at(n, r, e) = weight * falling(max(least, of_first[i]));
                by_second.at(n, r, e) = weight * falling(max(least, of_second[i]));
            }
        }
    }
}

}  // namespace rakelight::filter
