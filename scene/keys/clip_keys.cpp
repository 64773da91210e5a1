// Clips: short moving pictures.
#include "scene/keys/keys.h"
#include "scene/keys/takes.h"

namespace rakelight::keys {

namespace {

constexpr Takes kLamp = text("the name of a lamp or group");

constexpr KeyRow kClips[] = {
    {"seconds", number(0.5, 60), "6", "How long each clip is."},
    {"frames a second", whole(12, 60), "24", "How many frames are shown in a second."},
    {"size", numbers(2, 16, 3840), "[1280, 720]", "Width and height in pixels, both even."},
    {"grain", share(0.0005, 0.5), "6 %", "Grain of the frames, as a relative error of a pixel."},
    {"most samples", whole(1, 65'536), "32", "At most this many samples a pixel of a frame."},
    {"viewpoint", text("the name of a viewpoint"), "the first",
     "Where lamps dimmed and a day are seen from."},
    {"walk past", mapping(clip_walk), "a walk of 2.2 m", "The clip of an eye that walks past."},
    {"dimmed", mapping(clip_dimming), "all lamps in turn", "The clip of lamps that are dimmed."},
    {"day", mapping(clip_day), "from 8 to 18 h", "The clip of a day that passes outside the windows."},
};

constexpr KeyRow kClipWalk[] = {
    {"from", length(-50'000, 50'000), "-1100 mm",
     "Where it begins, to the right of the middle; negative is to the left."},
    {"to", length(-50'000, 50'000), "1100 mm", "Where it ends, to the right of the middle; within the room."},
    {"distance", length(200, 50'000), "1.75 diagonals of the panel",
     "From the wall to the eye; within the room."},
    {"height", length(500, 50'000), "1600 mm", "Height of the eye above the floor."},
};

constexpr KeyRow kClipDimming[] = {
    {"lamps", list_of(kLamp, 1, 50), "all, in the order of the layout",
     "Lamps or groups that are dimmed one after another."},
    {"to", share(0, 1), "0 %", "What is left of the light of each."},
};

constexpr KeyRow kClipDay[] = {
    {"from", number(0, 24), "8", "Hour at which it begins, as daylight: time counts."},
    {"to", number(0, 24), "18", "Hour at which it ends."},
};

}  // namespace

extern constexpr KeyTable clips{"clips", "Short moving pictures of the work.", kClips};
extern constexpr KeyTable clip_walk{"clips.walk past", "An eye that walks past.", kClipWalk};
extern constexpr KeyTable clip_dimming{"clips.dimmed", "Lamps that are dimmed.", kClipDimming};
extern constexpr KeyTable clip_day{"clips.day", "A day that passes.", kClipDay};

}  // namespace rakelight::keys
