// Viewpoints and pictures.
#include "scene/keys/keys.h"
#include "scene/keys/takes.h"
#include "scene/model/eye_heights.h"

namespace rakelight::keys {

namespace {

std::vector<std::string> viewers() {
    std::vector<std::string> words;
    for (const EyeHeight& eyes : kEyeHeights) words.emplace_back(eyes.who);
    return words;
}

constexpr Takes kName = text("the name of a lamp or group");

constexpr KeyRow kViewpoint[] = {
    {"name", text("a name of its own"), kMust, "What the viewpoint is called."},
    {"distance", length(10, 50'000), "1.75 diagonals of the panel, at least 1 m",
     "From the panel's wall to the eye."},
    {"height", length(kAnywhere_mm.low, kAnywhere_mm.high), "that of the panel's middle",
     "Height of the eye above the floor."},
    {"eyes", word(viewers), "", "In place of height: whose eyes they are."},
    {"sideways", length(kAnywhere_mm.low, kAnywhere_mm.high), "0 mm",
     "How far the eye is to the right of the panel's middle."},
    {"walk past", mapping(walk_past), "", "A row of viewpoints, as of somebody who walks past."},
    {"eye", lengths(3, kAnywhere_mm), "", "In place of all these: where the eye is in the room, [x, y, z]."},
    {"look at", lengths(3, kAnywhere_mm), "the panel's middle", "The point [x, y, z] that is looked at."},
    {"view width", length(1, 50'000), "panel and frame with 12 % round them",
     "How much of the wall is seen, at the point looked at."},
    {"focal length", length(4, 2000), "",
     "In place of view width: of a lens in front of film of 36 x 24 mm."},
    {"perspective", word("natural, upright, square"), "natural",
     "As an eye sees, with upright lines upright, or with the panel's lines square."},
};
constexpr KeyRule kViewpointRules[] = {
    {How::at_most_one, "eye, distance"},       {How::at_most_one, "eye, height"},
    {How::at_most_one, "eye, sideways"},       {How::at_most_one, "eye, eyes"},
    {How::at_most_one, "eye, walk past"},      {How::at_most_one, "height, eyes"},
    {How::at_most_one, "sideways, walk past"}, {How::at_most_one, "view width, focal length"}};

constexpr KeyRow kWalkPast[] = {
    {"from", length(kAnywhere_mm.low, kAnywhere_mm.high), kMust,
     "How far to the right of the middle it begins; negative is to the left."},
    {"to", length(kAnywhere_mm.low, kAnywhere_mm.high), kMust, "How far to the right of the middle it ends."},
    {"steps", whole(2, 99), "5", "How many viewpoints, both ends among them."},
};

constexpr KeyRow kPicture[] = {
    {"name", text("a name of its own"), kMust, "What the picture's file is called."},
    {"viewpoint", text("the name of a viewpoint"), "the first", "Where it is taken from."},
    {"light", text("the name of a set-up of light"), "each of the layout's light",
     "The set-up of light that it is taken in."},
    {"lamps", list_of(kName, 1), "all of them", "Lamps or groups that are on."},
    {"size", numbers(2, 16, 16384), "[1200, 900]", "Width and height in pixels."},
    {"exposure", word("grey-card, adapted"), "grey-card",
     "By a grey card on the panel, or as an eye adapts to the picture."},
    {"ev", number(-10, 25), "by exposure", "In place of exposure: exposure value at ISO 100."},
    {"grain", share(0.0005, 0.5), "2 %", "Grain of the finished picture, as a relative error of a pixel."},
    {"most samples", whole(1, 65'536), "512", "At most this many samples a pixel."},
    {"grain seed", seed(), "the panel's", "Another number gives other grain of the same size."},
};
constexpr KeyRule kPictureRules[] = {{How::at_most_one, "exposure, ev"}};

}  // namespace

extern constexpr KeyTable viewpoint{"viewpoints", "Where the panel is seen from.", kViewpoint,
                                    kViewpointRules};
extern constexpr KeyTable walk_past{"viewpoints.walk past", "A row of viewpoints along the panel.",
                                    kWalkPast};
extern constexpr KeyTable picture{"pictures", "A picture that is made.", kPicture, kPictureRules};

}  // namespace rakelight::keys
