#include "scene/laying/thick_bed.h"

#include <gtest/gtest.h>

#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"

namespace rakelight {
namespace {

Layout lake(const std::string& glass_mm, const std::string& stone_mm) {
    return read_layout_text(
        "panel: {size: [200, 100]}\n"
        "fields:\n"
        "  - {name: lake, outline: [[0, 0], [100, 0], [100, 100], [0, 100]], mix: deep-teal, "
        "thickness: " +
            glass_mm +
            "}\n"
            "  - {name: shore, mix: basalt, thickness: " +
            stone_mm + "}\n",
        "lake.yaml");
}

// The bed under 3 mm of glass flush with 14 mm of stone: the usual bed and the 11 mm between.
TEST(ThickBed, ThinGlassFlushWithThickStoneIsSaid) {
    const Layout layout = lake("3", "14");
    const Laying laying = lay(layout);
    ASSERT_EQ(laying.warnings.size(), 1u);
    const std::string& line = laying.warnings[0];
    EXPECT_NE(line.find("lake.yaml:3"), std::string::npos) << line;
    EXPECT_NE(line.find("fields[1].thickness: pieces of lake are 3.0 mm thick"), std::string::npos) << line;
    EXPECT_NE(line.find("14 mm of basalt"), std::string::npos) << line;
    const double bed_mm = layout.panel.substrate.bed_mm + 11;
    EXPECT_NE(line.find("comes to " + std::to_string(std::lround(bed_mm)) + " mm"), std::string::npos)
        << line;
    for (const char* help : {"pieces of up to", "a board raised", "a step"})
        EXPECT_NE(line.find(help), std::string::npos) << line;
}

TEST(ThickBed, LikeThicknessesAreNot) {
    EXPECT_TRUE(lay(lake("6", "11")).warnings.empty());
}

}  // namespace
}  // namespace rakelight
