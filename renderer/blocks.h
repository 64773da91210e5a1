// Blocks of four by four pixels: where a tile's samples go, many where it is noisy and few where it is calm.
#pragma once

#include <algorithm>
#include <span>
#include <vector>

namespace rakelight {

inline constexpr int kBlockSize = 4;

/// A block of a tile as far as it is sampled.
struct Block {
    int samples = 0;          ///< paths of each pixel
    double square_error = 0;  ///< mean over its pixels of the squared relative standard error
};

namespace blocks_detail {

// Half the block's own square error, half the mean of those round it: light that it has not met yet is often
// where its neighbours have met some.
inline double square_error_about(std::span<const Block> blocks, int columns, int x, int y) {
    const int rows = static_cast<int>(blocks.size()) / columns;
    const auto of = [&](int u, int v) {
        return blocks[static_cast<std::size_t>(v * columns + u)].square_error;
    };
    double round = 0;
    int count = 0;
    for (int v = std::max(0, y - 1); v < std::min(rows, y + 2); ++v)
        for (int u = std::max(0, x - 1); u < std::min(columns, x + 2); ++u)
            if (u != x || v != y) round += of(u, v), ++count;
    return count ? 0.5 * (of(x, y) + round / count) : of(x, y);
}

}  // namespace blocks_detail

/// Whether each block, `columns` in a row, has part in the next step: when another sample makes its square
/// error fall at least a quarter as fast as that of the noisiest, or it has less than a quarter of the
/// `most` samples of any. So samples go nearly as the standard deviation of a path, where the square error of
/// the whole is the least for them (Neyman 1934: optimum allocation to strata).
inline std::vector<bool> blocks_of_next_step(std::span<const Block> blocks, int columns, int most) {
    std::vector<double> gains;
    for (std::size_t b = 0; b < blocks.size(); ++b) {
        const int x = static_cast<int>(b) % columns, y = static_cast<int>(b) / columns;
        gains.push_back(blocks_detail::square_error_about(blocks, columns, x, y) /
                        std::max(1, blocks[b].samples));
    }
    const double best = gains.empty() ? 0 : *std::ranges::max_element(gains);
    std::vector<bool> chosen;
    for (std::size_t b = 0; b < blocks.size(); ++b)
        chosen.push_back(blocks[b].samples == 0 || 4 * blocks[b].samples < most || gains[b] >= 0.25 * best);
    return chosen;
}

}  // namespace rakelight
