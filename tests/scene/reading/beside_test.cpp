// The other half of a diptych: read from its own file, hung in the same room.
#include <gtest/gtest.h>

#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/room/hung_panel.h"
#include "scene/room/room_check.h"
#include "scene/world/world.h"
#include "tests/support/refusal.h"
#include "tests/support/test_folder.h"

using namespace rakelight;

namespace {

constexpr const char* kPiecesOf60 = "fields: [{name: all, piece: 60, mix: slate}]\n";

std::string panel(const std::string& size, const std::string& rest) {
    return "panel: {size: " + size + ", frame: {material: oak, width: 20, gap: 5}}\n" + kPiecesOf60 + rest;
}

class ReadBeside : public testing::Test {
  protected:
    test::Folder folder_;

    std::string error_of(const std::string& rest) {
        return refusal_of([&] { read_layout(folder_.write("one.yaml", panel("[200, 400]", rest))); });
    }
};

}  // namespace

TEST_F(ReadBeside, HangsAtTheSameHeightAFrameAndAGapAway) {
    folder_.write("right.yaml", panel("[300, 400]", "beside: {layout: left.yaml, side: left}\n"));
    const Layout layout =
        read_layout(folder_.write("left.yaml", panel("[200, 400]",
                                                     "beside: {layout: right.yaml, gap: 30}\n"
                                                     "room: {lean: 4}\n")));
    const auto hung = hung_panels(layout);
    ASSERT_EQ(hung.size(), 2u);
    EXPECT_EQ(hung[1].centre_mm.x, 100 + 25 + 30 + 25 + 150);
    EXPECT_EQ(hung[1].centre_mm.y, hung[0].centre_mm.y);
    EXPECT_EQ(hung[1].centre_mm.z, hung[0].centre_mm.z);
    EXPECT_NE(why_not_free(hung[1].centre_mm, layout).find("the panel beside it"), std::string::npos);

    const World world = build_world(layout, lay(layout));
    float rightmost = 0;  // of what stands off the wall, between floor and ceiling
    for (const glm::vec3& p : world.positions_mm)
        if (p.z > 1 && p.z < 30 && std::abs(p.y) < 250) rightmost = std::max(rightmost, p.x);
    EXPECT_NEAR(rightmost, 330 + 150 + 25, 0.1);  // frame of the other
    std::int32_t most = 0;
    for (const Object& object : world.objects) most = std::max(most, object.piece);
    EXPECT_EQ(most, static_cast<std::int32_t>(lay(layout).pieces.size()));  // its pieces are not ours
}

TEST_F(ReadBeside, TellsWhatIsWrongInTheOtherFile) {
    folder_.write("other.yaml", "panel: {size: [300, 400]}\nfields: [{name: all, mix: slat}]\n");
    const std::string text = error_of("beside: {layout: other.yaml}\n");
    EXPECT_NE(text.find("one.yaml:3:18: beside.layout: "), std::string::npos) << text;
    EXPECT_NE(text.find("other.yaml:2:27: fields[1].mix: "), std::string::npos) << text;
}

TEST_F(ReadBeside, RefusesAMissingFileAndAFullWall) {
    EXPECT_NE(error_of("beside: {layout: none.yaml}\n").find("no such file"), std::string::npos);
    folder_.write("wide.yaml", panel("[1900, 400]", ""));
    EXPECT_NE(error_of("beside: {layout: wide.yaml, gap: 800}\n").find("beside: found a panel out to"),
              std::string::npos);
    EXPECT_NE(error_of("beside: {gap: 30}\n").find("beside.layout: found nothing"), std::string::npos);
}
