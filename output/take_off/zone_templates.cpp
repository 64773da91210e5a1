#include "output/take_off/zone_templates.h"

#include <fmt/format.h>

#include <algorithm>

#include "output/paper/sheet_furniture.h"
#include "output/take_off/reckoning/grout_regions.h"
#include "output/take_off/template_marks.h"
#include "scene/model/layout.h"
#include "scene/model/levels.h"

namespace rakelight {

namespace {

using namespace furniture;
using namespace marks;

constexpr Rgb8 kFaint{168, 168, 168};
constexpr Rgb8 kMask{240, 238, 233};
constexpr Rgb8 kStone{225, 225, 225};

Box drawn_bounds(const Region& region, const OnSheet& place) {
    Box box;
    for (const Ring& ring : region.rings)
        for (const glm::dvec2& p : ring) box.add(place(p));
    return box;
}

bool near(const Box& a, const Box& b) {
    return a.low.x < b.high.x && b.low.x < a.high.x && a.low.y < b.high.y && b.low.y < a.high.y;
}

// Outlines of the pieces that reach into a region: landmarks.
TracedLayer landmarks(const Laying& laying, const Region& region, const OnSheet& place) {
    TracedLayer layer{"pieces", {{}, kFaint, 0.1, {}}, {}, {}, {}};
    const Box box = bounds(region);
    for (const Piece& piece : laying.pieces) {
        if (!near(bounds(piece.outline_mm), box)) continue;
        const bool here = std::any_of(piece.outline_mm.begin(), piece.outline_mm.end(),
                                      [&](const glm::dvec2& p) { return contains(region, p); });
        if (here) layer.shapes.push_back(shape_of(piece.outline_mm, place));
    }
    return layer;
}

// Proud stones that stand in the way of the paper.
TracedLayer holes(const Layout& layout, const Laying& laying, const Region& paper, const OnSheet& place) {
    TracedLayer layer{"holes for proud stones", {kStone, kRed, 0.4, {}}, {}, {}, {}};
    layer.halo_mm = 0.5;
    const double plane = face_plane_mm(layout);
    for (std::size_t s = 0; s < laying.stones.size(); ++s) {
        const SetStone& stone = laying.stones[s];
        const Region hole = grow(region_of(stone.footprint_mm), kHoleAir_mm, Corner::round);
        if (stone.top_mm - plane < kHoleFrom_mm || intersect(hole, paper).empty()) continue;
        layer.shapes.push_back(shape_of(hole, place));
        layer.shapes.back().id = fmt::format("stone {}", s + 1);
        const glm::dvec2 middle = place(centroid(stone.footprint_mm));
        layer.texts.push_back(word(fmt::format("hole, {:.0f} mm", stone.top_mm - plane),
                                   middle + glm::dvec2(0, 0.8), 2.2, false, Align::centre, kRed));
    }
    return layer;
}

}  // namespace

TiledDrawing zone_template(const Layout& layout, const Laying& laying, const LayingReport& report,
                           const TakeOff& t, std::size_t z, bool from_behind) {
    const GroutZone& zone = t.zones[z];
    const OnSheet place{{0, 0}, layout.panel.height_mm, 1};
    const double tape_mm = t.workshop.zones.tape_mm;
    const Region open = tidy(zone.region), panel = panel_region(layout.panel);
    const Region reach = intersect(grow(open, tape_mm, Corner::round), panel);
    const Region band = subtract(reach, open);

    TiledDrawing drawing;
    auto& layers = drawing.whole.layers;
    layers.push_back(inked("paper that stays", {kMask, {}, 0, {}}, {shape_of(band, place)}));
    layers.push_back(landmarks(laying, subtract(reach, grow(open, -12)), place));
    layers.push_back(panel_edge(layout.panel, place));
    layers.push_back(holes(layout, laying, band, place));
    // Where the tape ends; not along the panel's edge, which the paper does not cross.
    layers.push_back(
        inked("tape line", {{}, kBlue, 0.35, {5, 2.5}}, {inner_edges(reach, layout.panel, place)}));
    layers.push_back(inked("cut line", {{}, kBlack, 0.5, {}}, {inner_edges(open, layout.panel, place)}));
    TracedLayer names{"zones", {}, {}, {}, {}};
    names.halo_mm = 0.7;
    add_name(names, clear_of_stones(zone, laying), fmt::format("{} {}", t.step_of(z), zone.name), 2, 16,
             place, kBlack);
    for (std::size_t other = 0; other < t.zones.size(); ++other)
        if (other != z)
            for (const Region& part : islands(intersect(band, clear_of_stones(t.zones[other], laying))))
                add_name(names, part, fmt::format("{} {}", t.step_of(other), t.zones[other].name), 1.8, 3.5,
                         place, kGrey);
    layers.push_back(std::move(names));
    layers.push_back(origin_mark(place));
    drawing.part_mm = drawn_bounds(reach, place);
    drawing.part_mm.low -= 3.0;
    drawing.part_mm.high += 3.0;
    drawing.what_counts = {"cut line", "tape line"};
    drawing.badge = std::to_string(t.step_of(z));
    drawing.title = cut(word(fmt::format("{}: {}", zone.name, zone.grout), {}, 7, true), 120).text;
    drawing.notes = {
        fmt::format("Step {} of {}. Cautions: see the take-off. Cut along the solid line, the far side of "
                    "the boundary joint. Tinted paper "
                    "stays; the white inside falls out and is grouted.",
                    t.step_of(z), t.zones.size()),
        fmt::format(
            "Trim at the dashed line, {:g} mm over the neighbours. Red: holes for stones that stand proud "
            "by the millimetres given.",
            tape_mm),
        "Lay it by the outlines of the pieces, burnish tape on the pieces, its edge on the cut line. Join "
        "sheets on "
        "the crosses."};
    return finished(std::move(drawing), layout, report, from_behind);
}

}  // namespace rakelight
