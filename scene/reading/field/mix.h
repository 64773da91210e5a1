// Reading of a field's mix: one material, shares, shades that change from place to place, or a picture; and
// its accents.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "scene/model/field.h"
#include "scene/reading/stock/stock.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

/// Shares of a mix may miss 100 % by this much; they are then scaled to sum to it.
inline constexpr double kShareTolerance = 0.001;

/// More materials than this in one mix are refused.
inline constexpr std::size_t kMostMixed = 100;

/// What the parts of a mix need: the field that is read, those before it, and where names lead.
struct MixReading {
    Section& in;  ///< the field's
    Field& field;
    Layout& layout;
    const Shelf& stock;
};

/// Reads `mix:` and `accents:`. Needs the field's outline and guides.
void read_mix(MixReading reading);

/// A material, or a mapping of materials to shares that sum to 1. None when anything was wrong, as reported.
std::optional<std::vector<MixPart>> read_parts(const YamlValue& value, const std::string& key,
                                               MixReading reading);

/// The materials, as indices in the stock, that a name stands for: itself, or the shades NAME-1, NAME-2 ...
/// of a ladder. Empty when it is neither, as reported.
std::vector<std::uint32_t> read_materials(const YamlValue& value, const std::string& key, MixReading reading);

/// Adds to the field's mix what is not in it yet.
void add_to_mix(Field& field, std::uint32_t material, double share);

}  // namespace rakelight
