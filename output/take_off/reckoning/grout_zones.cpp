#include "output/take_off/reckoning/grout_zones.h"

#include <algorithm>

#include "materials/colour/colorimetry.h"
#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/stock/face_on.h"
#include "output/take_off/reckoning/grout_regions.h"
#include "output/take_off/reckoning/section.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

void add_field(GroutZone& zone, const std::vector<Field>& fields, std::uint32_t f, const Region& region,
               const FieldFilling& filling) {
    const Field& field = fields[f];
    zone.fields.push_back(f);
    zone.region = zone.region.empty() ? region : unite(zone.region, region);
    zone.area_mm2 += filling.ground_mm2;
    zone.joint_mm2 += filling.joint_mm2;
    zone.depth_mm += filling.joint_mm2 * filling.depth_mm();  // divided at the end
    zone.volume_mm3 += filling.grout_mm3;
    zone.undercut_mm3 += filling.undercut_mm3;
    zone.rule_mm3 += rule_of_thumb_mm3(filling.ground_mm2, field.piece_length_mm, field.piece_width_mm,
                                       field.joint_mm, filling.depth_mm());
    zone.traits.sanded = zone.traits.sanded || field.joint_mm >= kSandedFrom_mm;
}

bool holds_open_pores(const GroutZone& zone, const std::vector<Material>& stock, const Laying& laying,
                      const LaidVolumes& volumes) {
    const auto ours = [&](std::uint32_t f) {
        return std::find(zone.fields.begin(), zone.fields.end(), f) != zone.fields.end();
    };
    for (const Piece& piece : laying.pieces)
        if (ours(piece.field) && open_pored(stock[piece.material])) return true;
    for (std::size_t s = 0; s < laying.stones.size(); ++s)
        if (ours(volumes.stone_field[s]) && open_pored(stock[laying.stones[s].material])) return true;
    return false;
}

}  // namespace

double rule_of_thumb_mm3(double area_mm2, double a_mm, double b_mm, double joint_mm, double depth_mm) {
    return (a_mm + b_mm) / (a_mm * b_mm) * depth_mm * joint_mm * area_mm2;
}

bool open_pored(const Material& material) {
    return (material.kind == Kind::stone || material.kind == Kind::slag) && material.index <= 1 &&
           !material.filmed;
}

double cured_lightness(const Material& tint) {
    InterfaceTables tables;
    const TristimulusWeights weights = tristimulus_weights(*find_illuminant("D65"));
    const auto xyz = [&](const SampledSpectrum& reflectance) {
        const auto [x, y, z] = integrate(weights, reflectance);
        return Xyz{x, y, z};
    };
    const SampledSpectrum seen =
        face_on_reflectance(tint, static_cast<double>(tint.thickness_mm), SampledSpectrum(), 1, tables);
    return xyz_to_lab(xyz(seen), xyz(SampledSpectrum(1))).l;
}

Region clear_of_stones(const GroutZone& zone, const Laying& laying) {
    Region clear = zone.region;
    for (const SetStone& stone : laying.stones) clear = subtract(clear, region_of(stone.footprint_mm));
    return clear;
}

std::vector<GroutZone> grout_zones(const Layout& layout, const Laying& laying,
                                   const std::vector<Region>& regions, const LaidVolumes& volumes,
                                   bool pre_seal) {
    std::vector<GroutZone> zones;
    for (const std::string& name : zone_names(layout.fields)) {
        GroutZone zone;
        zone.name = zone.traits.name = name;
        for (std::uint32_t f = 0; f < layout.fields.size(); ++f) {
            const Field& field = layout.fields[f];
            if (field.zone != name || !field.grout) continue;
            zone.tint = *field.grout;
            add_field(zone, layout.fields, f, regions[f], volumes.fields[f]);
        }
        const Material& tint = layout.tints[zone.tint];
        zone.grout = tint.name;
        for (std::size_t s = 0; s < laying.stones.size(); ++s)
            if (std::find(zone.fields.begin(), zone.fields.end(), volumes.stone_field[s]) !=
                zone.fields.end())
                zone.region = unite(zone.region, region_of(laying.stones[s].footprint_mm));
        zone.region = intersect(zone.region, panel_region(layout.panel));
        zone.depth_mm = zone.joint_mm2 > 0 ? zone.depth_mm / zone.joint_mm2 : 0;
        double moment = 0;
        for (const Ring& ring : zone.region.rings) moment += area_mm2(ring) * centroid(ring).y;
        const double open_mm2 = area_mm2(zone.region);
        zone.traits.middle_y_mm = open_mm2 > 0 ? moment / open_mm2 : 0;
        zone.traits.area_mm2 = zone.area_mm2;
        zone.traits.lightness = cured_lightness(tint);
        zone.traits.epoxy = tint.kind == Kind::epoxy;
        zone.traits.unsealed_pores = !pre_seal && holds_open_pores(zone, layout.stock, laying, volumes);
        zones.push_back(std::move(zone));
    }
    return zones;
}

}  // namespace rakelight
