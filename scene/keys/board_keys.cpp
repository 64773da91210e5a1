// The sample board.
#include "scene/keys/keys.h"
#include "scene/keys/takes.h"

namespace rakelight::keys {

namespace {

constexpr Takes kField = text("the name of a field");
constexpr Takes kLampName = text("the name of a lamp or group");
constexpr Takes kTint = text("the name of a tint");
constexpr Takes kGrout = text("the name of a tint, or none for open joints");
constexpr Takes kJoint = length(0, 50);
constexpr Takes kSetUp = text("the name of a set-up of light");
constexpr Takes kDone = word("cured, unsealed, wet, sealed, waxed, hazed, brushed, tumbled, sandblasted");
constexpr Takes kLamps = kLampName | list_of(kLampName, 1);
constexpr Takes kSeenFrom = length(100, 100'000);

constexpr KeyRow kBoard[] = {
    {"title", text("any text"), "the panel's name", "Heading of the sheet."},
    {"test piece", mapping(test_piece), "", "Shows a small piece of a field by itself, laid for the board."},
    {"part", mapping(board_part), "", "Shows a part of the panel as it is laid."},
    {"around", kField, "", "Shows the part of the panel round a field."},
    {"margin", length(0, 500), "12 mm", "Beside around: how much is shown round the field."},
    {"rows", mapping(choices) | list(choice, 1, 144), "one row", "What differs from row to row."},
    {"columns", mapping(choices) | list(choice, 1, 144), "one column", "What differs from column to column."},
    {"reference", text("the label of a choice"), "the first",
     "The column, or the row where there is but one column, that others are compared with."},
    {"aim", word("none, blend, show flow, deepen colour"), "none",
     "What is looked for; the best cell is marked."},
    {"viewing distance", length(100, 20'000), "1000 mm",
     "Distance of the eye, straight in front of the part."},
    {"pixels", whole(64, 2000), "360", "Width of a cell in pixels."},
    {"cells per line", whole(1, 24), "as suits", "Cells side by side where there is but one row."},
    {"grain", share(0.001, 0.5), "2 %", "Grain of the finished cells, as a relative error of a pixel."},
    {"most samples", whole(1, 1 << 20), "96", "At most this many samples a pixel."},
    {"ev", number(-10, 25), "by a grey card", "Exposure value at ISO 100 of all cells."},
};
constexpr KeyRule kBoardRules[] = {{How::one, "test piece, part, around"}};

constexpr KeyRow kTestPiece[] = {
    {"field", kField, "must be given where there are several", "The field that the piece is laid as."},
    {"size", length(20, 500) | lengths(2, 20, 500), "90 mm", "Width and height; one number is both."},
};

constexpr KeyRow kPart[] = {
    {"at", lengths(2, -1e5, 1e5), kMust, "Its lower left corner on the panel, [x, y]."},
    {"size", length(10, 2000) | lengths(2, 10, 2000), "90 mm", "Width and height; one number is both."},
    {"field", kField, "all fields", "The field that choices of grout, bed and joint change."},
};

constexpr KeyRow kChoice[] = {
    {"grout", kGrout, "", "Another grout, in the whole zone."},
    {"bed", kTint, "", "Another tint of the bed."},
    {"joint", kJoint, "", "Another width of joints."},
    {"recess", kJoint, "", "Grout so far below the faces."},
    {"finish", kDone, "", "What is done to the grout; cured leaves it bare."},
    {"light", kSetUp, "", "Another set-up of light."},
    {"lamps", kLamps, "", "Lamps or groups that are on."},
    {"distance", kSeenFrom, "", "Seen from so far, as an eye resolves it."},
    {"set", mapping(changes), "", "Any other keys of the layout."},
    {"swap", mapping(swaps), "", "Stock laid in place of other stock."},
    {"label", text("any text"), "from its choices", "What is written beside it."},
};

constexpr Takes kGrouts = list_of(kGrout, 1, 144), kTints = list_of(kTint, 1, 144),
                kJoints = list_of(kJoint, 1, 144), kFinishes = list_of(kDone, 1, 144),
                kSetUps = list_of(kSetUp, 1, 144), kLampLists = list_of(kLamps, 1, 144),
                kDistances = list_of(kSeenFrom, 1, 144);
constexpr KeyRow kChoices[] = {
    {"grout", kGrouts, "", "Grouts to compare."},
    {"bed", kTints, "", "Tints of the bed to compare."},
    {"joint", kJoints, "", "Widths of joints to compare."},
    {"recess", kJoints, "", "Depths of the grout below the faces to compare."},
    {"finish", kFinishes, "", "Finishes of the grout to compare."},
    {"light", kSetUps, "", "Set-ups of light to compare."},
    {"lamps", kLampLists, "", "Lamps or groups to compare, each a name or a list of them."},
    {"distance", kDistances, "", "Distances to compare."},
};
constexpr KeyRule kChoicesRules[] = {{How::one, "grout, bed, joint, recess, finish, light, lamps, distance"}};

constexpr KeyRow kChanges[] = {
    any("PATH", anything("what that key takes"),
        "A key of the layout by its path, as in fields.sea.piece or lamps.spots.temperature.")};
constexpr KeyRow kSwaps[] = {
    any("MATERIAL", text("the name of a material"), "The material that is laid in its place.")};

}  // namespace

extern constexpr KeyTable board{"board", "A sample board: cells that differ by their row and column.", kBoard,
                                kBoardRules};
extern constexpr KeyTable test_piece{"board.test piece", "A small true piece of the work.", kTestPiece};
extern constexpr KeyTable board_part{"board.part", "A part of the panel as it is laid.", kPart};
extern constexpr KeyTable choice{"board.rows", "One row or column: what is changed in its cells.", kChoice};
extern constexpr KeyTable choices{"board.rows by one key", "Rows or columns that differ by one key.",
                                  kChoices, kChoicesRules};
extern constexpr KeyTable changes{"board.rows.set", "Keys of the layout and what they become.", kChanges};
extern constexpr KeyTable swaps{"board.rows.swap", "Materials and what is laid in their place.", kSwaps};

}  // namespace rakelight::keys
