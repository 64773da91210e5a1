#include "scene/laying/contours.h"

#include <algorithm>

#include "scene/geometry/stroke.h"
#include "scene/laying/region_plan.h"
#include "scene/model/half_joint.h"
#include "scene/model/layout.h"
#include "scene/opus/opera.h"

namespace rakelight {

namespace {

constexpr double kPast_mm = 1;  // an outline that goes so far beyond the panel was drawn past it

Region slab(const glm::dvec2& low, const glm::dvec2& high) {
    return {{{low, {high.x, low.y}, high, {low.x, high.y}}}};
}

double row_mm(const Field& field) {
    return field.piece_width_mm + field.joint_mm;
}

// How far past the panel the edges of a field go on: farther than its rows reach.
double beyond_mm(const Field& field) {
    return (field.halo_rows + 8) * row_mm(field);
}

bool drawn_past(const Field& field, const Panel& panel) {
    const auto past = [&](const Stroke& stroke) {
        const Box box = bounds(flatten(stroke, 0.2));
        return box.low.x < -kPast_mm || box.low.y < -kPast_mm || box.high.x > panel.width_mm + kPast_mm ||
               box.high.y > panel.height_mm + kPast_mm;
    };
    return past(field.outline) || std::any_of(field.more_rings.begin(), field.more_rings.end(), past);
}

bool leaves_panel_edge(const Field& field) {
    return field.halo_rows > 0 && (!field.halo_at_panel_edge || !field.halo_round.empty());
}

// Where the ground meets a side of the panel, that stretch carried straight on. `side`: 0 = x, 1 = y.
Region carried_on(const Region& ground, const Panel& panel, double joint_mm, double by_mm) {
    const glm::dvec2 size(panel.width_mm, panel.height_mm);
    const double over = kDrawnIn * joint_mm, sliver = 0.5 * over;
    Region on;
    for (const int side : {0, 1})
        for (const bool far : {false, true}) {
            glm::dvec2 low(-2 * over), high = size + 2 * over;
            (far ? low : high)[side] = far ? size[side] + sliver : -sliver;
            for (const Ring& ring : intersect(ground, slab(low, high)).rings) {
                Box box = bounds(ring);
                (far ? box.high : box.low)[side] = far ? size[side] + by_mm : -by_mm;
                (far ? box.low : box.high)[side] = far ? size[side] - sliver : sliver;
                const int along = 1 - side;  // round the panel's corners as well
                if (box.low[along] < -sliver) box.low[along] = -by_mm;
                if (box.high[along] > size[along] + sliver) box.high[along] = size[along] + by_mm;
                on = unite(on, slab(box.low, box.high));
            }
        }
    return on;
}

// The plane round the panel less the named figures.
Region all_but(const Layout& layout, const Field& field, const std::vector<Region>& drawn, double by_mm) {
    const glm::dvec2 size(layout.panel.width_mm, layout.panel.height_mm);
    Region left = slab(glm::dvec2(-by_mm), size + by_mm);
    if (field.halo_at_panel_edge)
        left = slab(glm::dvec2(-kDrawnIn * field.joint_mm), size + kDrawnIn * field.joint_mm);
    for (std::size_t f = 0; f < drawn.size(); ++f)
        if (std::ranges::find(field.halo_round, layout.fields[f].name) != field.halo_round.end())
            left = subtract(left, drawn[f]);
    return left;
}

}  // namespace

std::vector<Contours> plan_contours(const Layout& layout, const std::vector<Region>& ground,
                                    const std::vector<Ring>& footprints) {
    std::vector<Contours> contours(layout.fields.size());
    std::vector<char> past;
    double beyond = 0;
    for (const Field& field : layout.fields) {
        past.push_back(rule_of(field.opus).led_by_guides && drawn_past(field, layout.panel));
        if (past.back() || leaves_panel_edge(field)) beyond = std::max(beyond, beyond_mm(field));
    }
    if (beyond == 0) return contours;
    const std::vector<Region> drawn = regions_beyond(layout, footprints, beyond);
    for (std::size_t f = 0; f < contours.size(); ++f) {
        const Field& field = layout.fields[f];
        if (!past[f] && !leaves_panel_edge(field)) continue;
        const Region on = unite(unite(drawn[f], ground[f]),
                                carried_on(ground[f], layout.panel, field.joint_mm, beyond_mm(field)));
        if (past[f]) contours[f].outline = on;
        if (leaves_panel_edge(field))
            contours[f].halo = field.halo_round.empty() ? on : all_but(layout, field, drawn, beyond);
    }
    return contours;
}

}  // namespace rakelight
