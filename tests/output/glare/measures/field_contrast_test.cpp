// Contrast of fields with mirrored light, against a worked case of veiling reflections.
#include "output/glare/measures/field_contrast.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

namespace rakelight {
namespace {

Layout two_fields() {
    Layout layout;
    layout.fields.resize(2);
    layout.fields[0].name = "foam";
    layout.fields[1].name = "sea";
    return layout;
}

// 300 lx on reflectances of 0.8 and 0.1 give 76.394 and 9.549 cd/m2: C = 0.875. A lamp of 1000 cd/m2 mirrored
// by glass (n 1.5) at 60 degrees veils both with 89.19 cd/m2: C' = (Lb - Lt) / (Lb + Lv) = 0.4037, 0.4613 of
// it.
TEST(FieldContrast, IsWhatAVeilLeaves) {
    PanelGlare glare;
    glare.fields = {{0, 76.394, 89.19}, {1, 9.549, 89.19}};
    const auto contrasts = field_contrasts(glare, two_fields().fields, {{"sea", "foam"}});
    ASSERT_EQ(contrasts.size(), 1u);
    EXPECT_NEAR(contrasts[0].body, 0.875, 1e-4);
    EXPECT_NEAR(contrasts[0].seen, 0.4037, 1e-4);
    EXPECT_NEAR(contrasts[0].kept(), 0.4613, 2e-4);
}

TEST(FieldContrast, OfWhatIsNotSeenIsLeftOut) {
    PanelGlare glare;
    glare.fields = {{0, 10, 0}};
    EXPECT_TRUE(field_contrasts(glare, two_fields().fields, {{"foam", "sea"}}).empty());
}

TEST(FieldContrast, OfDarknessIsNone) {
    EXPECT_EQ(contrast_of(0, 0), 0);
    EXPECT_EQ(contrast_of(0, 3), 1);
    EXPECT_EQ(contrast_of(5, 5), 0);
}

}  // namespace
}  // namespace rakelight
