#include "scene/model/lamp_called.h"

#include <algorithm>

#include "scene/model/layout.h"

namespace rakelight {

const Lamp* lamp_called(const Layout& layout, std::string_view name) {
    const auto in = [&](const std::vector<Lamp>& lamps) -> const Lamp* {
        const auto at =
            std::find_if(lamps.begin(), lamps.end(), [&](const Lamp& lamp) { return lamp.name == name; });
        return at == lamps.end() ? nullptr : &*at;
    };
    for (const Lighting& set_up : layout.set_ups)
        if (const Lamp* lamp = in(set_up.lamps)) return lamp;
    return in(layout.on.lamps);
}

}  // namespace rakelight
