// Buying, grouting and hanging.
#include "scene/keys/keys.h"
#include "scene/keys/takes.h"
#include "scene/opus/opera.h"

namespace rakelight::keys {

namespace {

std::vector<std::string> opera_words() {
    return {opus_words().begin(), opus_words().end()};
}

constexpr Takes kWaste = share(0, 3);
constexpr Takes kBag = mass(10, 1e6);
constexpr Takes kSheet = lengths(2, 20, 5000);
constexpr Takes kPlace = word(
    "earthquake zone, over a sleeping place, over seats, over a door, public building, stairs, outdoors");
constexpr Takes kZoneName = text("the name of a grout zone");
constexpr Takes kBefore = list_of(kZoneName, 2, 2);

constexpr KeyRow kTakeOff[] = {
    {"hand", word("sure, usual, learning"), "usual", "Low end, middle or high end of the usual waste."},
    {"waste", mapping(waste), "as the hand is", "Waste by what is cut, as a share of what is laid."},
    {"spare", share(0, 1), "3 %", "Spare pieces of each material, kept for repairs."},
    {"least spare", whole(0, 1e5), "10", "Spare pieces of each material, at least."},
    {"sheet", kSheet, "[300, 300]", "Width and height of the sheets that glass is bought in."},
    {"bag", kBag, "5 kg", "Weight of the bags that all else is bought in."},
    {"buy", mapping(purchases), "", "How single materials are bought."},
    {"bed waste", kWaste, "12 %", "Waste of the bed."},
    {"bed rise", share(0, 0.9), "33 %",
     "How far the bed is squeezed up between the pieces, as a share of their height."},
    {"hours", mapping(hours), "usual figures", "Hours that laying takes, by opus."},
};

constexpr KeyRow kWasteRows[] = {
    {"sheet glass", kWaste, "15 to 30 %", "Waste of sheet glass."},
    {"smalti", kWaste, "10 to 20 %", "Waste of smalti."},
    {"stone", kWaste, "15 to 25 %", "Waste of stone."},
    {"pebbles", kWaste, "30 to 50 %", "Waste of pebbles."},
    {"slag", kWaste, "20 to 40 %", "Waste of slag."},
    {"beads", kWaste, "5 to 10 %", "Waste of beads."},
    {"curves", kWaste, "10 %", "Waste on top of it where rows bend and pieces are cut to wedges."},
};

constexpr KeyRow kHours[] = {each_of("OPUS", {{}, opera_words}, numbers(2, 0.1, 1e5), "usual figures",
                                     "Fewest and most hours for a square metre, cutting included.")};

constexpr KeyRow kPurchases[] = {any("MATERIAL", mapping(purchase), "How this material is bought.")};
constexpr KeyRow kPurchase[] = {
    {"sheet", kSheet, "by kind", "Bought in sheets of this width and height."},
    {"bag", kBag, "by kind", "Bought in bags of this weight."},
    {"waste", kWaste, "by what is cut", "Waste of this material."},
};
constexpr KeyRule kPurchaseRules[] = {{How::at_most_one, "sheet, bag"}};

constexpr KeyRow kZones[] = {
    {"waste", kWaste, "20 %", "Grout wasted, as a share of what stays in the joints."},
    {"small waste", kWaste, "50 %", "The same in a zone under 150 g or 1000 mm2."},
    {"spare grout", mass(0, 1e6), "by the need", "Dry grout of each zone, kept for repairs."},
    {"water", share(0, 1), "25 %", "Water, as a share of the powder's mass."},
    {"largest batch", mass(150, 1e5), "2 kg", "Powder that one hand can pack and wash before it sets."},
    {"pre-seal", word("no, yes"), "yes", "Whether open-pored stone is sealed before any grout."},
    {"overlap", length(5, 40), "12 mm", "How far sheets of the templates overlap."},
    {"tape", length(5, 200), "30 mm", "How far a mask reaches over its neighbours."},
    {"paper", word("A4, A3, Letter"), "A4", "Paper of the templates."},
    {"order", list_of(kBefore), "lightest first",
     "Pairs of zones, the first to be filled before the second: [[rocks, foam]]."},
    {"each", mapping(zone_wishes), "", "What single zones do their own way."},
};

constexpr KeyRow kZoneWishes[] = {any("ZONE", mapping(zone_wish), "What this zone does its own way.")};
constexpr KeyRow kZoneWish[] = {
    {"waste", kWaste, "as zones", "Grout wasted, as a share of what stays in the joints."},
    {"water", share(0, 1), "as zones", "Water, as a share of the powder's mass."},
    {"spare grout", mass(0, 1e6), "as zones", "Dry grout kept for repairs."},
};

constexpr KeyRow kHanging[] = {
    {"gap", length(0, 500), "12 mm", "From the back of the board to the wall."},
    {"points apart", length(20, 20'000), "three fifths of the width", "From one upper fixing to the other."},
    {"lever", length(20, 20'000), "to the lower edge",
     "From the upper fixing down to where the panel bears on the wall."},
    {"safety factor", number(1, 20), "4", "Breaking load over load, at least."},
    {"struts", whole(0, 50), "as the width asks for", "How many struts stiffen the back."},
    {"strut", lengths(2, 5, 200), "[45, 20]", "Width of a strut along the board, and its depth."},
    {"strut density", number(50, 8000), "500", "Kilograms per cubic metre of the struts."},
    {"place", kPlace | list_of(kPlace), "none of these",
     "Where hanging is not for the maker alone to judge."},
};

}  // namespace

extern constexpr KeyTable take_off{"take-off", "How material is cut, bought and laid.", kTakeOff};
extern constexpr KeyTable waste{"take-off.waste", "Waste by what is cut, as a share of what is laid.",
                                kWasteRows};
extern constexpr KeyTable hours{"take-off.hours", "Hours that laying takes, by opus.", kHours};
extern constexpr KeyTable purchases{"take-off.buy", "How single materials are bought.", kPurchases};
extern constexpr KeyTable purchase{"take-off.buy.MATERIAL", "How one material is bought.", kPurchase,
                                   kPurchaseRules};
extern constexpr KeyTable zones{"zones", "How grout is mixed and spread, zone by zone.", kZones};
extern constexpr KeyTable zone_wishes{"zones.each", "What single zones do their own way.", kZoneWishes};
extern constexpr KeyTable zone_wish{"zones.each.ZONE", "What one zone does its own way.", kZoneWish};
extern constexpr KeyTable hanging{"hanging", "How the panel is fixed to its wall.", kHanging};

}  // namespace rakelight::keys
