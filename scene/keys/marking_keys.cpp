// What shows within a piece besides its even colour, and what grout is made of.
#include "scene/keys/keys.h"
#include "scene/keys/takes.h"

namespace rakelight::keys {

namespace {

constexpr Takes kOther = text("the name of a material");
constexpr Takes kApart = length(0.3, 500);
constexpr Takes kCovered = share(0.005, 0.95);

constexpr KeyRow kStreaks[] = {
    {"of", kOther, kMust, "The second colour: as translucent, or as opaque, as the material itself."},
    {"share", kCovered, "25 %", "How much of the face has it, in the mean."},
    {"size", kApart, "7 mm", "From streak to streak."},
    {"length", length(0.3, 5000), "90 mm", "How far they are drawn out with the sheet."},
};
constexpr KeyRow kWisps[] = {
    {"of", kOther, kMust, "The second colour: as translucent, or as opaque, as the material itself."},
    {"share", kCovered, "20 %", "How much of the face has it, in the mean."},
    {"size", kApart, "14 mm", "From wisp to wisp."},
    {"length", length(0.3, 5000), "32 mm", "How far they are drawn out with the sheet."},
};
constexpr KeyRow kVeins[] = {
    {"of", kOther, kMust, "The colour of the veins, opaque."},
    {"share", kCovered, "10 %", "How much of the face they take, in the mean."},
    {"size", kApart, "40 mm", "From one broad vein to the next."},
    {"length", length(0.3, 5000), "as size", "The same along the way they mostly run."},
};
constexpr KeyRow kCrackle[] = {
    {"of", kOther, kMust, "The colour that has settled in the cracks, opaque."},
    {"share", kCovered, "5 %", "How much of the face they take, in the mean."},
    {"size", kApart, "5 mm", "From crack to crack."},
};
constexpr KeyRow kSeeds[] = {
    {"size", length(0.1, 10), "0.7 mm", "Mean diameter of a bubble."},
    {"per cm2", number(0.05, 200), "3", "How many there are."},
};
constexpr KeyRow kCords[] = {
    {"contrast", share(0, 1), "25 %", "How much brighter the lines are that they gather."},
    {"size", length(0.2, 100), "2 mm", "From line to line."},
};
constexpr KeyRow kVeil[] = {
    {"haze", share(0.002, 0.6), "3 %", "Share of white light that it throws back where it is densest."},
    {"share", kCovered, "50 %", "How much of the face it covers, in the mean."},
    {"size", kApart, "20 mm", "From cloud to cloud."},
};
constexpr KeyRow kSand[] = {
    {"size", length(0.05, 5), "0.3 mm", "Mean diameter of its grains."},
    {"contrast", share(0, 0.5), "10 %", "How far grains differ in reflectance, as a standard deviation."},
};
constexpr KeyRow kMottling[] = {
    {"contrast", share(0, 0.3), "3 %", "How far the colour differs, as a standard deviation."},
    {"size", length(2, 1000), "60 mm", "From patch to patch."},
};
constexpr KeyRow kFace[] = {
    {"pattern", word("none, rolled, hammered, rippled, granite, stippled, blowholes"), kMust,
     "What the rollers left on the sheet."},
    {"size", length(0.3, 200), "by the pattern: 4, 7, 18, 2 mm", "From one rise to the next."},
    {"slope", angle(0, 30), "by the pattern: 2, 7, 5, 8 deg", "How steep it is, as a standard deviation."},
};

constexpr KeyRow kCoating[] = {
    {"kind", word("none, iridised, dichroic, pearl"), "", "Films of usual indices; or say them as layers."},
    {"nm", number(20, 3000), "iridised 380, dichroic 600, pearl 540",
     "Iridised: how thick the film is; else the wavelength that is mirrored most, upright."},
    {"pairs", whole(1, 12), "4; pearl 6", "Dichroic, pearl: how many pairs of films."},
    {"uneven", share(0, 0.4), "0 %", "How much thinner or thicker the films are from place to place."},
    {"size", length(1, 500), "40 mm; pearl 8 mm", "From one such place to the next."},
    {"layers", list(film, 1, 40), "", "Instead of a kind: the films, outermost first."},
};
constexpr KeyRule kCoatingRules[] = {{How::one, "kind, layers"}};
constexpr KeyRow kFilm[] = {
    {"index", number(1.1, 3), kMust, "Its refractive index."},
    {"nm", number(1, 3000), kMust, "Its thickness in nanometres."},
};

}  // namespace

extern constexpr KeyTable coating{
    "stock.NAME.coating", "Thin films on a glossy face, which mirror in colours.", kCoating, kCoatingRules};
extern constexpr KeyTable film{"stock.NAME.coating.layers", "A thin film.", kFilm};
extern constexpr KeyTable streaks{"stock.NAME.streaks", "A second colour drawn out with the sheet.",
                                  kStreaks};
extern constexpr KeyTable wisps{"stock.NAME.wisps", "A second colour that curls like smoke.", kWisps};
extern constexpr KeyTable veins{"stock.NAME.veins", "Veins, as of marble.", kVeins};
extern constexpr KeyTable crackle{"stock.NAME.crackle", "The net of cracks of a glaze.", kCrackle};
extern constexpr KeyTable seeds{"stock.NAME.seeds", "Bubbles in glass.", kSeeds};
extern constexpr KeyTable cords{"stock.NAME.cords", "Threads in glass that gather light to lines.", kCords};
extern constexpr KeyTable veil{"stock.NAME.veil", "The faint white clouds of fusing.", kVeil};
extern constexpr KeyTable sand{"tints.NAME.sand", "Sand in grout; its mean colour stays.", kSand};
extern constexpr KeyTable mottling{"tints.NAME.mottling", "Slow unevenness of grout; its mean colour stays.",
                                   kMottling};
extern constexpr KeyTable face{"stock.NAME.face", "The pattern of a sheet's face.", kFace};

}  // namespace rakelight::keys
