// The room and what stands in it.
#include "scene/keys/keys.h"
#include "scene/keys/takes.h"
#include "scene/room/furniture_forms.h"
#include "scene/room/wall_finish.h"

namespace rakelight::keys {

namespace {

constexpr Takes kPaint = text("the name of an opaque material");
constexpr Takes kPlace_mm = lengths(3, -50'000, 50'000);

std::vector<std::string> furniture_words() {
    return kFurnitureWords;
}
std::vector<std::string> wall_finishes() {
    return kWallFinishWords;
}
constexpr Takes kPiece = word(furniture_words) | mapping(furniture);
constexpr Takes kFurnitureForm = word(furniture_words);

constexpr KeyRow kRoom[] = {
    {"size", lengths(3, 500, 50'000), "[5000, 6000, 3000], wider and higher for a large panel",
     "Width along the panel's wall, depth out from it, height."},
    {"wall", kPaint, "gallery-white", "What the walls are painted with."},
    {"left wall", kPaint, "as wall", "The wall to the left of somebody who faces the panel."},
    {"right wall", kPaint, "as wall", "The wall to the right of somebody who faces the panel."},
    {"opposite wall", kPaint, "as wall", "The wall behind somebody who faces the panel."},
    {"panel wall", kPaint, "as wall", "The wall that the panel hangs on."},
    {"wall finish", word(wall_finishes), "smooth",
     "Smooth, stippled by a paint roller, brick, concrete between joints of formwork, or panelling; all "
     "four walls."},
    {"floor", kPaint, "floorboards", "What the floor is made of."},
    {"ceiling", kPaint, "gallery-white", "What the ceiling is painted with."},
    {"panel centre height", length(0, 50'000), "1450 mm, higher for a tall panel",
     "Height of the panel's middle above the floor."},
    {"lean", angle(0, 30), "0 deg", "How far the panel leans, its top out of the wall into the room."},
    {"windows", list(window, 0, 2000), "no windows", "Windows in the walls and in the ceiling."},
    {"boards", length(0, 400), "140 mm of timber in pictures of the place, else none",
     "Width of the floor's boards, along the longer side of the room; 0 = a floor without joints."},
    {"skirting", length(0, 400), "90 mm in pictures of the place, else none",
     "Height of the board along the foot of the walls; 0 = none."},
    {"joinery", kPaint, "gallery-white",
     "What skirting and the frames of doors are painted with or made of."},
    {"doors", list(door, 0, 2000), "one beside the work in pictures of the place, else none",
     "Doors in the walls, closed."},
    {"furniture", list_of(kPiece, 0, 2000), "a bench and a table in pictures of the place, else none",
     "What stands in the room: bench, table or chair at its usual place, or a mapping."},
};

constexpr KeyRow kWindow[] = {
    {"name", text("a name of its own"), kMust, "What the window is called; sun names the sun itself."},
    {"group", text("any name"), "its name", "Lights of one group are dimmed as one after the render."},
    {"wall", word("left, right, opposite, panel, ceiling"), kMust,
     "The wall it is in, as seen by somebody who faces the panel."},
    {"at", lengths(2, -50'000, 50'000), kMust,
     "Middle of the sill: along the wall (z in a side wall, else x), then its height; in the ceiling [x, z] "
     "of its middle."},
    {"size", lengths(2, 50, 20'000), kMust, "Width and height; in the ceiling along x, along z."},
    {"curtain", word("none, sheer, blind"), "none", "What hangs before the glass inside."},
    {"transmittance", share(0.001, 1), "80 %; sheer 40 %, blind 10 %",
     "Share of light that glass and curtain let through together."},
    {"lux", measure(Quantity::illuminance_lx, 0.001, 200'000), "by the daylight",
     "Light outside on the upright pane, from sky and ground."},
    {"dimmed to", share(0, 1), "100 %", "Dimmed to this share of its light."},
    {"panes", numbers(2, 1, 20), "no bars and no frame", "How many panes lie across, and how many up."},
    {"bar", length(5, 300), "40 mm", "Width of glazing bars and of the window's frame."},
    {"bar material", text("the name of an opaque material"), "gallery-white", "What the bars are made of."},
};

constexpr KeyRow kDoor[] = {
    {"name", text("a name of its own"), kMust, "What the door is called."},
    {"wall", word("left, right, opposite, panel"), "panel",
     "The wall it is in, as seen by somebody who faces the panel."},
    {"at", length(-50'000, 50'000), kMust,
     "Its middle along the wall: z in a side wall, else x. The floor is its sill."},
    {"size", lengths(2, 300, 5000), "[830, 2030]", "Width and height of the leaf."},
    {"material", kPaint, "oak", "What the leaf is painted with or made of."},
    {"handle", kPaint, "deep-grey", "What the handle is made of."},
};

constexpr KeyRow kFurniture[] = {
    {"name", text("a name of its own"), kMust, "What it is called."},
    {"form", kFurnitureForm, "box", "A plain box, a bench, a table or a chair."},
    {"at", kPlace_mm, "of a box it must be given; others have a usual place",
     "Middle of its underside in the room, [x, y, z]."},
    {"size", lengths(3, 1, 20'000),
     "of a box it must be given; bench [1300, 450, 380], table [480, 550, 400], chair [430, 820, 480]",
     "Its size along x, up, along z (not in the order of the room's size)."},
    {"material", text("the name of an opaque material"), "oak", "What it is made of."},
};

}  // namespace

extern constexpr KeyTable room{
    "room",
    "The room. [x, y, z] counts from the floor below the panel's middle: x to the right, y "
    "up, z out of the wall.",
    kRoom};
extern constexpr KeyTable window{"room.windows", "A window in a wall or in the ceiling.", kWindow};
extern constexpr KeyTable door{"room.doors", "A closed door between architraves.", kDoor};
extern constexpr KeyTable furniture{"room.furniture", "A piece of furniture with eased edges.", kFurniture};

}  // namespace rakelight::keys
