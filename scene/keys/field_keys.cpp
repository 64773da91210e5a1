// Fields and stones.
#include "scene/keys/keys.h"
#include "scene/keys/takes.h"
#include "scene/model/form_words.h"
#include "scene/opus/opera.h"

namespace rakelight::keys {

namespace {

std::vector<std::string> opera_words() {
    return {opus_words().begin(), opus_words().end()};
}
std::vector<std::string> piece_forms() {
    return form_words();
}

constexpr Takes kPoint = lengths(2, kNearPanel_mm);
constexpr Takes kPoints = list_of(kPoint, 0, 20'000);
constexpr Takes kGuide = kPoints | mapping(guide);
constexpr Takes kShape = kPoints | mapping(curve) | mapping(shape);
constexpr Takes kMaterial = text("the name of a material");
constexpr Takes kTint = text("the name of a tint");

constexpr KeyRow kField[] = {
    {"name", text("a name of its own"), kMust,
     "What the field is called; a group or path of the drawing of this name gives its outline."},
    {"opus", word(opera_words), "tessellatum", "How its rows run."},
    {"drawn", text("the name of a group or path of the drawing"), "its name",
     "Where the drawing has its outline and guides under another name."},
    {"outline", kPoints | mapping(outline), "the whole panel",
     "Its edge; the field takes what earlier fields and stones have left within."},
    {"guides", list_of(kGuide), "straight rows", "Andamento: the lines that rows follow."},
    {"breaks", list_of(kGuide), "no breaks",
     "Lines where the andamento changes at one stroke: a joint runs there and rows end."},
    {"seam", word("fan, mitre"), "fan",
     "Where rows of two guides meet at 40 degrees or more: they turn, or end on one line, mitred."},
    {"rows", word("along, across"), "along", "Whether rows run along the guides or across them."},
    {"rows at", angle(-360, 360), "0 deg", "Direction of straight rows, counter-clockwise from level."},
    {"halo", whole(0, 50) | mapping(halo), "0; classicum 2",
     "Rows that follow the field's edge before all others; the panel's edge only in classicum, or as told."},
    {"piece", length(0.5, 3000) | lengths(2, 0.5, 3000), "10 mm",
     "Size of a piece along the row and across it; one number is both."},
    {"joint", length(0, 50), "1.5 mm", "Width of the joints; in sectile 0.2 to 1 mm is usual."},
    {"thickness", length(0.5, 100), "the material's", "Thickness of the pieces of this field."},
    {"mix", kMaterial | mapping(shares) | mapping(shades) | mapping(mix_picture), kMust,
     "What is laid: a material, shares that sum to 100 %, shades that change over the field, or a picture."},
    {"accents", mapping(accent) | list(accent, 0, 2000), "no accents", "Stray pieces, spread well apart."},
    {"bed", kTint, "epoxy-charcoal", "Tint of the bed, seen through translucent glass."},
    {"grout", text("the name of a tint, or none for open joints"), "mid-grey", "Tint of the joints."},
    {"zone", text("any name"), "the grout's name", "The batch of grout that its joints are filled from."},
    {"recess", length(0, 50), "as wide as the joint, 0.3 to 1 mm",
     "How far the grout lies below the faces; 2 to 4 mm makes shadow joints."},
    {"wash", share(0, 0.6), "0 %",
     "Share of rough stones' faces on which a film of grout stays, in pores and hollows."},
    {"fill", share(0.05, 1), "by recess",
     "In place of recess: share of the thinnest piece's height that the grout fills."},
    {"form", word(piece_forms), "usual", "How its pieces are made."},
    {"setting", word("reverse, levelled, direct, direct smalti, direct riven, catching light"),
     "tilt 1.5 deg, lippage 0.5 mm", "How they are set, with the tilt and lippage usual for it."},
    {"tilt", angle(0, 30), "by setting", "How far faces tilt by chance each way, as a standard deviation."},
    {"lippage", length(0, 20), "by setting", "How far faces differ in height, as a standard deviation."},
    {"tilt patch", length(20, 5000), "220 mm", "How far a day's patch of like tilt reaches."},
    {"dome", length(0, 20), "of the material",
     "How far the middle of a face stands above the middles of its sides; 0 is flat."},
    {"lean towards", mapping(lean), "faces are not turned", "What the faces are turned to on purpose."},
    {"lean by", angle(0, 30), "10 deg", "How far the usual face is turned there."},
    {"fan", length(1, 20'000), "ten widths of a piece", "Of fans: radius of the arcs."},
    {"set", word("flat, on edge"), "flat", "Of pebbles: how they lie."},
    {"sizes", lengths(2, 0.5, 3000), "all about alike",
     "Of palladianum, in place of piece: across the smallest and the largest stone."},
    {"shapes", list_of(kShape, 1, 2000), "must be given in sectile",
     "Of sectile: the drawn shapes, one piece each."},
    {"boulders", mapping(boulders), "no boulders",
     "Large stones strewn over the field; rows part round them."},
};
constexpr KeyRule kFieldRules[] = {{How::at_most_one, "fill, recess"}, {How::at_most_one, "piece, sizes"}};

constexpr KeyRow kLean[] = {
    {"lamp", text("the name of a lamp"), "", "Turned to a lamp."},
    {"viewpoint", text("the name of a viewpoint"), "",
     "Turned to a viewpoint; with a lamp as well, the pieces reflect that lamp to it."},
    {"point", lengths(3, kAnywhere_mm), "", "Turned to a point [x, y, z] of the room."},
};
constexpr KeyRule kLeanRules[] = {{How::some, "lamp, viewpoint, point"},
                                  {How::at_most_one, "lamp, point"},
                                  {How::at_most_one, "viewpoint, point"}};

constexpr KeyRow kAccent[] = {
    {"material", kMaterial, kMust, "What the stray pieces are cut from."},
    {"count", whole(1, 100'000), kMust, "How many of them."},
};

constexpr Takes kFigure = text("the name of another field");

constexpr KeyRow kHalo[] = {
    {"rows", whole(0, 50), "2", "How many."},
    {"round", kFigure | list_of(kFigure, 1, 2000), "all that the field borders on",
     "The figures that they follow, and nothing else."},
    {"panel edge", word("no, yes"), "no; in classicum yes", "Whether they follow the edge of the panel too."},
};

constexpr KeyRow kBoulders[] = {
    {"material", kMaterial, kMust, "What they are."},
    {"count", whole(1, 200), kMust, "How many; three to seven look like accents."},
    {"size", lengths(2, 2, 1000), "[25, 45]", "Length of the smallest and of the largest."},
    {"proud share", share(0.05, 0.8), "45 %",
     "Share of their height that stands above the faces round them."},
    {"form", word("chunk, pebble"), "chunk", "Broken, or worn round by water."},
};

constexpr KeyRow kStone[] = {
    {"material", kMaterial, kMust, "What the stone is."},
    {"at", lengths(2, kNearPanel_mm), kMust, "Its middle on the panel, [x, y]."},
    {"size", lengths(3, 1, 1000), "[30, 25, 18]", "Length, width and height over all."},
    {"turn", angle(-360, 360), "0 deg", "Turned counter-clockwise, seen from the front."},
    {"proud", length(0, 300), "10 mm", "How far it stands above the faces round it."},
    {"form", word("chunk, pebble"), "chunk", "Broken, or worn round by water."},
    {"seed", seed(), "its place in the list", "Another number gives another stone of the same size."},
};

}  // namespace

extern constexpr KeyTable field{
    "fields", "An area laid one way with one mix. On the panel [x, y] counts from its lower left corner.",
    kField, kFieldRules};
extern constexpr KeyTable lean{"fields.lean towards", "What faces are turned to on purpose.", kLean,
                               kLeanRules};
extern constexpr KeyTable accent{"fields.accents", "Stray pieces of one material.", kAccent};
extern constexpr KeyTable halo{"fields.halo", "Rows that follow edges before all others.", kHalo};
extern constexpr KeyTable boulders{"fields.boulders", "Large stones strewn over a field.", kBoulders};
extern constexpr KeyTable stone{
    "stones", "A stone set by hand. [x, y] counts from the lower left corner of the panel.", kStone};

}  // namespace rakelight::keys
