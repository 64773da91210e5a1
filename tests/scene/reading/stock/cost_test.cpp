#include "scene/reading/stock/cost.h"

#include <gtest/gtest.h>

#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/refusal.h"

namespace rakelight {
namespace {

Layout with_cost(const std::string& cost) {
    return read_layout_text(
        "panel: {size: [600, 450]}\nfields: [{name: all, mix: mine}]\nstock:\n  mine: {like: slate, cost: " +
            cost + "}\n",
        "f.yaml");
}

Cost cost_of(const Layout& layout) {
    for (const Material& m : layout.stock)
        if (m.name == "mine") return m.cost;
    return {-1, Cost::Per::kg};
}

TEST(ReadCost, PerKilogramAndPerSquareMetre) {
    EXPECT_EQ(cost_of(with_cost("38 per kg")), (Cost{38, Cost::Per::kg}));
    EXPECT_EQ(cost_of(with_cost("120.5 per m2")), (Cost{120.5, Cost::Per::m2}));
    EXPECT_EQ(cost_of(with_cost("0 per kg")), Cost{});
}

TEST(ReadCost, OthersAreRefusedWithTheirPlace) {
    for (const char* bad :
         {"38", "38 per lb", "per kg", "-3 per kg", "much per kg", "38 kg", "[38]", "nan per kg"}) {
        const std::string what = refusal_of([&] { with_cost(bad); });
        for (const char* part : {"f.yaml:4:", "stock.mine.cost: found", "38 per kg"})
            EXPECT_NE(what.find(part), std::string::npos) << bad << '\n' << what;
    }
}

}  // namespace
}  // namespace rakelight
