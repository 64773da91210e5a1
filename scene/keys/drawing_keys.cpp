// Drawings, and lines on the panel.
#include "scene/keys/keys.h"
#include "scene/keys/takes.h"

namespace rakelight::keys {

namespace {

constexpr Takes kPoint = lengths(2, kNearPanel_mm);
constexpr Takes kPoints = list_of(kPoint, 0, 20'000);
constexpr Takes kPixel = numbers(2, -100'000, 100'000);
constexpr Takes kDrawn = text("the name of a group or path of the drawing");

constexpr KeyRow kDrawing[] = {
    {"file", text("an SVG file beside the layout"), "", "A drawing in lines."},
    {"areas", text("a picture beside the layout"), "", "A map of flat colours, each of them an area."},
    {"scan", text("a picture beside the layout"), "", "A photograph or scan of a drawing on paper."},
    {"width", length(1, 20'000), "its own; of a map the panel's", "Its width on the panel."},
    {"tolerance", length(0.001, 5), "0.05 mm", "How far curves of a drawing may be cut short."},
    {"specks", length(0, 1000), "3 mm",
     "Areas of a map, or of a scan, smaller than a square of this side go to a neighbour."},
    {"paper", lengths(2, 10, 20'000), "of the printed sheet its frame",
     "Width and height of a scan's paper between its corners."},
    {"corners", word("whole") | list_of(kPixel, 4, 4), "found by printed marks",
     "Pixels of the paper's upper left, upper right, lower right and lower left corner in a scan; whole: the "
     "paper fills it."},
    {"gaps", length(0, 50), "2 mm", "Gaps in the lines of a scan up to this width on its paper are closed."},
    {"outlines", word("black, red, orange, yellow, green, blue, violet"), "black",
     "Colour of the lines of a scan that are outlines; pencil is black, and lines of another colour are "
     "guides."},
    {"colours", mapping(map_colours), "must be given of a map", "Names of the colours of a map."},
};
constexpr KeyRule kDrawingRules[] = {
    {How::one, "file, areas, scan"},          {How::all_or_none, "areas, colours"},
    {How::at_most_one, "file, specks"},       {How::at_most_one, "areas, scan, tolerance"},
    {How::at_most_one, "file, areas, paper"}, {How::at_most_one, "file, areas, corners"},
    {How::at_most_one, "file, areas, gaps"},  {How::at_most_one, "file, areas, outlines"}};

constexpr KeyRow kColours[] = {
    any("NAME", text_like("^#?[0-9a-fA-F]{6}$", "six hexadecimal digits in quotes, as in \"#1f4a5a\""),
        "A colour of the map by the name that fields use.")};

constexpr KeyRow kSmooth{"smooth", kPoints, "", "A curve through points [x, y]."};
constexpr KeyRow kStraight{"straight", kPoints, "", "Straight from point to point."};
constexpr KeyRow kClosedSmooth{"closed smooth", kPoints, "", "A curve that comes back to its first point."};
constexpr KeyRow kClosedStraight{"closed straight", kPoints, "",
                                 "Straight from point to point and back to the first."};
constexpr KeyRow kByDrawing{"drawn", kDrawn, "", "What is drawn under this name."};

constexpr KeyRow kScanAt{"scan at", kPoint | kPoints, "",
                         "The region of a scan that holds this point [x, y], or regions that hold points."};
constexpr KeyRow kScanSpot{"scan spot", word("red, orange, yellow, green, blue, violet"), "",
                           "Every region of a scan with a felt-tip spot of this colour."};

constexpr KeyRow kCurve[] = {kSmooth, kStraight};
constexpr KeyRow kOutline[] = {kSmooth, kStraight, kByDrawing, kScanAt, kScanSpot};
constexpr KeyRow kLine[] = {kSmooth, kStraight, kClosedSmooth, kClosedStraight};
constexpr KeyRow kGuide[] = {kSmooth, kStraight, kClosedSmooth, kClosedStraight, kByDrawing};
constexpr KeyRow kShape[] = {
    {"outline", kPoints | mapping(curve), kMust, "The drawn line: the middle of the joint."},
    {"material", text("the name of a material"), "from the field's mix", "What the shape is cut from."},
};
constexpr KeyRule kOneCurve[] = {{How::one, "smooth, straight"}};
constexpr KeyRule kOneOutline[] = {{How::one, "smooth, straight, drawn, scan at, scan spot"}};
constexpr KeyRule kOneLine[] = {{How::one, "smooth, straight, closed smooth, closed straight"}};
constexpr KeyRule kOneGuide[] = {{How::one, "smooth, straight, closed smooth, closed straight, drawn"}};

}  // namespace

extern constexpr KeyTable drawing{
    "drawing", "A drawing, a map of flat colours, or a scan of paper, to take fields from.", kDrawing,
    kDrawingRules};
extern constexpr KeyTable map_colours{"drawing.colours", "Names of the colours of a map.", kColours};
extern constexpr KeyTable curve{"fields.shapes.outline", "An outline as it is drawn.", kCurve, kOneCurve};
extern constexpr KeyTable outline{
    "fields.outline", "An outline: a closed line by points, or from the drawing.", kOutline, kOneOutline};
extern constexpr KeyTable line{"fields.mix.along", "A line across a field.", kLine, kOneLine};
extern constexpr KeyTable guide{"fields.guides", "A guide or a break: a line by points, or from the drawing.",
                                kGuide, kOneGuide};
extern constexpr KeyTable shape{"fields.shapes", "A shape with a material of its own.", kShape};

}  // namespace rakelight::keys
