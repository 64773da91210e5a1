#include "scene/model/lamp_called.h"

#include <algorithm>

#include "scene/model/layout.h"

namespace rakelight {

const Lamp* lamp_called(std::span<const Lamp> lamps, std::string_view name) {
    const auto at =
        std::find_if(lamps.begin(), lamps.end(), [&](const Lamp& lamp) { return lamp.name == name; });
    return at == lamps.end() ? nullptr : &*at;
}

const Lamp* lamp_called(const Layout& layout, std::string_view name) {
    for (const Lighting& set_up : layout.set_ups)
        if (const Lamp* lamp = lamp_called(set_up.lamps, name)) return lamp;
    return lamp_called(layout.on.lamps, name);
}

}  // namespace rakelight
