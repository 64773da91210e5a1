#include "output/take_off/reckoning/section.h"

#include <gtest/gtest.h>

#include "scene/reading/layout_reader.h"
#include "tests/support/refusal.h"

namespace rakelight {
namespace {

constexpr std::string_view kLayout =
    "panel: {size: [200, 100]}\n"
    "fields:\n"
    "  - {name: a, mix: slate, grout: sand, zone: foam, outline: [[0, 0], [90, 0], [90, 100], [0, 100]]}\n"
    "  - {name: b, mix: aqua, grout: charcoal, zone: deep water}\n";

WorkshopWishes read(const std::string& more) {
    const std::string text = std::string(kLayout) + more;
    return read_workshop(read_layout_text(text, "f.yaml"));
}

std::string problems(const std::string& more) {
    return refusal_of([&] { read(more); });
}

TEST(ReadWorkshop, UsualValuesWhenTheFileSaysNothing) {
    const WorkshopWishes shop = read("");
    EXPECT_EQ(shop.take_off.hand, Hand::usual);
    EXPECT_EQ(shop.zones.paper.name, "A4");
    EXPECT_TRUE(shop.zones.pre_seal);
    EXPECT_EQ(shop.hanging.factor, 4);
}

TEST(ReadWorkshop, TakesEveryKey) {
    const WorkshopWishes shop = read(
        "take-off:\n"
        "  {hand: sure, waste: {sheet glass: 25 %, smalti: 12 %, stone: 18 %, pebbles: 35 %, slag: 22 %, "
        "curves: 5 %},\n"
        "   spare: 2 %, least spare: 5, sheet: [10 in, 10 in], bag: 10 lb, bed waste: 15 %, bed rise: 40 %,\n"
        "   hours: {tessellatum: [50, 90]}, buy: {aqua: {sheet: [250, 500]}, slate: {bag: 2 kg, waste: 30 "
        "%}}}\n"
        "zones:\n"
        "  {waste: 25 %, small waste: 60 %, spare grout: 300 g, water: 28 %, largest batch: 1.5 kg, "
        "pre-seal: no, "
        "overlap: 15,\n"
        "   tape: 40, paper: Letter, order: [[deep water, foam]], each: {foam: {waste: 10 %, water: 22 %, "
        "spare grout: 200}}}\n"
        "hanging:\n"
        "  {gap: 15, points apart: 120, lever: 90, safety factor: 6, struts: 2, strut: [40, 18], strut "
        "density: "
        "450,\n"
        "   place: [stairs, over a door]}\n");
    EXPECT_EQ(shop.take_off.hand, Hand::sure);
    EXPECT_NEAR(*shop.take_off.waste[0], 0.25, 1e-12);
    EXPECT_NEAR(shop.take_off.sheet_mm.x, 254, 1e-9);
    EXPECT_NEAR(shop.take_off.bag_g, 4535.9237, 1e-6);
    EXPECT_NEAR(shop.take_off.hours.at(Opus::tessellatum).high_h_per_m2, 90, 1e-12);
    EXPECT_NEAR(shop.take_off.buying.at("aqua").sheet_mm->y, 500, 1e-12);
    EXPECT_NEAR(*shop.take_off.buying.at("slate").bag_g, 2000, 1e-12);
    EXPECT_EQ(shop.zones.paper.name, "Letter");
    EXPECT_FALSE(shop.zones.pre_seal);
    ASSERT_EQ(shop.zones.order.size(), 1u);
    EXPECT_EQ(shop.zones.order[0].first, "deep water");
    EXPECT_NEAR(*shop.zones.each.at("foam").water, 0.22, 1e-12);
    EXPECT_EQ(shop.hanging.places.size(), 2u);
    EXPECT_EQ(*shop.hanging.struts, 2);
}

TEST(ReadWorkshop, SaysWhatIsWrongWhereAndWhatWasMeant) {
    for (const auto& [text, part] : {
             std::pair{"take-off: {hnad: sure}\n", "f.yaml:5:12: take-off.hnad"},
             {"take-off: {hnad: sure}\n", "did you mean hand?"},
             {"take-off: {hand: shaky}\n", "expected one of sure, usual, learning"},
             {"take-off: {waste: {sheet glas: 5 %}}\n", "did you mean sheet glass?"},
             {"take-off: {waste: {stone: 400 %}}\n", "take-off.waste.stone"},
             {"take-off: {waste: 20 %}\n", "take-off.waste"},
             {"take-off: {spare: -1 %}\n", "take-off.spare"},
             {"take-off: {least spare: 2.5}\n", "take-off.least spare"},
             {"take-off: {sheet: 300}\n", "take-off.sheet"},
             {"take-off: {bag: 5 mm}\n", "take-off.bag"},
             {"take-off: {bed rise: 95 %}\n", "take-off.bed rise"},
             {"take-off: {hours: {tesellatum: [5, 9]}}\n", "did you mean tessellatum?"},
             {"take-off: {hours: {tessellatum: [9, 5]}}\n", "the fewer first"},
             {"take-off: {buy: {aqau: {bag: 5 kg}}}\n", "did you mean aqua?"},
             {"take-off: {buy: {aqua: {bag: 5 kg, sheet: [300, 300]}}}\n", "expected one of them"},
             {"take-off: 3\n", "f.yaml:5:11: take-off"},
             {"zones: {paper: A9}\n", "expected one of A4, A3, Letter"},
             {"zones: {water: 120 %}\n", "zones.water"},
             {"zones: {largest batch: 20 g}\n", "zones.largest batch"},
             {"zones: {pre-seal: maybe}\n", "expected one of no, yes"},
             {"zones: {order: [[foam]]}\n", "zones.order[1]"},
             {"zones: {order: foam}\n", "expected a list of pairs"},
             {"zones: {order: [[foam, deep watr]]}\n", "did you mean deep water?"},
             {"zones: {order: [[foam, foam]]}\n", "a zone before itself"},
             {"zones: {order: [[foam, deep water], [deep water, foam]]}\n", "goes round in a circle"},
             {"zones: {each: {foma: {water: 20 %}}}\n", "did you mean foam?"},
             {"zones: {each: {foam: {watr: 20 %}}}\n", "did you mean water?"},
             {"zones: [foam]\n", "f.yaml:5:8: zones"},
             {"hanging: {place: over a seats}\n", "did you mean over seats?"},
             {"hanging: {place: [stairs, moon]}\n", "expected one of earthquake zone"},
             {"hanging: {safety factor: 0}\n", "hanging.safety factor"},
             {"hanging: {points apart: 900}\n", "at most the panel's width of 200 mm"},
             {"hanging: {struts: some}\n", "hanging.struts"},
             {"hanging: {strut: [45]}\n", "hanging.strut"},
         }) {
        const std::string said = problems(text);
        EXPECT_NE(said.find(part), std::string::npos) << text << said;
    }
}

TEST(ReadWorkshop, ReportsAllThreeSectionsAtOnce) {
    const std::string said =
        problems("take-off: {hand: shaky}\nzones: {paper: A9}\nhanging: {safety factor: 0}\n");
    for (const char* key :
         {"f.yaml:5:18: take-off.hand", "f.yaml:6:16: zones.paper", "f.yaml:7:26: hanging.safety factor"})
        EXPECT_NE(said.find(key), std::string::npos) << said;
}

}  // namespace
}  // namespace rakelight
