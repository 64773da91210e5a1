// What a field is laid with, where it is more than one material.
#include "scene/keys/keys.h"
#include "scene/keys/takes.h"

namespace rakelight::keys {

namespace {

constexpr Takes kPoint = lengths(2, kNearPanel_mm);
constexpr Takes kPoints = list_of(kPoint, 0, 20'000);
constexpr Takes kOwnLine = kPoints | mapping(line);
constexpr Takes kGuideOrLine = whole(1, 2000) | kOwnLine;
constexpr Takes kShade = text("the name of a material") | mapping(shares);
constexpr Takes kLadders = text("the name of a material or ladder");
constexpr Takes kStations =
    measures(0, Quantity::share, 0, 1) | lengths(0, kNearPanel_mm.low, kNearPanel_mm.high);

constexpr KeyRow kShares[] = {any("MATERIAL", share(0, 1), "Its share; all of them sum to 100 %.")};

constexpr KeyRow kShades[] = {
    {"shades", text("the name of a ladder") | list_of(kShade, 2, 100), kMust,
     "Materials or mixes, one for each station, or a ladder."},
    {"along", kGuideOrLine, "", "Stations lie along a line, in % of its length: a guide's number or a line."},
    {"across", kGuideOrLine, "", "Stations lie across a line, in mm, positive to its left as it was drawn."},
    {"away from", text("edge, a field laid earlier, or the number of a guide") | kOwnLine, "",
     "Stations lie away from an edge or line, in mm."},
    {"towards", angle(-360, 360), "",
     "Stations lie in a direction, counter-clockwise from level, in % of the field."},
    {"over", measures(2, Quantity::share, 0, 1) | lengths(2, kNearPanel_mm), "the whole field",
     "Place of the first and of the last station, the others evenly between."},
    {"at", kStations, "evenly", "Place of each station."},
    {"blend", share(0, 1), "100 %", "Share of the way between two stations that holds both shades."},
};
constexpr KeyRule kShadesRules[] = {{How::one, "along, across, away from, towards"},
                                    {How::at_most_one, "over, at"}};

constexpr KeyRow kPicture[] = {
    {"picture", text("a picture beside the layout (PNG, JPEG or TIFF)"), kMust,
     "Each piece takes the material nearest in colour to what lies under it."},
    {"from", kLadders | list_of(kLadders, 1, 100), kMust, "Materials or ladders to choose from."},
    {"at most", mapping(most_of), "as many as needed", "The most pieces of some materials."},
    {"place", word("panel, field") | lengths(3, kNearPanel_mm), "panel",
     "What the picture covers, or [x, y, width] of its lower left corner."},
    {"error diffusion", share(0, 1), "0 %",
     "Share of each piece's error of colour that its neighbours make good."},
    {"elsewhere", text("the name of a material"), "", "Laid where the picture is clear or missing."},
};

constexpr KeyRow kMost[] = {any("MATERIAL", whole(0, 1e7), "The most pieces of it in this field.")};

}  // namespace

extern constexpr KeyTable shares{"fields.mix", "Shares of a mix, which sum to 100 %.", kShares};
extern constexpr KeyTable shades{"fields.mix.shades", "A mix that changes over its field.", kShades,
                                 kShadesRules};
extern constexpr KeyTable mix_picture{"fields.mix.picture", "A mix that follows a picture.", kPicture};
extern constexpr KeyTable most_of{"fields.mix.at most", "The most pieces of some materials.", kMost};

}  // namespace rakelight::keys
