// Where a tile's samples go: by what another sample takes off a block's square error, variance / samples^2.
#include "renderer/blocks.h"

#include <gtest/gtest.h>

namespace rakelight {
namespace {

Block block(int samples, double variance) {
    return {samples, variance / samples};
}

TEST(Blocks, AllBeginAndThoseGoOnWhereASampleIsWorthMost) {
    EXPECT_EQ(blocks_of_next_step(std::vector<Block>(4), 2, 0), std::vector<bool>(4, true));
    // Alone in its tile: nobody is worth more.
    EXPECT_EQ(blocks_of_next_step(std::vector<Block>{block(16, 0)}, 1, 16), std::vector<bool>{true});
    // A noisy block at one end of a row, calm ones beyond its neighbour.
    const std::vector<Block> row{block(16, 9), block(16, 0), block(16, 0.1), block(16, 0.1)};
    EXPECT_EQ(blocks_of_next_step(row, 4, 16), (std::vector<bool>{true, true, false, false}));
}

// Neyman's allocation, within the factor that a quarter leaves: a block whose paths scatter three times as
// much as those of others gets about three times as many samples. Far blocks do not know of each other.
TEST(Blocks, SamplesGoAsTheScatter) {
    const std::vector<double> variance{9, 9, 9, 9, 1, 1, 1, 1};
    std::vector<Block> blocks(variance.size());
    int most = 0;
    for (int step = 0; step < 64; ++step, most += 16) {
        const std::vector<bool> chosen = blocks_of_next_step(blocks, static_cast<int>(blocks.size()), most);
        for (std::size_t b = 0; b < blocks.size(); ++b)
            if (chosen[b]) blocks[b] = block(blocks[b].samples + 16, variance[b]);
    }
    const double ratio = static_cast<double>(blocks.front().samples) / blocks.back().samples;
    EXPECT_GT(ratio, 1.4);
    EXPECT_LT(ratio, 3.1);
}

TEST(Blocks, NoneStaysBehindAQuarter) {
    const std::vector<Block> blocks{block(160, 9), block(160, 9), block(32, 0), block(48, 0)};
    const std::vector<bool> chosen = blocks_of_next_step(blocks, 4, 160);
    EXPECT_TRUE(chosen[2]);
    EXPECT_FALSE(chosen[3]);
}

}  // namespace
}  // namespace rakelight
