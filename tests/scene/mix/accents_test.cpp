#include "scene/mix/accents.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

struct Ground {
    std::vector<Piece> pieces;
    Region region;
};

Ground ground(int columns, int rows) {
    Ground g;
    for (int y = 0; y < rows; ++y)
        for (int x = 0; x < columns; ++x) {
            Piece p;
            const glm::dvec2 o(x * 10, y * 10);
            p.outline_mm = {o, o + glm::dvec2(9, 0), o + glm::dvec2(9, 9), o + glm::dvec2(0, 9)};
            g.pieces.push_back(p);
        }
    const double w = columns * 10, h = rows * 10;
    g.region = region_of({{0, 0}, {w, 0}, {w, h}, {0, h}});
    return g;
}

Field accented(std::vector<Accent> accents) {
    Field field;
    field.accents = std::move(accents);
    return field;
}

// Clark and Evans, "Distance to nearest neighbor as a measure of spatial relationships in populations",
// Ecology 35(4), 1954: R = mean nearest distance over 1 / (2 sqrt(density)); 1 for pure chance, 2.149 for a
// hexagonal lattice.
TEST(MixAccents, SpreadWellApart) {
    const Ground g = ground(60, 40);
    for (const int count : {7, 20, 60})
        for (const std::uint64_t seed : {1, 2, 3}) {
            const auto chosen = choose_accents(accented({{0, count}}), g.region, seed, g.pieces);
            ASSERT_EQ(chosen.size(), static_cast<std::size_t>(count));
            double sum = 0;
            std::set<std::size_t> pieces;
            for (const auto& a : chosen) {
                pieces.insert(a.piece);
                double nearest = 1e300;
                for (const auto& b : chosen)
                    if (a.piece != b.piece)
                        nearest = std::min(nearest, glm::distance(centroid(g.pieces[a.piece].outline_mm),
                                                                  centroid(g.pieces[b.piece].outline_mm)));
                sum += nearest;
                const glm::dvec2 at = centroid(g.pieces[a.piece].outline_mm);
                EXPECT_GT(std::min({at.x, at.y, 600 - at.x, 400 - at.y}), 10) << "at the edge";
            }
            EXPECT_EQ(pieces.size(), chosen.size());
            EXPECT_GT(sum / count / (0.5 * std::sqrt(600.0 * 400 / count)), 1.3) << count;
        }
}

TEST(MixAccents, CountsAreExact) {
    const Ground g = ground(10, 8);
    const auto chosen = choose_accents(accented({{0, 5}, {1, 12}}), g.region, 4, g.pieces);
    EXPECT_EQ(std::count_if(chosen.begin(), chosen.end(), [](const auto& c) { return c.accent == 0; }), 5);
    EXPECT_EQ(std::count_if(chosen.begin(), chosen.end(), [](const auto& c) { return c.accent == 1; }), 12);
    // As many as there are pieces, and no more.
    EXPECT_EQ(choose_accents(accented({{0, 80}}), g.region, 4, g.pieces).size(), 80u);
    EXPECT_EQ(choose_accents(accented({{0, 90}}), g.region, 4, g.pieces).size(), 80u);
}

}  // namespace
}  // namespace rakelight
