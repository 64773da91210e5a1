// The critic on what is laid: a field 600 mm wide between two wavy lines, whose rows have to open and close.
#include <gtest/gtest.h>

#include "scene/faults/faults.h"
#include "scene/laying/laying.h"
#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

TEST(Waves, RowsRunThrough) {
    Layout layout = sample_layout(Opus::musivum, 9, 7, 1);
    layout.panel.height_mm = 260;
    layout.fields[0].guides = {
        smooth_stroke(
            {{-10, 200}, {80, 236}, {170, 190}, {260, 176}, {350, 222}, {440, 230}, {530, 184}, {620, 206}},
            false),
        smooth_stroke({{620, 60}, {520, 40}, {430, 76}, {330, 70}, {240, 30}, {150, 34}, {70, 84}, {-10, 66}},
                      false)};
    const Laying laying = lay(layout);
    const LayingFaults faults = find_faults(layout, laying);
    ASSERT_GT(laying.pieces.size(), 1500u);
    // With rows of one width 17 ended in mid-field; a third of that. Common practice, no published source.
    EXPECT_LE(faults.of(FaultKind::row_end), 17u / 3);
    EXPECT_LT(faults.row_ends_per_100(), 1);
    EXPECT_LE(faults.of(FaultKind::wedge), 2u);
}

}  // namespace
}  // namespace rakelight
