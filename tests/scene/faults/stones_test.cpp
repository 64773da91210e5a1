// The critic on pieces beside set stones.
#include <gtest/gtest.h>

#include "scene/faults/faults.h"
#include "scene/laying/laying.h"
#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

TEST(BesideStones, CrazyPavingComesUpToThem) {
    Layout layout = sample_layout(Opus::palladianum, 24, 24, 2.4);
    layout.fields[0].mix = {{kSlate, 1}};
    for (int i = 0; i < 8; ++i) {
        PlacedStone stone;
        stone.material = kSlag;
        stone.at_mm = {90 + 130 * (i % 4) + 11 * (i / 4), 110 + 170 * (i / 4)};
        stone.size_mm = {34.0 + 3 * i, 26.0 + 2 * i, 20};
        stone.turn_deg = 23.0 * i;
        stone.form = i % 2 ? "pebble" : "chunk";
        stone.seed = static_cast<std::uint64_t>(i + 1);
        layout.stones.push_back(stone);
    }
    const LayingFaults faults = find_faults(layout, lay(layout));
    // There were 34; at most two to a stone are left, where the gap is too sharp for any piece. Common
    // practice, no published source.
    EXPECT_LE(faults.of(FaultKind::stone_gap), 16u);
}

}  // namespace
}  // namespace rakelight
