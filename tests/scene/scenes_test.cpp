// Every layout that ships is in order, and the tide pool is as large as it says.
#include <gtest/gtest.h>

#include <filesystem>
#include <set>

#include "scene/laying.h"
#include "scene/layout_reader.h"

using namespace rakelight;

TEST(Scenes, AllAreInOrderAndCanBeLaid) {
    int count = 0;
    for (const auto& entry : std::filesystem::directory_iterator(RAKELIGHT_SCENES)) {
        if (entry.path().extension() != ".yaml") continue;
        const Layout layout = read_layout(entry.path());
        EXPECT_FALSE(lay(layout).pieces.empty()) << entry.path();
        ++count;
    }
    EXPECT_GE(count, 2);
}

TEST(Scenes, LowTideHasItsPiecesZonesAndRelief) {
    const Layout layout = read_layout(RAKELIGHT_SCENES "/low-tide.yaml");
    const Laying laying = lay(layout);
    EXPECT_GE(laying.pieces.size(), 2500u);
    std::set<std::string> zones;
    for (const Field& field : layout.fields) zones.insert(field.zone);
    EXPECT_GE(zones.size(), 3u);
    for (const SetStone& stone : laying.stones) EXPECT_GE(stone.stone.proud_mm, 5);
    EXPECT_EQ(layout.pictures.size(), 3u);
}
