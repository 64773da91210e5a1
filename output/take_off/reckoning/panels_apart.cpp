#include "output/take_off/reckoning/panels_apart.h"

#include <algorithm>

#include "scene/model/layout.h"
#include "scene/room/panel_frame.h"

namespace rakelight {

namespace {

struct OnPanel {
    Laying laying;
    LaidVolumes volumes;
};

OnPanel standing_on(std::size_t index, const std::vector<PanelSpan>& spans, const Laying& laying,
                    const LaidVolumes& volumes) {
    OnPanel on;
    on.volumes.fields = volumes.fields;
    for (std::size_t i = 0; i < laying.pieces.size(); ++i)
        if (span_at(spans, centroid(laying.pieces[i].outline_mm).x) == index) {
            on.laying.pieces.push_back(laying.pieces[i]);
            on.volumes.solids.push_back(volumes.solids[i]);
        }
    for (std::size_t s = 0; s < laying.stones.size(); ++s)
        if (span_at(spans, laying.stones[s].stone.at_mm.x) == index) {
            on.laying.stones.push_back(laying.stones[s]);
            on.volumes.solids.push_back(volumes.solids[laying.pieces.size() + s]);
            on.volumes.stone_field.push_back(volumes.stone_field[s]);
        }
    return on;
}

// What of each field's bed and grout is on the panel.
void share_fillings(OnPanel& on, const PanelSpan& span, double height_mm,
                    const std::vector<Region>& regions) {
    const Region front = region_of(
        {{span.left_mm, 0}, {span.right_mm, 0}, {span.right_mm, height_mm}, {span.left_mm, height_mm}});
    std::vector<double> covered(on.volumes.fields.size(), 0);
    for (const Piece& piece : on.laying.pieces) covered[piece.field] += area_mm2(piece.outline_mm);
    for (std::size_t f = 0; f < on.volumes.fields.size(); ++f) {
        FieldFilling& filling = on.volumes.fields[f];
        const double ground = area_mm2(intersect(regions[f], front));
        const double joint = std::max(ground - covered[f], 0.0);
        const double of_ground = filling.ground_mm2 > 0 ? ground / filling.ground_mm2 : 0;
        const double of_joint = filling.joint_mm2 > 0 ? joint / filling.joint_mm2 : of_ground;
        filling.ground_mm2 = ground;
        filling.joint_mm2 = joint;
        filling.bed_mm3 *= of_ground;
        filling.grout_mm3 *= of_joint;
        filling.undercut_mm3 *= of_joint;
    }
}

}  // namespace

std::vector<PanelApart> panels_apart(const Layout& layout, const Laying& laying, const LaidVolumes& volumes,
                                     const std::vector<Region>& regions, const HangingWishes& wishes) {
    const std::vector<PanelSpan> spans = panel_spans(layout.panel);
    std::vector<PanelApart> panels;
    for (std::size_t i = 0; i < spans.size(); ++i) {
        OnPanel on = standing_on(i, spans, laying, volumes);
        if (spans.size() > 1) share_fillings(on, spans[i], layout.panel.height_mm, regions);
        Layout one = layout;
        one.panel = panel_of(layout.panel, spans[i]);
        PanelApart panel{spans[i], on.laying.pieces.size(), on.laying.stones.size(), {}, {}, 0};
        panel.weighing = weigh(one, on.laying, on.volumes, wishes);
        const glm::dvec2 outer = 2.0 * outer_half_mm(one.panel, 0);
        panel.load = hanging_load(panel.weighing, outer.x, outer.y, wishes);
        panel.struts = strut_count(one.panel, wishes);
        panels.push_back(std::move(panel));
    }
    return panels;
}

const PanelApart& heaviest(const std::vector<PanelApart>& panels) {
    return *std::ranges::max_element(panels, {}, [](const PanelApart& p) { return p.load.design_kg; });
}

}  // namespace rakelight
