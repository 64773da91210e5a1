#include "output/take_off/reckoning/zone_order.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rakelight {
namespace {

using Order = std::vector<std::size_t>;

ZoneTraits zone(const char* name, double lightness, double y = 0, double area = 1) {
    return {name, lightness, y, area};
}

TEST(ZoneOrder, LightestFirstWhereTheyTouch) {
    const std::vector<ZoneTraits> zones{zone("black", 20), zone("pale", 80), zone("grey", 50)};
    EXPECT_EQ(order_zones(zones, {{0, 1}, {1, 2}, {0, 2}}, {}).order, (Order{1, 2, 0}));
}

TEST(ZoneOrder, EveryReasonIsKept) {
    // A deterministic tangle of twelve zones: whatever touches has the lighter one first.
    std::vector<ZoneTraits> zones;
    std::vector<std::pair<std::size_t, std::size_t>> touching;
    for (std::size_t i = 0; i < 12; ++i) zones.push_back(zone("", static_cast<double>(i * 37 % 101)));
    for (std::size_t i = 0; i < 12; ++i)
        for (std::size_t j = i + 1; j < 12; ++j)
            if ((i * 5 + j * 3) % 4 != 0) touching.emplace_back(i, j);
    const ZoneOrder order = order_zones(zones, touching, {});
    EXPECT_TRUE(order.cycles.empty());
    Order turn(12);
    for (std::size_t k = 0; k < 12; ++k) turn[order.order[k]] = k;
    for (const auto& [a, b] : touching)
        if (std::abs(zones[a].lightness - zones[b].lightness) >= 5) {
            EXPECT_EQ(turn[a]<turn[b], zones[a].lightness> zones[b].lightness);
        }
}

TEST(ZoneOrder, FiveStepsOfLightnessAreImmaterial) {
    const ZoneOrder order =
        order_zones({zone("a", 50), zone("b", 54.9), zone("c", 60)}, {{0, 1}, {0, 2}}, {});
    ASSERT_EQ(order.alike.size(), 1u);
    EXPECT_EQ(order.alike[0], (std::pair<std::size_t, std::size_t>(0, 1)));
    ASSERT_EQ(order.edges.size(), 1u);
    EXPECT_EQ(order.edges[0].before, 2u);
}

TEST(ZoneOrder, TiesUpperThenLargerThenUnsandedThenCement) {
    EXPECT_EQ(order_zones({zone("low", 50, 100), zone("high", 50, 300)}, {}, {}).order, (Order{1, 0}));
    EXPECT_EQ(order_zones({zone("small", 50, 0, 10), zone("large", 50, 0, 20)}, {}, {}).order, (Order{1, 0}));
    std::vector<ZoneTraits> zones{zone("sanded", 50), zone("plain", 50)};
    zones[0].sanded = true;
    EXPECT_EQ(order_zones(zones, {}, {}).order, (Order{1, 0}));
    zones = {zone("epoxy", 50), zone("cement", 50)};
    zones[0].epoxy = true;
    EXPECT_EQ(order_zones(zones, {}, {}).order, (Order{1, 0}));
}

TEST(ZoneOrder, AWishWinsOverLightnessAndTheCircleIsReported) {
    const ZoneOrder order =
        order_zones({zone("pale", 80), zone("dark", 20)}, {{0, 1}}, {{"dark", "pale", {}}});
    EXPECT_EQ(order.order, (Order{1, 0}));
    ASSERT_EQ(order.cycles.size(), 1u);
    EXPECT_EQ(order.cycles[0].size(), 2u);
    int given_up = 0;
    for (const OrderEdge& edge : order.edges)
        if (edge.given_up) {
            ++given_up;
            EXPECT_EQ(edge.why, OrderEdge::Why::lighter);
        }
    EXPECT_EQ(given_up, 1);
}

TEST(ZoneOrder, UnsealedPoresComeFirstButForACircleOfAWish) {
    std::vector<ZoneTraits> zones{zone("pale", 80), zone("porous", 77)};
    zones[1].unsealed_pores = true;
    EXPECT_EQ(order_zones(zones, {{0, 1}}, {}).order, (Order{1, 0}));
    EXPECT_EQ(order_zones(zones, {{0, 1}}, {{"pale", "porous", {}}}).order, (Order{0, 1}));
}

TEST(ZoneOrder, CirclesOfWishesAreFound) {
    const std::vector<std::string> zones{"a", "b", "c"};
    EXPECT_TRUE(cycle_of_wishes(zones, {{"a", "b", {}}, {"b", "c", {}}, {"a", "c", {}}}).empty());
    EXPECT_EQ(cycle_of_wishes(zones, {{"a", "b", {}}, {"b", "c", {}}, {"c", "a", {}}}),
              (std::vector<std::string>{"a", "b", "c", "a"}));
}

TEST(ZoneOrder, NothingToOrder) {
    EXPECT_TRUE(order_zones({}, {}, {}).order.empty());
}

}  // namespace
}  // namespace rakelight
