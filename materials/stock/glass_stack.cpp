#include "materials/stock/glass_stack.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "materials/optics/kubelka_munk.h"

namespace rakelight {
namespace {

void require(bool good, const std::string& name, const std::string& what) {
    if (!good) throw std::invalid_argument("glass " + name + ": " + what);
}

float blend(float a, float b, double t) {
    return static_cast<float>(a + t * (static_cast<double>(b) - a));
}

// The layers of a glass, whose shares sum to 1.
std::vector<BodyLayer> layers_of(const Material& glass) {
    if (!glass.sheets.empty()) return glass.sheets;
    return {{glass.absorption_per_mm, glass.scattering_per_mm, 1}};
}

// Where nothing scatters the order of layers is of no account: one layer serves, and is exact.
void simplify(Material& m) {
    m.absorption_per_mm = m.scattering_per_mm = SampledSpectrum();
    for (const BodyLayer& s : m.sheets) {
        m.absorption_per_mm += s.absorption_per_mm * s.share;
        m.scattering_per_mm += s.scattering_per_mm * s.share;
    }
    const auto as_first = [&](const BodyLayer& s) {
        return s.absorption_per_mm == m.sheets.front().absorption_per_mm &&
               s.scattering_per_mm == m.sheets.front().scattering_per_mm;
    };
    if (max_value(m.scattering_per_mm) == 0 || std::all_of(m.sheets.begin(), m.sheets.end(), as_first))
        m.sheets.clear();
}

float mixed_opaque(float a, float b, double t) {
    const double least = 1e-6;  // an endless K/S would swallow the other glass
    const double qa = k_over_s(std::max<double>(a, least)), qb = k_over_s(std::max<double>(b, least));
    return static_cast<float>(endless_reflectance(qa + t * (qb - qa)));
}

}  // namespace

FusedSize fused_size(double stacked_mm, Firing firing) {
    if (firing == Firing::dammed || stacked_mm <= kFusedThickness_mm) return {stacked_mm, 1};
    return {kFusedThickness_mm, stacked_mm / kFusedThickness_mm};
}

Material fuse(std::string name, std::span<const StackedSheet> stack, Firing firing) {
    require(!stack.empty(), name, "a stack needs a sheet");
    double stacked_mm = 0;
    for (const StackedSheet& s : stack) {
        require(s.glass && s.glass->kind == Kind::glass, name, "every sheet of a stack must be glass");
        require(s.thickness_mm > 0 && std::isfinite(s.thickness_mm), name, "a sheet must be thicker than 0");
        require(s.glass->leaf == Leaf::none && s.glass->haze == 0, name,
                "a sheet with leaf or a finish does not go into the kiln");
        stacked_mm += s.thickness_mm;
    }
    Material r = *stack.front().glass;
    r.name = std::move(name);
    r.thickness_mm = static_cast<float>(fused_size(stacked_mm, firing).thickness_mm);
    r.sheets.clear();
    double tone = 0, density = 0;
    for (const StackedSheet& s : stack) {
        tone += s.glass->tone_spread * s.thickness_mm / stacked_mm;
        density += s.glass->density_g_per_cm3 * s.thickness_mm / stacked_mm;
        r.provenance = std::max(r.provenance, s.glass->provenance);  // the least certain
    }
    r.tone_spread = static_cast<float>(tone);
    r.density_g_per_cm3 = static_cast<float>(density);
    if (r.opaque) return r;
    for (const StackedSheet& s : stack) {
        const Material& glass = *s.glass;
        if (!glass.opaque) {
            for (BodyLayer layer : layers_of(glass)) {
                layer.share = static_cast<float>(layer.share * s.thickness_mm / stacked_mm);
                r.sheets.push_back(layer);
            }
        }
        if (glass.opaque || glass.backed) {
            r.reflectance = glass.reflectance;
            r.backed = true;
            break;
        }
    }
    simplify(r);
    return r;
}

std::vector<Material> shade_ladder(const std::string& name, const Material& from, const Material& to,
                                   int steps) {
    require(steps >= 2 && steps <= 99, name, "a ladder has 2 to 99 steps");
    require(from.kind == Kind::glass && to.kind == Kind::glass, name, "a ladder is between two glasses");
    require(from.opaque == to.opaque, name, "a ladder is between two translucent glasses or two opaque ones");
    require(from.sheets.empty() && to.sheets.empty() && !from.backed && !to.backed, name,
            "a ladder is between glasses of one layer");
    std::vector<Material> r;
    for (int i = 0; i < steps; ++i) {
        const double t = static_cast<double>(i) / (steps - 1);
        Material m = t < 0.5 ? from : to;
        m.name = name + "-" + std::to_string(i + 1);
        m.provenance = std::max(from.provenance, to.provenance);
        for (int b = 0; b < kBandCount; ++b) {
            m.absorption_per_mm[b] = blend(from.absorption_per_mm[b], to.absorption_per_mm[b], t);
            m.scattering_per_mm[b] = blend(from.scattering_per_mm[b], to.scattering_per_mm[b], t);
            m.reflectance[b] = t == 0   ? from.reflectance[b]
                               : t == 1 ? to.reflectance[b]
                                        : mixed_opaque(from.reflectance[b], to.reflectance[b], t);
        }
        m.index = blend(from.index, to.index, t);
        m.roughness = blend(from.roughness, to.roughness, t);
        m.ripple_deg = blend(from.ripple_deg, to.ripple_deg, t);
        m.thickness_mm = blend(from.thickness_mm, to.thickness_mm, t);
        m.tone_spread = blend(from.tone_spread, to.tone_spread, t);
        m.density_g_per_cm3 = blend(from.density_g_per_cm3, to.density_g_per_cm3, t);
        r.push_back(std::move(m));
    }
    return r;
}

}  // namespace rakelight
