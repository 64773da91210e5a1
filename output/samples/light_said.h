// The light of a photograph as it is written: "D65", "2700 K", "unknown daylight".
#pragma once

#include <optional>
#include <string>

#include "materials/colour/illuminants.h"
#include "scene/text/units.h"

namespace rakelight {

/// Its spectrum; D65 where it is unknown daylight, none where the words say no light. Temperatures are 1000
/// to 25000 K: of daylight from 5000 K on, of a glowing body below.
inline std::optional<Spectrum> light_said(const std::string& words) {
    if (words == "unknown daylight") return find_illuminant("D65");
    if (auto found = find_illuminant(words)) return found;
    const Measure t = read_measure(words, Quantity::temperature_k);
    if (!t.ok() || t.value < 1000 || t.value > 25000) return std::nullopt;
    return t.value < 5000 ? planckian(t.value) : daylight(t.value);
}

}  // namespace rakelight
