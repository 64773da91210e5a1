// A row of a piece table as plain values.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <optional>
#include <string>
#include <vector>

#include "scene/text/place.h"

namespace rakelight {

/// A piece or a stone as a piece table lists it (piece_table.h); what the table leaves empty has no value.
struct PieceRow {
    std::string form;         ///< of form_words.h; empty = as its field's pieces
    std::string field;        ///< a name in `Layout::fields`; empty for a stone, which is a chunk or a pebble
    std::string material;     ///< as written
    std::uint32_t stock = 0;  ///< index in `Layout::stock` that the reader finds for it
    std::optional<std::uint32_t> number;
    std::optional<double> x_mm, y_mm;  ///< centre on the panel
    std::optional<double> rotation_deg;
    std::optional<double> length_mm, width_mm;  ///< of a stone
    std::optional<double> thickness_mm;
    std::optional<double>
        height_mm;  ///< of the face's centre, or a stone's highest point, above the substrate
    std::optional<double> tilt_x_deg, tilt_y_deg;
    std::optional<double> dome_mm;
    std::optional<std::uint64_t> seed;
    std::vector<glm::dvec2> outline_mm;
    Place place;
    std::string key;  ///< path of the row in a JSON table
    /// Without a field a chunk or a pebble is a stone.
    bool is_stone() const { return field.empty() && (form == "chunk" || form == "pebble"); }
};

}  // namespace rakelight
