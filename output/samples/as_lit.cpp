#include "output/samples/as_lit.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "materials/optics/fresnel.h"
#include "materials/optics/interface_table.h"
#include "materials/optics/plate.h"
#include "materials/optics/surface.h"
#include "materials/stock/face_on.h"

namespace rakelight {

namespace {

constexpr float kSide = std::numbers::sqrt2_v<float> / 2;  // cosine of light from the side

/// The reflectance factor of the body, lit from the side and seen square on.
SampledSpectrum from_side(const Surface& surface) {
    const float scale = surface.base_norm * std::numbers::pi_v<float> * surface.transmittance(1) *
                        surface.transmittance(kSide);
    if (surface.kind == Surface::Base::layered)
        return scale * (surface.cosine.read(surface.g, 1) * surface.cosine.read(surface.g, kSide));
    if (surface.kind ==
        Surface::Base::matte)  // seen square on, so that light comes neither from before nor behind
        return scale * (surface.matte.plain * surface.even +
                        matte_multiple(surface.matte, 1.f, kSide) * surface.among);
    return scale * surface.even;
}

/// What a face of this index mirrors of surroundings as bright as the light.
double mirrored(double index, LitFrom lit) {
    return lit == LitFrom::all_round ? dielectric_reflectance(1.0, index) : 0;
}

SampledSpectrum less(const SampledSpectrum& seen, double mirrored) {
    return map(seen, [&](float r) { return std::max(0.001f, r - static_cast<float>(mirrored)); });
}

PhotographLight light_of(LitFrom lit) {
    return lit == LitFrom::side ? PhotographLight::at_45_deg : PhotographLight::diffuse;
}

// A piece of glass laid on a card.
SampledSpectrum glass_on_card(const Material& m, double thickness_mm, const SampledSpectrum& card,
                              LitFrom lit, Lying lies) {
    const InterfaceTable face = make_interface_table(m.index, 0);
    const LayerFrame frame = make_layer_frame(&face);
    SampledSpectrum r;
    for (int b = 0; b < kBandCount; ++b) {
        const LayerBand band{static_cast<double>(m.absorption_per_mm[b]),
                             static_cast<double>(m.scattering_per_mm[b]), thickness_mm, 0};
        r[b] = static_cast<float>(
            make_plate(frame, band, lies, light_of(lit)).over(static_cast<double>(card[b])));
    }
    return r;
}

// A piece on a card, in the light of the photograph.
GlassPair on_card(const GlassPair& seen, LitFrom lit, Lying lies) {
    GlassPair pair = seen;
    pair.over_white = less(seen.over_white, mirrored(seen.index, lit));
    pair.over_black = less(seen.over_black, mirrored(seen.index, lit));
    pair.lying = lies;
    pair.light = light_of(lit);
    return pair;
}

}  // namespace

Material with_seen(Material material, const SampledSpectrum& seen, LitFrom lit) {
    material.opaque = true;
    material.reflectance = map(seen, [](float r) { return std::clamp(r, 0.001f, 0.98f); });
    for (int round = 0; round < 12; ++round) {
        const SampledSpectrum rendered =
            seen_as_lit(material, static_cast<double>(material.thickness_mm), SampledSpectrum(0), lit);
        for (int b = 0; b < kBandCount; ++b)
            material.reflectance[b] = std::clamp(
                material.reflectance[b] * std::clamp(seen[b] / std::max(rendered[b], 1e-4f), 0.25f, 2.f),
                0.001f, 0.98f);
    }
    return material;
}

GlassOfPair glass_of_seen(const GlassPair& seen, LitFrom lit, Lying lies) {
    return glass_of_pair(on_card(seen, lit, lies));
}

GlassOfPair glass_over_white(const GlassPair& seen, double milkiness_per_mm, LitFrom lit, Lying lies) {
    return glass_of_white(on_card(seen, lit, lies), milkiness_per_mm);
}

Material with_glass(Material material, const GlassOfPair& glass, double thickness_mm) {
    material.opaque = false;
    material.absorption_per_mm = map(glass.transmittance, [&](float t) {
        return static_cast<float>(std::max(0.0, -std::log(static_cast<double>(t)) / thickness_mm));
    });
    material.scattering_per_mm = glass.milkiness_by_band;
    return material;
}

SampledSpectrum seen_as_lit(const Material& material, double thickness_mm, const SampledSpectrum& card,
                            LitFrom lit, Lying lies) {
    const SampledSpectrum shine(static_cast<float>(mirrored(static_cast<double>(material.index), lit)));
    if (!material.opaque && material.index > 1)
        return glass_on_card(material, thickness_mm, card, lit, lies) + shine;
    InterfaceTables tables;
    if (lit == LitFrom::all_round)
        return face_on_reflectance(material, thickness_mm, card, 1, tables) + shine;
    return from_side(make_surface(material, thickness_mm, card, 1, tables));
}

}  // namespace rakelight
