// A lamp of a layout by its name.
#pragma once

#include <span>
#include <string_view>

#include "scene/model/lamp.h"

namespace rakelight {

struct Layout;

/// The lamp of that name, the first there is; null when there is none. It points into `lamps`.
const Lamp* lamp_called(std::span<const Lamp> lamps, std::string_view name);

/// The lamp of that name in any of the layout's set-ups, the first there is; null when there is none.
const Lamp* lamp_called(const Layout& layout, std::string_view name);

}  // namespace rakelight
