// The portfolio.
#include "scene/keys/keys.h"
#include "scene/keys/takes.h"
#include "scene/room/stand_in.h"

namespace rakelight::keys {

namespace {

std::vector<std::string> stand_ins() {
    return kStandInWords;
}

constexpr WordSource kShots{
    "straight, sparkle, raking, three-quarter, details, edge, both, in place, day, dusk, walk past"};
constexpr Takes kShot = word(kShots.listed);
constexpr Takes kLine = text("any text");

constexpr KeyRow kPortfolio[] = {
    {"show", list_of(kShot, 1, 11), "all that can be shown",
     "Pictures of the set, in the order they are shown in."},
    {"light", mapping(shot_lights), "day in north light, dusk in dusk, else own light",
     "Set-ups of light for some of the pictures."},
    {"general light", measure(Quantity::illuminance_lx, 0, 2000),
     "120 lx in place, 50 lx at dusk; none with windows or a light named for the picture",
     "What the wall beside the work gets in place and at dusk, beside the spots; lacking light is added."},
    {"print", length(40, 1200), "200 mm", "Longer side of a print."},
    {"dpi", whole(36, 1200), "300", "Pixels to an inch of the prints."},
    {"grain", share(0.0005, 0.5), "4 %", "Grain of the finished pictures, as a relative error of a pixel."},
    {"most samples", whole(1, 65'536), "64", "At most this many samples a pixel."},
    {"details", list(close_up, 0, 2000), "three places", "Near views of parts of the panel."},
    {"lens", mapping(lens), "90 mm, f/8", "The lens of all pictures."},
    {"scale figures", list(stand_in, 0, 2000), "a figure to the right of the work",
     "What stands in pictures of the room to give scale."},
    {"walk past", mapping(walk), "seven frames", "The frames of the picture walk past."},
    {"caption", mapping(caption), "the panel's name", "What captions say beside size, weight and materials."},
};

constexpr KeyRow kShotLights[] = {each_of("PICTURE", kShots, text("the name of a set-up of light"), "",
                                          "The set-up of light of this picture of the set.")};

constexpr KeyRow kCloseUp[] = {
    {"at", lengths(2, -1e5, 1e5), kMust, "Its middle on the panel, [x, y]."},
    {"width", length(30, 400), "150 mm", "Width of what is seen."},
};

constexpr KeyRow kLens[] = {
    {"focal length", length(20, 400), "90 mm", "Focal length in front of film of 36 x 24 mm."},
    {"f-number", number(1, 64), "8", "Aperture; details and edge have its depth of field."},
};

constexpr KeyRow kStandIn[] = {
    {"what", word(stand_ins), kMust, "A standing figure, a bench or a chair."},
    {"at", lengths(2, -50'000, 50'000), kMust, "Where it stands on the floor, [x, z]."},
    {"turn", angle(-360, 360), "0 deg",
     "Turned counter-clockwise, seen from above; at 0 it faces the panel's wall."},
    {"height", length(200, 2200), "figure 1700, bench 450, chair 820 mm",
     "Height over all: 800 to 2200 mm of a figure, 200 to 1300 mm of the others."},
};

constexpr KeyRow kWalk[] = {
    {"from", length(-50'000, 50'000), "-1100 mm",
     "Where it begins, to the right of the middle; negative is to the left."},
    {"to", length(-50'000, 50'000), "1100 mm", "Where it ends, to the right of the middle; within the room."},
    {"steps", whole(2, 25), "7", "How many frames, both ends among them."},
    {"distance", length(200, 50'000), "1.75 diagonals of the panel",
     "From the wall to the eye; within the room."},
    {"height", length(500, 50'000), "1600 mm", "Height of the eye above the floor."},
};

constexpr KeyRow kCaption[] = {
    {"title", kLine, "the panel's name", "Title of the work."},
    {"artist", kLine, "", "Who made it."},
    {"year", kLine, "", "When it was made."},
    {"materials", kLine, "from the layout", "Materials, in place of those that are known."},
    {"edition", kLine, "", "Unique, or which of an edition."},
    {"inventory", kLine, "", "Number in the artist's own list."},
    {"price", kLine, "", "Price, as it is to be read."},
    {"site", kLine, "", "Where it is to hang."},
    {"client", kLine, "", "Who it is made for."},
    {"credit", kLine, "", "Who made the pictures."},
    {"statement", kLine, "", "A few sentences on the work."},
    {"date", kLine, "today", "Day of the proposal, such as 2026-11-27."},
};

}  // namespace

extern constexpr KeyTable portfolio{"portfolio", "Pictures and captions of the finished work.", kPortfolio};
extern constexpr KeyTable shot_lights{"portfolio.light", "Set-ups of light for some of the pictures.",
                                      kShotLights};
extern constexpr KeyTable close_up{"portfolio.details", "A near view of a part of the panel.", kCloseUp};
extern constexpr KeyTable lens{"portfolio.lens", "A lens in front of film of 36 x 24 mm.", kLens};
extern constexpr KeyTable stand_in{"portfolio.scale figures", "What gives a picture its scale.", kStandIn};
extern constexpr KeyTable walk{"portfolio.walk past", "Frames seen by somebody who walks past.", kWalk};
extern constexpr KeyTable caption{"portfolio.caption", "Lines of captions; what is left out is not printed.",
                                  kCaption};

}  // namespace rakelight::keys
