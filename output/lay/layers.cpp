// Two layers of the drawings of a panel as laid: the ground between its pieces, and the names of its fields.
#include <algorithm>

#include "output/lay/drawing.h"
#include "output/paper/name_spot.h"
#include "scene/laying/region_plan.h"
#include "scene/model/half_joint.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

constexpr double kCapitals_em = 0.73;

bool meet(const Box& a, const Box& b) {
    return a.low.x < b.high.x && b.low.x < a.high.x && a.low.y < b.high.y && b.low.y < a.high.y;
}

Box widened(Box box, double by_mm) {
    return {box.low - by_mm, box.high + by_mm};
}

}  // namespace

TracedLayer joint_layer(const Layout& layout, const LayingReport& report, const OnSheet& place) {
    TracedLayer layer{
        "joints", {}, {}, {}, PageBox{place.corner_mm, {layout.panel.width_mm, layout.panel.height_mm}, {}}};
    const std::size_t count = report.ground.size();
    const Region panel = panel_region(layout.panel);
    const auto on_panel = [&](Region region) {  // the window cuts at the edges, but not at gaps
        return panel.rings.size() > 1 ? intersect(region, panel) : region;
    };
    std::vector<Box> boxes;
    for (const Region& ground : report.ground) boxes.push_back(bounds(ground));
    // Below all: what surrounds stones, which belongs to no field's ground.
    for (std::size_t f = report.stone_count > 0 ? count : 0; f-- > 0;) {
        const Region round =
            grow(report.ground[f], 2 * kUnderPieces * layout.fields[f].joint_mm, Corner::round);
        TracedShape shape = shape_of(on_panel(round), place);
        shape.fill = report.joint_colour[f];
        layer.shapes.push_back(std::move(shape));
    }
    for (std::size_t f = count; f-- > 0;) {
        // As far as the later fields' own half of the joint, and a hair under their pieces.
        Region reach = report.ground[f];
        for (std::size_t later = f + 1; later < count; ++later) {
            const double half_mm = kUnderPieces * layout.fields[later].joint_mm;
            if (half_mm <= 0 || !meet(widened(boxes[f], half_mm), boxes[later])) continue;
            reach =
                unite(reach, intersect(grow(report.ground[f], half_mm, Corner::round), report.ground[later]));
        }
        TracedShape shape = shape_of(on_panel(std::move(reach)), place);
        shape.fill = report.joint_colour[f];
        layer.shapes.push_back(std::move(shape));
    }
    return layer;
}

TracedLayer name_layer(const std::vector<Field>& fields, const LayingReport& report, const OnSheet& place,
                       double type_mm) {
    TracedLayer layer{"names", {}, {}, {}, {}, 0.3 * type_mm};
    for (std::size_t f = 0; f < fields.size(); ++f) {
        const NameSpot spot = name_spot(report.ground[f], fields[f].name);
        const double em = std::clamp(spot.em_mm * place.scale, 1.1 * type_mm, 2 * type_mm);
        const double step = kLineStep_em * em;
        // The block of lines stands evenly about its middle.
        const double first = kCapitals_em / 2 * em - step * static_cast<double>(spot.lines.size() - 1) / 2;
        for (std::size_t i = 0; i < spot.lines.size(); ++i)
            layer.texts.push_back({spot.lines[i],
                                   place(spot.at_mm) + glm::dvec2(0, first + step * static_cast<double>(i)),
                                   em, true, Align::centre, from_bytes({0, 0, 0})});
    }
    return layer;
}

}  // namespace rakelight
