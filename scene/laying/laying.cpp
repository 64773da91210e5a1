#include "scene/laying/laying.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>

#include "materials/maths/hash.h"
#include "scene/forms/heights.h"
#include "scene/forms/stone_body.h"
#include "scene/laying/boulders.h"
#include "scene/laying/region_plan.h"
#include "scene/laying/stone_check.h"
#include "scene/mix/fields.h"
#include "scene/model/layout.h"
#include "scene/opus/opus.h"
#include "scene/pieces/listed_pieces.h"
#include "scene/pieces/piece_numbers.h"
#include "scene/text/diagnostics.h"

namespace rakelight {

namespace {

std::vector<SetStone> set_stones(const Layout& layout, const std::vector<PlacedStone>& wanted,
                                 double plane_mm) {
    std::vector<SetStone> stones;
    for (const PlacedStone& stone : wanted) {
        SetStone set;
        set.stone = stone;
        set.material = stone.material;
        set.top_mm = plane_mm + stone.proud_mm;
        // Down to the backs of the thickest pieces.
        set.footprint_mm = stone_footprint(set, layout.stock[set.material], layout.panel.substrate.bed_mm);
        stones.push_back(std::move(set));
    }
    return stones;
}

// What a hand leaves over the panel's edge is ground flush.
void keep_on_panel(Ring& outline, const Panel& panel) {
    for (auto& p : outline) p = glm::clamp(p, glm::dvec2(0), glm::dvec2(panel.width_mm, panel.height_mm));
    const auto twice = [](const glm::dvec2& a, const glm::dvec2& b) { return glm::distance(a, b) < 1e-3; };
    outline.erase(std::unique(outline.begin(), outline.end(), twice), outline.end());
    if (outline.size() > 3 && twice(outline.front(), outline.back())) outline.pop_back();
}

}  // namespace

Laying lay(const Layout& layout) {
    if (!layout.pieces_file.empty()) return take_listed_pieces(layout);
    Laying laying;
    const double plane = face_plane_mm(layout);
    laying.stones = set_stones(layout, layout.stones, plane);
    std::vector<Ring> footprints;
    for (const auto& stone : laying.stones) footprints.push_back(stone.footprint_mm);
    auto regions = plan_regions(layout, footprints);
    if (const auto boulders = strewn_boulders(layout, regions); !boulders.empty()) {
        for (auto& stone : set_stones(layout, boulders, plane)) {
            footprints.push_back(stone.footprint_mm);
            laying.stones.push_back(std::move(stone));
        }
        regions = plan_regions(layout, footprints);
    }
    if (auto problems = check_stones(layout, laying.stones); !problems.empty())
        throw LayoutError(std::move(problems));
    std::vector<std::vector<Piece>> by_field(layout.fields.size());
    tbb::parallel_for(std::size_t{0}, layout.fields.size(), [&](std::size_t f) {
        const Field& field = layout.fields[f];
        const std::uint64_t seed = hash_combine(layout.panel.seed, hash_text(field.name));
        auto& pieces = by_field[f] = lay_field(field, regions[f], seed, least_angle_deg(field, layout.stock));
        for (auto& piece : pieces) {
            piece.field = static_cast<std::uint32_t>(f);
            keep_on_panel(piece.outline_mm, layout.panel);
        }
        std::erase_if(pieces, [](const Piece& p) { return !star_centre(p.outline_mm); });
    });
    laying.notes = mix_fields(layout, regions, by_field);
    tbb::parallel_for(std::size_t{0}, layout.fields.size(), [&](std::size_t f) {
        set_heights(layout, layout.fields[f], plane, hash_combine(layout.panel.seed, 22), by_field[f]);
        number_pieces(by_field[f]);
    });
    std::vector<Problem> problems;
    for (std::size_t f = 0; f < by_field.size(); ++f) {
        if (by_field[f].empty())
            problems.push_back(
                {layout.fields[f].place, fmt::format("fields[{}].piece", f + 1),
                 fmt::format("found pieces too large for the field {}: not one can be cut to fit",
                             layout.fields[f].name)});
        laying.pieces.insert(laying.pieces.end(), by_field[f].begin(), by_field[f].end());
    }
    if (!problems.empty()) throw LayoutError(std::move(problems));
    return laying;
}

}  // namespace rakelight
