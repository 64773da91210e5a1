// Lighting set-ups that everybody means much the same by, made to measure for a room and a panel: where
// lamps, windows and sun go follows from the ceiling, the height of the panel's centre and its size.
#pragma once

#include <span>
#include <string_view>

#include "scene/model/lighting.h"

namespace rakelight {

struct Layout;

struct KnownSetUp {
    std::string_view name;
    std::string_view meaning;  ///< one line, for people
    Lighting (*make)(const Layout&);
};

/// In the order of the table in the manual (light.md).
std::span<const KnownSetUp> known_set_ups();

/// Made for a layout whose panel and room are read; its windows are the room's own where the set-up wants
/// some and the room has fitting ones. Lamps may stand where furniture is: see why_no_light.
Lighting make_set_up(const KnownSetUp& known, const Layout& layout);

}  // namespace rakelight
