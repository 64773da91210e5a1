// Which fields lie side by side: those are the ones whose contrast an eye compares.
#pragma once

#include <cstdint>
#include <vector>

#include "scene/laying/laying.h"
#include "scene/model/field.h"

namespace rakelight {

/// Two fields that meet.
struct FieldBorder {
    std::uint32_t one = 0, other = 0;  ///< index in Layout::fields, one < other
    int pairs = 0;                     ///< of pieces that face each other over a joint
};

/// The longest border first; borders of a single pair of pieces are left out.
std::vector<FieldBorder> field_borders(const std::vector<Field>& fields, const Laying& laying);

}  // namespace rakelight
