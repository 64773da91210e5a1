// Pieces of the laid panel as plain values: each with its own outline, height, tilt and material.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <optional>
#include <string>
#include <vector>

#include "scene/model/field.h"

namespace rakelight {

/// How a piece was made; `of_material`: as its material usually is. piece_form.h says what each looks like.
enum class PieceForm { of_material, sawn, nipped, riven, fused_edge, tumbled, chunk, pebble, bead };

/// One tessera. Plain data: forms.h makes a mesh of it.
struct Piece {
    std::vector<glm::dvec2>
        outline_mm;              ///< simple polygon, counter-clockwise, panel coordinates, at face height
    std::uint32_t field = 0;     ///< index in Layout::fields
    std::uint32_t material = 0;  ///< index in Layout::stock
    double thickness_mm = 6;
    double top_mm = 8;         ///< height of the face's centre above the substrate's front
    glm::dvec2 tilt_rad{};     ///< slope of the face along x and y
    glm::dvec2 along{1, 0};    ///< unit direction of the row it stands in
    std::uint64_t seed = 0;    ///< its own randomness: form, tone
    std::uint32_t number = 0;  ///< within its field, from 1, in the order of laying
    PieceForm form = PieceForm::of_material;
    std::optional<double> dome_mm;  ///< as Setting::dome_mm
    std::int32_t shape = -1;        ///< index in `Field::shapes` of the shape it is part of; -1 = none
};

/// A placed stone with its resolved height. Its footprint is what the fields keep clear of.
struct SetStone {
    PlacedStone stone;
    std::uint32_t material = 0;  ///< index in Layout::stock
    double top_mm = 0;           ///< highest point above the substrate's front
    std::vector<glm::dvec2> footprint_mm;
};

struct Laying {
    std::vector<Piece> pieces;  ///< by field, then by row, in the order of laying
    std::vector<SetStone> stones;
    std::vector<std::string> notes;     ///< for the artist, one a line: how near mixes come to their pictures
    std::vector<std::string> warnings;  ///< one a line, with their places
};

}  // namespace rakelight
