#include "output/samples/keys.h"

#include "scene/keys/takes.h"

namespace rakelight::sample_keys {

namespace {

using namespace keys;

constexpr Takes kCorner = numbers(2, kPixels.low, kPixels.high) | lengths(2, kOnSheet_mm);
constexpr Takes kRectangle = numbers(4, kPixels.low, kPixels.high) | lengths(4, kOnSheet_mm);

constexpr KeyRow kFile[] = {
    {"date", text_like("^[0-9]{4}-[0-9]{2}-[0-9]{2}$", "a day, as in 2026-11-27"), "today",
     "The day on which the photographs were taken."},
    {"photographs", list(photograph, 1, 100), kMust, "Pictures with the chart and samples in them."},
    {"samples", mapping(samples), kMust, "What the samples are."},
};

constexpr KeyRow kPhotograph[] = {
    {"picture", text("a picture file beside this one"), kMust,
     "Raw, JPEG, PNG, TIFF, HEIC or EXR; pixels count from its upper left corner."},
    {"places", word("in pixels, on the sheet"), "in pixels",
     "What places are told in: pixels, or mm on the printed sheet of marks, from its frame's upper left "
     "corner."},
    {"chart", mapping(chart), "found by itself", "Where the 24-patch chart lies."},
    {"light", text("a CIE illuminant, a temperature, or \"unknown daylight\"") | mapping(lamp),
     "unknown daylight", "What it was taken under, for the sheet; the chart tells what has to be known."},
    {"glass lies", word("dry, wetted"), "dry",
     "Whether air or a drop of water or oil lies between glass and card."},
    {"lit from", word("the side, all round"), "the side",
     "The side: lamps at 45 degrees or a window; all round: a tent or an overcast sky, mirrored by every "
     "face."},
    {"tone", word("camera, linear"), "linear for raw and EXR, else camera",
     "Camera: a tone curve is undone by the grey patches."},
    {"white sheet", list_of(kRectangle, 1, 40), "not there",
     "Rectangles of plain white paper round the samples, to see how the light falls off."},
    {"white card", kRectangle, "not there", "A rectangle of the white card that glass lies on elsewhere."},
    {"black card", kRectangle, "not there", "A rectangle of the black card."},
    {"samples", list(spot, 1, 500), kMust, "Where samples lie in this picture."},
};

constexpr KeyRow kChart[] = {
    {"corners", list_of(kCorner, 4, 4), kMust,
     "Outer corners of the patches dark skin, bluish green, black and white, in this order."},
};

constexpr KeyRow kLamp[] = {
    {"layout", text("a layout file beside this one"), kMust, "The layout that the lamp hangs in."},
    {"lamp", text("the name of a lamp"), kMust, "The lamp, or the first of its group."},
};

constexpr KeyRow kSpot[] = {
    {"name", text("the name of a sample"), kMust, "Which sample it is."},
    {"rectangle", kRectangle, kMust, "Left, top, width and height, well within the sample."},
    {"over", word("alone, white, black"), "alone",
     "What translucent glass lies on; alone for what nothing shows through."},
};

constexpr KeyRow kSamples[] = {any("NAME", mapping(sample), "A sample by a name of its own.")};

constexpr KeyRow kSample[] = {
    {"kind", word("glass, stone, slag, cement, epoxy, timber, paint"), kMust, "What it is made of."},
    {"thickness", length(0.5, 100), "6 mm; stone 10, slag 15, timber 20 mm",
     "Thickness of the sample; of translucent glass it must be given."},
    {"index", number(1, 3), "glass 1.52, epoxy 1.54, else 1",
     "Refractive index of its face; 1 has no gloss."},
    {"roughness", number(0, 1), "0; epoxy 0.25", "Roughness of a glossy face: 0 mirrors, 1 is dull."},
    {"milkiness", number(0, 20), "0",
     "Of translucent glass seen over white alone: scattering per mm; over white and black it is found."},
};

}  // namespace

extern constexpr KeyTable file{"samples file", "Photographs of samples, and what the samples are.", kFile};
extern constexpr KeyTable photograph{"photographs", "A picture with the chart and samples in it.",
                                     kPhotograph};
extern constexpr KeyTable chart{"photographs.chart", "Where the chart lies.", kChart};
extern constexpr KeyTable lamp{"photographs.light", "A lamp of a layout that lit the picture.", kLamp};
extern constexpr KeyTable spot{"photographs.samples", "Where a sample lies in a picture.", kSpot};
extern constexpr KeyTable samples{"samples", "The samples, each by a name of its own.", kSamples};
extern constexpr KeyTable sample{"samples.NAME", "What a sample is.", kSample};

}  // namespace rakelight::sample_keys
