// The file itself, and the panel.
#include "materials/stock/finish.h"
#include "scene/keys/keys.h"
#include "scene/keys/takes.h"

namespace rakelight::keys {

namespace {

std::vector<std::string> finishes() {
    return finish_words();
}

constexpr Takes kFinish = word(finishes);
constexpr Takes kSetUpName = text("the name of a set-up of light");

constexpr Takes kFile = text("a YAML file beside the layout");

constexpr KeyRow kLayout[] = {
    {"like", kFile, "", "A base layout that this one changes; what is not said here is as it says."},
    {"stock from", kFile | list_of(kFile, 1, 50), "", "Stock libraries: files of stock, tints and pigments."},
    {"units", word("metric, inches"), "metric",
     "What lengths and weights are shown in; JSON and CSV stay metric."},
    {"panel", mapping(panel), kMust, "The work itself: its size, its board and its frame."},
    {"stock", mapping(stock), "what is built in", "Glass, stone and other materials of your own, by name."},
    {"tints", mapping(tints), "what is built in", "Tints of your own for bed and grout, by name."},
    {"pigments", mapping(pigments), "what is built in", "Pigments of your own that tints are mixed from."},
    {"drawing", text("an SVG file beside the layout") | mapping(drawing), "",
     "A drawing, a map of flat colours, or a scan of paper, from which fields take outlines and guides."},
    {"fields", list(field, 1, 2000), kMust,
     "The areas of the mosaic in the order in which they are laid: figures first, background last."},
    {"stones", list(stone, 0, 2000), "",
     "Stones set one by one before everything else; fields flow round them."},
    {"pieces", text("a CSV or JSON file beside the layout"), "",
     "A piece table, edited by hand, to lay instead of what the fields would give."},
    {"beside", mapping(beside), "", "Another panel that hangs beside this one."},
    {"room", mapping(room), "a room that the panel fits into", "The room in which the panel hangs."},
    {"daylight", mapping(daylight), "an overcast sky", "The light outside the windows."},
    {"light all round", mapping(all_round), "the room's walls, and windows",
     "A picture of light from all round, in place of all of the room but the wall of the panel."},
    {"lamps", list(lamp, 0, 2000), "two gallery spots at 30 degrees; with light all round none",
     "The lamps of the room; a lamp here is the whole luminaire."},
    {"set-ups", mapping(set_ups), "", "Other set-ups of light, by name."},
    {"light", kSetUpName | list_of(kSetUpName, 1, 50), "own light",
     "The set-up of light that is on, or several, each shown in turn."},
    {"viewpoints", list(viewpoint, 0, 2000), "straight ahead of the panel, standing",
     "Where the panel is seen from."},
    {"pictures", list(picture, 0, 2000), "one, from the first viewpoint", "The pictures that are made."},
    {"board", mapping(board), "", "A sample board: rows and columns of choices to compare."},
    {"glare", mapping(glare), "usual limits", "What counts as glare here, and what may be moved against it."},
    {"portfolio", mapping(portfolio), "the usual set", "Pictures and captions of the finished work."},
    {"clips", mapping(clips), "the usual clips", "Short moving pictures of the work."},
    {"in photographs", mapping(photographs), "", "Photographs of the wall that the panel is set into."},
    {"take-off", mapping(take_off), "usual figures", "How material is cut, bought and laid."},
    {"zones", mapping(zones), "usual figures", "How grout is mixed and spread, zone by zone."},
    {"hanging", mapping(hanging), "usual figures", "How the panel is fixed to its wall."},
};

constexpr KeyRow kPanel[] = {
    {"name", text("any name"), "panel", "What the work is called."},
    {"size", lengths(2, 20, 10'000), kMust,
     "Width and height of the work without its frame; of one that is divided, gaps included."},
    {"seed", seed(), "1", "Another number changes the chance in the laying, as another day's work would."},
    {"substrate", mapping(substrate), "cement-board, 12 mm", "The board that the work is laid on."},
    {"frame", mapping(frame), "no frame", "A frame round the work."},
    {"divided", mapping(division), "", "The work hangs as several panels side by side, of one drawing."},
};

constexpr Takes kPanelName = text("a name");

constexpr KeyRow kDivision[] = {
    {"at", length(1, 10'000) | lengths(0, 1, 10'000), kMust,
     "How far from the left edge of the work the middle of a gap lies, or of several."},
    {"gap", length(0, 5000), "40 mm", "Gap between the frames, or where there are none between the panels."},
    {"panels", list_of(kPanelName, 2, 12), kMust, "What each panel is called, from left to right."},
};

constexpr KeyRow kSubstrate[] = {
    {"material", text("the name of a material"), "cement-board", "What the board is made of."},
    {"thickness", length(1, 200), "12 mm", "Thickness of the board."},
    {"bed thickness", length(0.1, 50), "2 mm", "Thickness of the setting bed under the pieces."},
};

constexpr KeyRow kFrame[] = {
    {"material", text("the name of a material"), "oak", "What the frame is made of."},
    {"finish", kFinish | list_of(kFinish, 0, 6), "as the material",
     "What is done to the bars: a timber raw, oiled, waxed or lacquered."},
    {"width", length(1, 500), "20 mm", "Width of a bar of the frame, seen from the front."},
    {"proud", length(0, 200), "6 mm", "How far the frame stands in front of the usual faces of the work."},
    {"gap", length(0, 100), "0 mm", "Shadow gap between the work and the frame."},
};

constexpr KeyRow kBeside[] = {
    {"layout", text("a layout file beside this one"), kMust, "The layout of the other panel."},
    {"gap", length(0, 5000), "40 mm", "Gap between the frames, or where there are none between the panels."},
    {"side", word("left, right"), "right", "On which side the other panel hangs, seen from the front."},
    {"lamps", word("dark, lit"), "dark",
     "Whether the lamps of the other layout are lit here too, before their own panel."},
};

}  // namespace

extern constexpr KeyTable layout{"layout", "The file itself: a mapping with these keys.", kLayout};
extern constexpr KeyTable panel{"panel", "The work, its board and its frame.", kPanel};
extern constexpr KeyTable substrate{"panel.substrate", "The board that the work is laid on.", kSubstrate};
extern constexpr KeyTable frame{"panel.frame", "The frame round the work, mitred at its corners.", kFrame};
extern constexpr KeyTable division{
    "panel.divided", "A diptych or triptych: one drawing, which goes on unseen behind the gaps.", kDivision};
extern constexpr KeyTable beside{"beside", "The panel that hangs beside this one, from a layout of its own.",
                                 kBeside};

}  // namespace rakelight::keys
