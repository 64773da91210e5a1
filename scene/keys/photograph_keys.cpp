// Photographs of the wall that the panel is shown in.
#include "scene/keys/keys.h"
#include "scene/keys/takes.h"

namespace rakelight::keys {

namespace {

constexpr Takes kPixel = numbers(2, -100'000, 100'000);

constexpr KeyRow kWallPhotograph[] = {
    {"picture", text("a photograph beside the layout"), kMust, "The photograph of the wall, not cropped."},
    {"sheet",
     lengths(2, 20, 20'000) |
         word("A5 upright, A5 lying, A4 upright, A4 lying, A3 upright, A3 lying, A2 upright, A2 lying, "
              "Letter upright, Letter lying, Tabloid upright, Tabloid lying"),
     "the printed sheet of marks",
     "Width and height of what lies flat on the wall: a sheet of paper, a tile, a door."},
    {"corners", list_of(kPixel, 4, 4), "found by printed marks",
     "Pixels of its upper left, upper right, lower right and lower left corner."},
    {"panel centre", lengths(2, kNearPanel_mm), "[0, 0], over the sheet",
     "Where the middle of the panel is to hang, to the right of the sheet's middle and above it."},
    {"focal length", length(8, 1200), "as the camera noted it, else found",
     "Of the lens, as it would be in front of film of 36 x 24 mm."},
    {"light", text("the name of a set-up of light"), "as the photograph has it",
     "The set-up of light that the panel is shown in."},
    {"light from", measures(2, Quantity::angle_deg, -85, 85), "[-30, 50]",
     "Where the main light of the photograph comes from, seen from the panel: degrees to the right, and up."},
    {"light share", share(0, 0.95), "60 %", "How much of the light on the panel is that main light."},
    {"light across", angle(2, 90), "15 degrees", "How wide the main light is: the sun 2, a window 40."},
    {"white", share(0.2, 1), "85 %, paper", "How much light the sheet reflects."},
    {"exposure by", word("sheet, wall"), "sheet",
     "What says how bright the light is in the photograph: the sheet, or the wall as the room has it."},
    {"mask", text("a picture beside the layout"), "",
     "Of the photograph's size, white where something stands in front of the panel, else black."},
    {"width", whole(64, 8192), "1600, or as wide as the photograph", "Width of the picture in pixels."},
    {"samples", whole(1, 65'536), "128", "How many samples a pixel gets."},
};
constexpr KeyRule kWallPhotographRules[] = {{How::at_most_one, "light, light from"},
                                            {How::at_most_one, "light, light share"},
                                            {How::at_most_one, "light, light across"}};

constexpr KeyRow kInPhotographs[] = {
    any("NAME", mapping(photograph), "A photograph by a name of its own, that of its picture.")};

}  // namespace

extern constexpr KeyTable photographs{"in photographs", "The panel set into photographs of its wall.",
                                      kInPhotographs};
extern constexpr KeyTable photograph{"in photographs.NAME", "A photograph of the wall.", kWallPhotograph,
                                     kWallPhotographRules};

}  // namespace rakelight::keys
