#include "output/lay/report.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/stock/face_on.h"
#include "output/print/printed_colour.h"
#include "scene/forms/side_wall.h"
#include "scene/laying/region_plan.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

/// Colours on demand, each made once.
class Paintbox {
  public:
    explicit Paintbox(const std::string& light) : weights_(tristimulus_weights(*find_illuminant(light))) {}

    /// With nothing behind.
    Rgb8 of(const Material& material, double thickness_mm) {
        return made({&material, thickness_mm, nullptr}, [] { return SideWall(); });
    }

    /// As laid: over the bed of its field and between its joints, as on the stock sheet.
    Rgb8 of(const Piece& piece, const Layout& layout, const Laying& laying) {
        const Material& material = layout.stock[piece.material];
        const Field& field = layout.fields[piece.field];
        if (material.opaque) return of(material, piece.thickness_mm);
        return made(
            {&material, piece.thickness_mm, &field},
            [&] {
                const double edge = edge_of_pieces(field, laying.pieces, piece.field, piece.material);
                return side_wall(layout.tints, field, edge, piece.thickness_mm, material);
            },
            layout.tints[field.bed].reflectance);
    }

  private:
    using Key = std::tuple<const Material*, double, const Field*>;

    template <class MakeSide>
    Rgb8 made(const Key& key, MakeSide&& side, const SampledSpectrum& backing = {}) {
        const auto [it, fresh] = made_.try_emplace(key);
        if (fresh) {
            const SampledSpectrum seen =
                face_on_reflectance(*std::get<0>(key), std::get<1>(key), backing, 1, tables_, side());
            it->second = printed_colour(xyz_to_lab(xyz(seen), xyz(SampledSpectrum(1)))).srgb;
        }
        return it->second;
    }

    Xyz xyz(const SampledSpectrum& reflectance) const {
        const auto [x, y, z] = integrate(weights_, reflectance);
        return {x, y, z};
    }

    TristimulusWeights weights_;
    InterfaceTables tables_;
    std::map<Key, Rgb8> made_;
};

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
    report.panel_mm2 = layout.panel.width_mm * layout.panel.height_mm;
    report.stone_count = laying.stones.size();
    count(report, layout, laying);
    const Region panel = region_of({{0, 0},
                                    {layout.panel.width_mm, 0},
                                    {layout.panel.width_mm, layout.panel.height_mm},
                                    {0, layout.panel.height_mm}});
    for (std::size_t f = 0; f < report.ground.size(); ++f) {
        report.ground[f] = intersect(report.ground[f], panel);
        report.fields[f].ground_mm2 = area_mm2(report.ground[f]);
    }
    colour(report, layout, laying);
    return report;
}

}  // namespace rakelight
