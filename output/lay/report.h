// What there is to say of a panel as laid, without a ray of light: how many pieces of what, how much of the
// face they cover, and the colours to draw them in. Plain numbers; drawing.h and map.h draw
// them, json.h writes them for machines.
#pragma once

#include <string>
#include <vector>

#include "output/paper/tracing.h"
#include "scene/geometry/region.h"
#include "scene/pieces/piece_facts.h"

namespace rakelight {

struct Layout;

/// Pieces and stones of one material, in a field or in all.
struct LaidCount {
    std::uint32_t material = 0;  ///< index in Layout::stock
    std::size_t count = 0;
    double area_mm2 = 0;
    double mass_g = 0;
};

struct LaidField {
    std::size_t count = 0;
    double ground_mm2 = 0;  ///< on the panel, up to the middle of its joints with other fields
    double area_mm2 = 0;    ///< of its pieces
    double mass_g = 0;
    std::vector<LaidCount> materials;  ///< in the order of the stock, only those laid
    double joint_share() const { return ground_mm2 > 0 ? 1 - area_mm2 / ground_mm2 : 0; }
};

struct LayingReport {
    std::string program;
    std::uint64_t scene_hash = 0;      ///< of the layout file, those read with it and the program
    std::string light = "D65";         ///< that the colours are of
    std::vector<PieceFacts> facts;     ///< as of piece_facts
    std::vector<Region> ground;        ///< of each field
    std::vector<Rgb8> piece_colour;    ///< one a piece: face-on as laid over its bed, of middle tone
    std::vector<Rgb8> stone_colour;    ///< one a stone
    std::vector<Rgb8> joint_colour;    ///< one a field: its grout, or its bed where joints are open
    std::vector<std::string> code;     ///< one a material of the stock: a letter; empty = not laid
    std::vector<LaidField> fields;     ///< as in the layout
    std::vector<LaidCount> materials;  ///< of the whole panel, stones included; in the order of the stock
    std::size_t stone_count = 0;
    double panel_mm2 = 0;
    double stone_mm2 = 0;  ///< footprints
    double piece_mm2 = 0;
    double mass_g = 0;  ///< pieces and stones; no grout, bed, board or frame
    double joint_share() const { return 1 - (piece_mm2 + stone_mm2) / panel_mm2; }
};

/// \throws LayoutError when a field has no ground (as `lay`).
LayingReport report_laying(const Layout& layout, const Laying& laying, const std::string& program,
                           std::uint64_t scene_hash);

/// Letters for materials in their order: A, B .. Z without I and O, which look like figures; then AA, AB ..
std::string material_code(std::size_t nth);

}  // namespace rakelight
