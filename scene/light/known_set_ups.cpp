#include "scene/light/known_set_ups.h"

#include <array>

#include "scene/light/set_ups_of_lamps.h"
#include "scene/light/set_ups_of_windows.h"
#include "scene/model/layout.h"

namespace rakelight {
namespace {

constexpr std::array kKnown{
    KnownSetUp{"gallery spot",
               "one spot a panel at the ceiling, 30 degrees from the vertical, and a little general light",
               gallery_spot},
    KnownSetUp{"pair at 45", "two lamps at the panel's height, 45 degrees to its left and right", pair_at_45},
    KnownSetUp{"wash", "a long wall-washer at the ceiling: even, from above", wash},
    KnownSetUp{"rake from top", "one lamp a panel close to the wall above, 10 degrees to the faces",
               rake_from_top},
    KnownSetUp{"rake from side", "one lamp close to the wall on the left, 10 degrees to the faces",
               rake_from_side},
    KnownSetUp{"north light", "an overcast sky through windows, from the left if the room has none",
               north_light},
    KnownSetUp{"sun patch", "low sun through a side window, its patch across the work", sun_patch},
    KnownSetUp{"dusk", "the sun just down, and 50 lx of warm lamplight", dusk},
    KnownSetUp{"evening lamp", "night, and a single table lamp beside the panel", evening_lamp},
    KnownSetUp{"window behind", "no lamp; a window behind the viewer that dark glass mirrors",
               window_behind}};

}  // namespace

std::span<const KnownSetUp> known_set_ups() {
    return kKnown;
}

Lighting make_set_up(const KnownSetUp& known, const Layout& layout) {
    Lighting set_up = known.make(layout);
    set_up.name = known.name;
    return set_up;
}

}  // namespace rakelight
