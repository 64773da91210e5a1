// The piece table: a laid panel as a list of its pieces, for a spreadsheet (CSV, RFC 4180) or a program
// (JSON), that can be edited and given back (scene/reading/field/piece_table.h). Stones come first, as they
// are laid first.
//   id, number        told: number within the field, kept as long as nobody changes it
//   field, material   names of the layout
//   form              usual, sawn, nipped, riven, fused edge, tumbled, chunk, pebble or bead; empty = as the
//                     field's pieces. A chunk or pebble without a field is a stone
//   x_mm, y_mm        centre; another centre moves the piece
//   rotation_deg      direction of its row, a stone's turn
//   length_mm, width_mm    along the row and across; told of a cut piece, the size of a stone
//   thickness_mm      a stone's height over all
//   height_mm         of the face's middle, a stone's highest point, above the substrate's front
//   tilt_x_deg, tilt_y_deg   lean of the face
//   dome_mm           middle of the face above the middles of its sides; nothing: as the material usually is
//   area_mm2, mass_g  told
//   seed              its own chance: s and 16 hexadecimal digits, a word to any spreadsheet
//   outline_mm        x y;x y;.. counter-clockwise; told of a stone
// What is told is not read back.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "scene/pieces/piece_facts.h"

namespace rakelight {

struct Layout;

/// Name of a piece or, without a field, a stone: "near rocks#12", "stone#3".
std::string piece_id(const std::string& field, std::uint32_t number);

/// Numbers that are read back are written so that the same bits come back; those only told, to a tenth of a
/// micrometre, a milligram. `facts`: of piece_facts.
std::string piece_table_csv(const Layout& layout, const Laying& laying, const std::vector<PieceFacts>& facts);

/// The same with the same keys, outlines as lists of [x, y]; "version" grows when a key changes its meaning.
/// `scene_hash`: 16 digits, or empty when none is known; it is not read back.
std::string piece_table_json(const Layout& layout, const Laying& laying, const std::vector<PieceFacts>& facts,
                             const std::string& scene_hash = "");

inline constexpr int kPieceTableVersion = 1;
inline constexpr std::string_view kPieceTableFormat = "rakelight pieces";

}  // namespace rakelight
