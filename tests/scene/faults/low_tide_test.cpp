// The critic on the panel of the demo. Limits are common practice, no published source.
#include <gtest/gtest.h>

#include "scene/faults/faults.h"
#include "scene/laying/laying.h"
#include "scene/reading/layout_reader.h"

namespace rakelight {
namespace {

TEST(LowTide, FewerThanOneRowInAHundredPiecesEndsInMidField) {
    const Layout layout = read_layout(RAKELIGHT_SCENES "/low-tide.yaml");
    const LayingFaults faults = find_faults(layout, lay(layout));
    EXPECT_LT(faults.row_ends_per_100(), 1);
    EXPECT_GT(faults.pieces_in_rows, 2000u);
}

}  // namespace
}  // namespace rakelight
