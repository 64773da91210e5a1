#include "scene/laying/region_plan.h"

#include <fmt/format.h>
#include <algorithm>

#include "scene/geometry/stroke.h"
#include "scene/model/layout.h"
#include "scene/model/panel_spans.h"
#include "scene/opus/cutting.h"
#include "scene/text/diagnostics.h"

namespace rakelight {

namespace {

constexpr double kFlatness_mm = 0.05;

Region rectangle(double width_mm, double height_mm, double beyond_mm) {
    return {{{{-beyond_mm, -beyond_mm},
              {width_mm + beyond_mm, -beyond_mm},
              {width_mm + beyond_mm, height_mm + beyond_mm},
              {-beyond_mm, height_mm + beyond_mm}}}};
}

Region outlined(const Field& field, const Ring& outline) {
    if (field.more_rings.empty()) return region_of(outline);
    std::vector<Ring> rings{outline};
    for (const Stroke& ring : field.more_rings) rings.push_back(flatten(ring, kFlatness_mm));
    return region_of(rings, true);
}

// Where a field comes to the panel's edge it goes on a little way beyond it.
Region carried_over_edge(const Region& ground, const Panel& panel, double joint_mm) {
    const Region band = subtract(grow(ground, 2 * joint_mm), rectangle(panel.width_mm, panel.height_mm, 0));
    return intersect(unite(ground, band), rectangle(panel.width_mm, panel.height_mm, kDrawnIn * joint_mm));
}

// Calls `each(field's index, its ground on `panel`)` in the order of laying.
template <class Each>
void each_ground(const Layout& layout, const std::vector<Ring>& footprints, const Region& panel,
                 Each&& each) {
    Region stones;
    for (const auto& footprint : footprints) stones = unite(stones, region_of(footprint));
    Region taken;
    for (std::size_t f = 0; f < layout.fields.size(); ++f) {
        const Field& field = layout.fields[f];
        const Ring outline = flatten(field.outline, kFlatness_mm);
        const Region wanted = outline.size() < 3 ? panel : intersect(outlined(field, outline), panel);
        // Stones keep a joint's width to themselves; half of it is taken when pieces are drawn in.
        const Region clear_of_stones =
            stones.empty() ? stones : grow(stones, field.joint_mm * (1 - kDrawnIn), Corner::round);
        each(f, subtract(subtract(wanted, taken), clear_of_stones));
        taken = unite(taken, wanted);
    }
}

}  // namespace

Region panel_region(const Panel& panel) {
    Region all;
    for (const PanelSpan& span : panel_spans(panel))
        all.rings.push_back({{span.left_mm, 0},
                             {span.right_mm, 0},
                             {span.right_mm, panel.height_mm},
                             {span.left_mm, panel.height_mm}});
    return all;
}

std::vector<Region> plan_regions(const Layout& layout, const std::vector<Ring>& footprints) {
    std::vector<Region> regions;
    std::vector<Problem> problems;
    const Region panel = rectangle(layout.panel.width_mm, layout.panel.height_mm, 0);
    each_ground(layout, footprints, panel, [&](std::size_t f, const Region& ground) {
        const Field& field = layout.fields[f];
        const double narrow = std::min(field.piece_length_mm, field.piece_width_mm);
        if (area_mm2(ground) <= 0)
            problems.push_back(
                {field.place, fmt::format("fields[{}].outline", f + 1),
                 fmt::format(
                     "found nothing left of field '{}', expected ground that lies on the panel and that "
                     "no field before it has taken",
                     field.name)});
        else if (grow(ground, -0.35 * narrow).empty())
            problems.push_back({field.place, fmt::format("fields[{}].piece", f + 1),
                                fmt::format("found a piece {:g} mm wide, expected one that fits field '{}', "
                                            "which is nowhere that wide",
                                            narrow, field.name)});
        regions.push_back(carried_over_edge(ground, layout.panel, field.joint_mm));
    });
    if (!problems.empty()) throw LayoutError(std::move(problems));
    return regions;
}

std::vector<Region> regions_beyond(const Layout& layout, const std::vector<Ring>& footprints,
                                   double beyond_mm) {
    std::vector<Region> regions;
    each_ground(layout, footprints, rectangle(layout.panel.width_mm, layout.panel.height_mm, beyond_mm),
                [&](std::size_t, const Region& ground) { regions.push_back(ground); });
    return regions;
}

}  // namespace rakelight
