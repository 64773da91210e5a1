// Glare, and what may be moved against it.
#include "scene/keys/keys.h"
#include "scene/keys/takes.h"

namespace rakelight::keys {

namespace {

constexpr Takes kFieldName = text("the name of a field");
constexpr Takes kPair = list_of(kFieldName, 2, 2);
constexpr Takes kPoint = lengths(3, kAnywhere_mm);

constexpr KeyRow kGlare[] = {
    {"bright ratio", number(1, 1e6), "10",
     "A place is bright when its mirrored light is more than this many times the panel's own."},
    {"dazzling ratio", number(1, 1e6), "50",
     "A place dazzles when its mirrored light is more than this many times the panel's own."},
    {"patch ratio", number(0.05, 1e3), "1",
     "A bright patch has mirrored light of more than this many times the panel's own, half a degree taken "
     "together."},
    {"bright spot", angle(0.01, 60), "2 deg", "Bright patches wider than this, as seen, are complained of."},
    {"veil ratio", number(1.01, 1e3), "1.5",
     "Dark glass looks washed out when all its light is more than this many times its own."},
    {"surround", number(0, 1e3), "1",
     "What mirrors less than this many times the mean luminance of the view is not complained of."},
    {"least", number(0, 1e5), "40",
     "Patches of fewer cd/m2 are not complained of, unless they are ten times the mean of the view."},
    {"rating", number(5, 40), "19", "The highest unified glare rating (UGR) that is not complained of."},
    {"sparkles", numbers(2, 0, 1e5), "[5, 30]", "Fewest and most sparkles for a square metre that enliven."},
    {"contrast", list_of(kPair, 1), "all that lie side by side",
     "Pairs of fields whose contrast is reported."},
    {"move", mapping(move), "the panel's lean, 0 to 8 degrees", "What may be moved to lessen glare."},
};

constexpr KeyRow kMove[] = {
    {"lamps", mapping(tracks), "no lamp", "Lamps that may be moved, by name."},
    {"lean", measures(2, Quantity::angle_deg, 0, 20), "as it is", "Least and most lean of the panel."},
    {"height", lengths(2, 100, 20'000), "as it is", "Lowest and highest place of the panel's middle."},
    {"keep", mapping(kept_light), "nine tenths of light and evenness",
     "Light that has to stay on the panel."},
};
constexpr KeyRule kMoveRules[] = {{How::some, "lamps, lean, height"}};

constexpr KeyRow kTracks[] = {any("LAMP", mapping(track), "Where this lamp may go.")};
constexpr KeyRow kTrack[] = {
    {"from", kPoint, "it stays", "Where its track begins, [x, y, z]."},
    {"to", kPoint, "it stays", "Where its track ends, [x, y, z]."},
    {"aim", word("kept, along") | mapping(sweep), "kept on the panel, else along",
     "Whether its aim stays, goes along with it, or is swept."},
};
constexpr KeyRule kTrackRules[] = {{How::all_or_none, "from, to"}, {How::some, "from, to, aim"}};

constexpr KeyRow kSweep[] = {
    {"from", kPoint, kMust, "The first point [x, y, z] that it may be aimed at."},
    {"to", kPoint, kMust, "The last point [x, y, z] that it may be aimed at."},
};

constexpr KeyRow kKept[] = {
    {"lux", measures(2, Quantity::illuminance_lx, 0, 1e6), "any",
     "Least and most light, mean over the panel."},
    {"evenness", share(0, 1), "any", "Darkest over brightest place of the panel, at least."},
};

}  // namespace

extern constexpr KeyTable glare{"glare", "What counts as glare here.", kGlare};
extern constexpr KeyTable move{"glare.move", "What may be moved to lessen glare, and within what bounds.",
                               kMove, kMoveRules};
extern constexpr KeyTable tracks{"glare.move.lamps", "Lamps that may be moved, by name.", kTracks};
extern constexpr KeyTable track{"glare.move.lamps.LAMP", "Where one lamp may go: along a straight line.",
                                kTrack, kTrackRules};
extern constexpr KeyTable sweep{"glare.move.lamps.LAMP.aim", "An aim that is swept from point to point.",
                                kSweep};
extern constexpr KeyTable kept_light{"glare.move.keep", "Light that has to stay on the panel.", kKept};

}  // namespace rakelight::keys
