#include "scene/mix/net.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>

namespace rakelight {
namespace {

std::vector<glm::dvec2> lattice(int columns, int rows) {
    std::vector<glm::dvec2> points;
    for (int y = 0; y < rows; ++y)
        for (int x = 0; x < columns; ++x) points.emplace_back(11.5 * x, 11.5 * y);
    return points;
}

// By definition: heirs come later, and what is passed on is neither lost nor doubled.
TEST(MixNet, HeirsComeLaterAndShareAll) {
    const auto points = lattice(20, 15);
    const MixNet net = mix_net(points, 3);
    std::vector<std::size_t> rank(points.size());
    for (std::size_t k = 0; k < net.order.size(); ++k) rank[net.order[k]] = k;
    for (std::uint32_t i = 0; i < points.size(); ++i) {
        double sum = 0;
        for (const auto& heir : net.heirs_of(i)) {
            EXPECT_GT(rank[heir.piece], rank[i]);
            sum += heir.share;
        }
        EXPECT_NEAR(sum, i == net.order.back() ? 0 : 1, 1e-12);
    }
    // The first has the nearest of all: on the lattice at most two steps off, whether inside or in a corner.
    for (const auto& heir : net.heirs_of(net.order.front()))
        EXPECT_LE(glm::distance(points[net.order.front()], points[heir.piece]), 2 * 11.5 + 1e-9);
}

TEST(MixNet, DoesNotDependOnNumbering) {
    auto points = lattice(12, 9);
    const MixNet there = mix_net(points, 3);
    std::reverse(points.begin(), points.end());
    const MixNet back = mix_net(points, 3);
    const auto last = static_cast<std::uint32_t>(points.size() - 1);
    for (std::size_t k = 0; k < points.size(); ++k) EXPECT_EQ(there.order[k], last - back.order[k]);
}

}  // namespace
}  // namespace rakelight
