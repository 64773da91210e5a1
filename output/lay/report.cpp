#include "output/lay/report.h"

#include "output/lay/paintbox.h"
#include "scene/laying/region_plan.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

void colour(LayingReport& report, const Layout& layout, const Laying& laying) {
    Paintbox paints(report.light);
    for (const Piece& piece : laying.pieces) report.piece_colour.push_back(paints.of(piece, layout, laying));
    for (const SetStone& set : laying.stones)
        report.stone_colour.push_back(paints.of(layout.stock[set.material], set.stone.size_mm.z));
    for (const Field& field : layout.fields) {
        const Material& tint = layout.tints[filling_of(field)];
        report.joint_colour.push_back(paints.of(tint, tint.thickness_mm));
    }
}

void add(LaidCount& to, const PieceFacts& facts) {
    ++to.count;
    to.area_mm2 += facts.area_mm2;
    to.mass_g += facts.mass_g;
}

void count(LayingReport& report, const Layout& layout, const Laying& laying) {
    const std::size_t materials = layout.stock.size();
    std::vector<LaidCount> all(materials);
    std::vector<std::vector<LaidCount>> by_field(layout.fields.size(), std::vector<LaidCount>(materials));
    report.fields.resize(layout.fields.size());
    for (std::size_t i = 0; i < report.facts.size(); ++i) {
        const PieceFacts& facts = report.facts[i];
        report.mass_g += facts.mass_g;
        if (i >= laying.pieces.size()) {
            report.stone_mm2 += facts.area_mm2;
            add(all[laying.stones[i - laying.pieces.size()].material], facts);
            continue;
        }
        const Piece& piece = laying.pieces[i];
        report.piece_mm2 += facts.area_mm2;
        add(all[piece.material], facts);
        add(by_field[piece.field][piece.material], facts);
        LaidField& field = report.fields[piece.field];
        ++field.count;
        field.area_mm2 += facts.area_mm2;
        field.mass_g += facts.mass_g;
    }
    const auto laid_only = [](std::vector<LaidCount>& from) {
        std::vector<LaidCount> laid;
        for (std::uint32_t m = 0; m < from.size(); ++m)
            if (from[m].count > 0) {
                from[m].material = m;
                laid.push_back(from[m]);
            }
        return laid;
    };
    for (std::size_t f = 0; f < by_field.size(); ++f) report.fields[f].materials = laid_only(by_field[f]);
    report.materials = laid_only(all);
    report.code.resize(materials);
    for (std::size_t k = 0; k < report.materials.size(); ++k)
        report.code[report.materials[k].material] = material_code(k);
}

}  // namespace

std::string material_code(std::size_t nth) {
    static constexpr std::string_view letters = "ABCDEFGHJKLMNPQRSTUVWXYZ";
    const std::string last(1, letters[nth % letters.size()]);
    return nth < letters.size() ? last : material_code(nth / letters.size() - 1) + last;
}

LayingReport report_laying(const Layout& layout, const Laying& laying, const std::string& program,
                           std::uint64_t scene_hash) {
    LayingReport report;
    report.program = program;
    report.scene_hash = scene_hash;
    report.facts = piece_facts(layout.stock, laying);
    std::vector<Ring> footprints;
    for (const SetStone& set : laying.stones) footprints.push_back(set.footprint_mm);
    report.ground = plan_regions(layout, footprints);
    report.panel_mm2 = area_mm2(panel_region(layout.panel));
    report.stone_count = laying.stones.size();
    count(report, layout, laying);
    const Region panel = panel_region(layout.panel);
    for (std::size_t f = 0; f < report.ground.size(); ++f) {
        report.ground[f] = intersect(report.ground[f], panel);
        report.fields[f].ground_mm2 = area_mm2(report.ground[f]);
    }
    colour(report, layout, laying);
    return report;
}

}  // namespace rakelight
