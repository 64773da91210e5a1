#include "output/take_off/reckoning/weighing.h"

#include <algorithm>
#include <cmath>

#include "output/take_off/reckoning/grout_regions.h"
#include "scene/model/layout.h"
#include "scene/model/levels.h"
#include "scene/model/panel_spans.h"

namespace rakelight {

namespace {

constexpr double kStrutlessTo_m2 = 0.28;
constexpr double kStrutSpacing_mm = 400;
constexpr double kBubbly_g_per_cm3 = 2.0;  // stone lighter than this is full of pores

double kg(double mm3, double g_per_cm3) {
    return mm3 * g_per_cm3 / 1e6;
}

/// Collects what is alike.
class Scale {
  public:
    void put(const std::string& name, double mass_kg, double tolerance, double z_mm) {
        if (mass_kg <= 0) return;
        auto it =
            std::find_if(parts.begin(), parts.end(), [&](const WeightPart& p) { return p.name == name; });
        if (it == parts.end()) it = parts.insert(parts.end(), {name, 0, 0, 0});
        const double both = it->kg + mass_kg;
        it->tolerance = (it->tolerance * it->kg + tolerance * mass_kg) / both;
        it->off_board_mm = (it->off_board_mm * it->kg + z_mm * mass_kg) / both;
        it->kg = both;
    }
    std::vector<WeightPart> parts;
};

std::string family(const Material& m) {
    if (m.kind == Kind::glass) return "glass";
    if (m.kind == Kind::slag) return "slag";
    if (m.kind == Kind::stone)
        return static_cast<double>(m.density_g_per_cm3) < kBubbly_g_per_cm3 ? "pumice and lava" : "stone";
    return "other pieces";
}

void put_pieces(Scale& scale, const Layout& layout, const Laying& laying, const LaidVolumes& volumes) {
    for (std::size_t i = 0; i < volumes.solids.size(); ++i) {
        const bool stone = i >= laying.pieces.size();
        const Material& m =
            layout
                .stock[stone ? laying.stones[i - laying.pieces.size()].material : laying.pieces[i].material];
        scale.put(family(m), kg(volumes.solids[i].volume_mm3, static_cast<double>(m.density_g_per_cm3)),
                  density_tolerance(m), volumes.solids[i].centre_mm.z);
    }
}

void put_fillings(Scale& scale, const Layout& layout, const LaidVolumes& volumes) {
    for (std::size_t f = 0; f < volumes.fields.size(); ++f) {
        const FieldFilling& filling = volumes.fields[f];
        const Field& field = layout.fields[f];
        const auto density = [&](std::uint32_t tint) {
            return static_cast<double>(layout.tints[tint].density_g_per_cm3);
        };
        if (field.grout)
            scale.put("grout", kg(filling.grout_mm3, density(*field.grout)), 0.15,
                      (filling.bed_mm + filling.surface_mm) / 2);
        scale.put("bed", kg(filling.bed_mm3, density(field.bed)), 0.15, filling.bed_centre_mm);
    }
}

// Board, frame and struts of one panel of the work.
void put_carcass(Scale& scale, const Layout& layout, const Panel& panel, const HangingWishes& wishes) {
    const double t = panel.substrate.thickness_mm, gap = panel.frame ? panel.frame->gap_mm : 0;
    const glm::dvec2 board(panel.width_mm + 2 * gap, panel.height_mm + 2 * gap);
    const auto density = [&](std::uint32_t stock) {
        return static_cast<double>(layout.stock[stock].density_g_per_cm3);
    };
    scale.put("board", kg(board.x * board.y * t, density(panel.substrate.material)), 0.15, -t / 2);
    if (panel.frame) {  // four mitred bars; what easing their arrises takes off is left out
        const glm::dvec2 outer = board + 2 * panel.frame->width_mm;
        const double front = face_plane_mm(layout) + panel.frame->proud_mm;
        scale.put("frame",
                  kg((outer.x * outer.y - board.x * board.y) * (front + t), density(panel.frame->material)),
                  0.10, (front - t) / 2);
    }
    const double strut = panel.height_mm * wishes.strut_mm.x * wishes.strut_mm.y;
    scale.put("struts", kg(strut * strut_count(panel, wishes), wishes.strut_kg_per_m3 / 1000), 0.10,
              -t - wishes.strut_mm.y / 2);
}

}  // namespace

double density_tolerance(const Material& m) {
    switch (m.kind) {
        case Kind::glass:
            return 0.03;
        case Kind::stone:
        case Kind::slag:
            return static_cast<double>(m.density_g_per_cm3) < kBubbly_g_per_cm3 ? 0.30 : 0.08;
        case Kind::timber:
            return 0.10;
        case Kind::cement:
        case Kind::epoxy:
        case Kind::paint:
            break;
    }
    return 0.15;
}

int strut_count(const Panel& panel, const HangingWishes& wishes) {
    if (wishes.struts) return *wishes.struts;
    if (panel.width_mm * panel.height_mm <= kStrutlessTo_m2 * 1e6 * (1 - 1e-9)) return 0;
    return std::max(1, static_cast<int>(std::ceil(panel.width_mm / kStrutSpacing_mm - 1e-9)) - 1);
}

Weighing weigh(const Layout& layout, const Laying& laying, const LaidVolumes& volumes,
               const HangingWishes& wishes) {
    Scale scale;
    put_pieces(scale, layout, laying, volumes);
    put_fillings(scale, layout, volumes);
    Weighing w;
    for (const PanelSpan& span : panel_spans(layout.panel)) {
        put_carcass(scale, layout, panel_of(layout.panel, span), wishes);
        w.face_m2 += span.width_mm() * layout.panel.height_mm / 1e6;
    }
    w.parts = std::move(scale.parts);
    double moment = 0;
    for (const WeightPart& part : w.parts) {
        w.likely_kg += part.kg;
        w.low_kg += part.low_kg();
        w.high_kg += part.high_kg();
        moment += part.kg * part.off_board_mm;
    }
    w.low_kg = std::min(w.low_kg, (1 - kWholeTolerance) * w.likely_kg);
    w.high_kg = std::max(w.high_kg, (1 + kWholeTolerance) * w.likely_kg);
    w.off_wall_mm =
        wishes.gap_mm + layout.panel.substrate.thickness_mm + (w.likely_kg > 0 ? moment / w.likely_kg : 0);
    return w;
}

Weighing weigh(const Layout& layout, const Laying& laying, const WorkshopWishes& workshop) {
    std::vector<Ring> footprints;
    for (const SetStone& stone : laying.stones) footprints.push_back(stone.footprint_mm);
    const std::vector<Region> regions =
        grout_regions(layout, grounds_on_panel(layout, footprints), footprints);
    return weigh(layout, laying, laid_volumes(layout, laying, regions, workshop.take_off.bed_rise),
                 workshop.hanging);
}

}  // namespace rakelight
