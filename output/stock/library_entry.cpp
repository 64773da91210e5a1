#include "output/stock/library_entry.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>

#include "materials/optics/fresnel.h"
#include "materials/optics/kubelka_munk.h"

namespace rakelight {

namespace {

SampledSpectrum seen_outside(const Material& m) {
    const auto index = static_cast<double>(m.index);
    if (!(index > 1)) return m.reflectance;
    const double k1 = diffuse_reflectance_outside(index), k2 = diffuse_reflectance_inside(index);
    return map(m.reflectance, [&](float inner) {
        return static_cast<float>(through_interface(static_cast<double>(inner), k1, k2));
    });
}

}  // namespace

const char* kind_word(Kind kind) {
    return std::array{
        "glass", "stone", "slag", "cement", "epoxy", "timber", "paint"}[static_cast<std::size_t>(kind)];
}

std::string quoted_key(const std::string& name) {
    return nlohmann::json(name).dump();  // a JSON string is one of YAML
}

std::string pairs_text(const SampledSpectrum& values) {
    std::string text = "[";
    for (int b = 0; b < kBandCount; ++b)
        text += fmt::format("{}[{}, {:.5g}]", b == 0 ? "" : ", ", band_wavelength_nm(b), values[b]);
    return text + "]";
}

std::string body_text(const Material& m) {
    const std::string kind = fmt::format("    kind: {}\n", kind_word(m.kind));
    if (m.opaque) return kind + "    reflectance: " + pairs_text(seen_outside(m)) + "\n";
    const double mm = std::clamp(static_cast<double>(m.thickness_mm), 0.5, 100.0);
    const SampledSpectrum through = map(m.absorption_per_mm, [&](float a) {
        return static_cast<float>(std::clamp(std::exp(-static_cast<double>(a) * mm), 1e-6, 1.0));
    });
    return kind + fmt::format("    transmittance at {:.5g} mm: {}\n    milkiness: {}\n", mm,
                              pairs_text(through), pairs_text(m.scattering_per_mm));
}

std::string face_text(const Material& m) {
    std::string text;
    const auto line = [&](const char* key, float value) {
        text += fmt::format("    {}: {:.5g}\n", key, value);
    };
    line("thickness", m.thickness_mm);
    line("tone spread", m.tone_spread);
    line("density", m.density_g_per_cm3);
    line("index", m.index);
    line("roughness", m.roughness);
    line("matte", m.matte_deg);
    line("sheen stretch", m.stretch);
    line("ripple", m.ripple_deg);
    line("ripple size", m.ripple_size_mm);
    if (m.glassy_share > 0) {
        line("glassy share", m.glassy_share);
        line("glassy index", m.glassy_index);
        line("glassy roughness", m.glassy_roughness);
        line("glassy spot", m.glassy_patch_mm);
    }
    if (m.grain.contrast > 0)
        text += fmt::format("    texture: {{contrast: {:.4g}, size: {:.4g}, stretch: {:.4g}}}\n",
                            m.grain.contrast, m.grain.size_mm, m.grain.band_ratio);
    return text;
}

}  // namespace rakelight
