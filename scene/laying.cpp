#include "scene/laying.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>

#include "scene/diagnostics.h"
#include "scene/hash.h"
#include "scene/heights.h"
#include "scene/mixing.h"
#include "scene/opus.h"
#include "scene/region_plan.h"
#include "scene/stone_body.h"

namespace rakelight {

namespace {

std::vector<SetStone> set_stones(const Layout& layout, double plane_mm) {
    std::vector<SetStone> stones;
    std::vector<Problem> problems;
    for (std::size_t s = 0; s < layout.stones.size(); ++s) {
        const PlacedStone& stone = layout.stones[s];
        if (stone.proud_mm >= stone.size_mm.z)
            problems.push_back({stone.place, fmt::format("stones[{}].proud", s),
                                fmt::format("found {:g} mm, expected less than the stone's height of {:g} "
                                            "mm: it would not touch its bed",
                                            stone.proud_mm, stone.size_mm.z)});
        SetStone set;
        set.stone = stone;
        const auto it = std::find_if(layout.stock.begin(), layout.stock.end(),
                                     [&](const Material& m) { return m.name == stone.material; });
        set.material = static_cast<std::uint32_t>(it - layout.stock.begin());
        set.top_mm = plane_mm + stone.proud_mm;
        set.footprint_mm = stone_footprint(set, *it, plane_mm);
        stones.push_back(std::move(set));
    }
    if (!problems.empty()) throw LayoutError(std::move(problems));
    return stones;
}

// What a hand leaves over the panel's edge is ground flush.
void keep_on_panel(Ring& outline, const Layout& layout) {
    for (auto& p : outline) p = glm::clamp(p, glm::dvec2(0), glm::dvec2(layout.width_mm, layout.height_mm));
    const auto twice = [](const glm::dvec2& a, const glm::dvec2& b) { return glm::distance(a, b) < 1e-3; };
    outline.erase(std::unique(outline.begin(), outline.end(), twice), outline.end());
    if (outline.size() > 3 && twice(outline.front(), outline.back())) outline.pop_back();
}

}  // namespace

Laying lay(const Layout& layout) {
    Laying laying;
    const double plane = face_plane_mm(layout);
    laying.stones = set_stones(layout, plane);
    std::vector<Ring> footprints;
    for (const auto& stone : laying.stones) footprints.push_back(stone.footprint_mm);
    const auto regions = plan_regions(layout, footprints);
    std::vector<std::vector<Piece>> by_field(layout.fields.size());
    tbb::parallel_for(std::size_t{0}, layout.fields.size(), [&](std::size_t f) {
        const Field& field = layout.fields[f];
        const std::uint64_t seed = hash_combine(layout.seed, hash_text(field.name));
        auto& pieces = by_field[f] = lay_field(field, regions[f], seed);
        for (auto& piece : pieces) {
            piece.field = static_cast<std::uint32_t>(f);
            keep_on_panel(piece.outline_mm, layout);
        }
        std::erase_if(pieces, [](const Piece& p) { return !star_centre(p.outline_mm); });
        mix_materials(field, layout.stock, hash_combine(seed, 21), pieces);
        set_heights(layout, field, plane, hash_combine(layout.seed, 22), pieces);
    });
    std::vector<Problem> problems;
    for (std::size_t f = 0; f < by_field.size(); ++f) {
        if (by_field[f].empty())
            problems.push_back(
                {layout.fields[f].place, fmt::format("fields[{}].piece", f),
                 fmt::format("found pieces too large for field '{}': not one can be cut to fit",
                             layout.fields[f].name)});
        laying.pieces.insert(laying.pieces.end(), by_field[f].begin(), by_field[f].end());
    }
    if (!problems.empty()) throw LayoutError(std::move(problems));
    return laying;
}

}  // namespace rakelight
