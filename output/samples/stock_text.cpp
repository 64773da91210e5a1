#include "output/samples/stock_text.h"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "materials/optics/fresnel.h"
#include "materials/optics/kubelka_munk.h"
#include "output/samples/words.h"

namespace rakelight {

namespace {

std::string quoted_name(const std::string& name) {
    return nlohmann::json(name).dump();  // a JSON string is one of YAML
}

std::string table(const SampledSpectrum& values) {
    std::string text = "[";
    for (int b = 0; b < kBandCount; ++b)
        text += fmt::format("{}[{}, {:.5g}]", b == 0 ? "" : ", ", band_wavelength_nm(b), values[b]);
    return text + "]";
}

/// The key `reflectance`, of what a material keeps inside its face.
SampledSpectrum seen_outside(const Material& m) {
    const auto index = static_cast<double>(m.index);
    if (!(index > 1)) return m.reflectance;
    const double k1 = diffuse_reflectance_outside(index), k2 = diffuse_reflectance_inside(index);
    return map(m.reflectance, [&](float inner) {
        return static_cast<float>(through_interface(static_cast<double>(inner), k1, k2));
    });
}

std::string range_comment(const ReadSample& sample) {
    std::string text;
    for (const Look& look : sample.looks) {
        text += fmt::format(
            "  # {}: nine in ten within CIEDE2000",
            std::array{"as it lies", "over white", "over black"}[static_cast<std::size_t>(look.over)]);
        for (const ColourRange& r : look.ranges)
            text += fmt::format("{} {:.1f} under {}", &r == &look.ranges.front() ? "" : ",", r.nine_in_ten,
                                r.light);
        text += fmt::format(", from {} photograph{}\n", look.photographs, look.photographs == 1 ? "" : "s");
    }
    if (sample.milkiness_assumed) text += "  # milkiness is assumed\n";
    return text;
}

std::string entry(const ReadSample& sample) {
    const Material& m = sample.material;
    const auto thickness_mm = static_cast<double>(m.thickness_mm);
    std::string text = range_comment(sample);
    text += fmt::format("  {}:\n    kind: {}\n", quoted_name(sample.name), kind_word(m.kind));
    if (m.opaque) {
        text += "    reflectance: " + table(seen_outside(m)) + "\n";
        if (!sample.looks.empty())
            text += "    uncertainty: " + table(sample.looks.front().estimate.doubt) + "\n";
    } else {
        const SampledSpectrum t = map(m.absorption_per_mm, [&](float k) {
            return static_cast<float>(std::max(1e-6, std::exp(-static_cast<double>(k) * thickness_mm)));
        });
        text += fmt::format("    transmittance at {:.5g} mm: {}\n", thickness_mm, table(t));
        text += "    milkiness: " + table(m.scattering_per_mm) + "\n";
    }
    return text +
           fmt::format(
               "    thickness: {:.5g}\n    index: {:.4g}\n    roughness: {:.4g}\n"
               "    provenance: measured from a photograph\n    measured on: \"{}\"\n    colour range: "
               "[{:.2f}, {:.2f}, "
               "{:.2f}]\n",
               m.thickness_mm, m.index, m.roughness, m.measured_on, m.colour_range[0], m.colour_range[1],
               m.colour_range[2]);
}

}  // namespace

std::string stock_text(const SamplesReport& report) {
    std::string text = fmt::format(
        "# Stock measured from photographs of {}, read from {}.\n# Made by {}. In a layout: "
        "`stock from:` and the name of this file.\nstock:\n",
        report.date, report.samples_file, report.program);
    for (const ReadSample& sample : report.samples) text += entry(sample);
    return text;
}

}  // namespace rakelight
