#include "materials/optics/coat.h"

#include <algorithm>

#include "materials/optics/facets.h"

namespace rakelight {

namespace {

// Share of evenly falling light that the films mirror, by bands; the mean of 2 z R over z.
SampledSpectrum mirrored_of_even_light(const Material& m) {
    constexpr int kSteps = 48;
    SampledSpectrum sum;
    for (int i = 0; i < kSteps; ++i) {
        const float z = (static_cast<float>(i) + 0.5f) / kSteps;
        sum += coat_reflectance(m, static_cast<double>(z)) * (2 * z / kSteps);
    }
    return sum;
}

}  // namespace

SampledSpectrum coat_reflectance(const Material& m, double z) {
    SampledSpectrum r;
    for (int b = 0; b < kBandCount; ++b)
        r[b] = static_cast<float>(film_reflectance(1, m.coating, std::max(1.01, static_cast<double>(m.index)),
                                                   z, band_wavelength_nm(b)));
    return r;
}

void set_coat(Surface& s, const Material& m, const SampledSpectrum& body, InterfaceTables& cache) {
    s.kind = Surface::Base::leaf;
    s.interface = nullptr;
    s.cosine = make_layer_cosine(1);
    s.leaf.table = &cache.coat(m);
    s.anisotropic = s.leaf.table->anisotropic();
    for (std::size_t node = 0; node < kLayerNodes; ++node)
        s.g[node] = coat_reflectance(m, static_cast<double>(node) / (kLayerNodes - 1));
    const SampledSpectrum mirrored = mirrored_of_even_light(m);
    const float once = s.leaf.table->mean_albedo, left = std::max(1 - once, 1e-3f);
    for (int b = 0; b < kBandCount; ++b) {
        s.among[b] = body[b] * (1 - mirrored[b]) / left;
        // At no angle may a band give back more than it got.
        for (std::size_t node = 0; node < kLayerNodes; ++node)
            if (const float rest = 1 - mean(s.g[node]); rest > 1e-4f)
                s.among[b] = std::min(s.among[b], (1 - s.g[node][b]) / rest);
    }
    s.base_norm = std::numbers::inv_pi_v<float> / left;
    const float by_lobe = mean(mirrored), evenly = mean(s.among) * left;
    s.mean_albedo = by_lobe + evenly;
    s.leaf.lobe_share = std::clamp(by_lobe / std::max(by_lobe + evenly, 1e-6f), 0.1f, 0.95f);
    s.max_base_scale = 1;
}

InterfaceTable make_coat_table(const Material& m) {
    InterfaceTable table;
    table.slopes = slopes_of(std::clamp(m.roughness, 0.01f, 1.0f), m.stretch);
    constexpr int kSteps = 256;
    std::vector<double> mirrored;  // by the cosine, mean of the bands
    for (int i = 0; i <= kSteps; ++i)
        mirrored.push_back(static_cast<double>(mean(coat_reflectance(m, static_cast<double>(i) / kSteps))));
    fill(table, [&](const glm::dvec3& out) {
        return over_visible_facets(out, table.slopes, [&](double toward, double) -> double {
            const double x = std::clamp(toward, 0.0, 1.0) * kSteps;
            const int i = std::min(static_cast<int>(x), kSteps - 1);
            const auto at = static_cast<std::size_t>(i);
            return mirrored[at] + (x - i) * (mirrored[at + 1] - mirrored[at]);
        });
    });
    return table;
}

const InterfaceTable& InterfaceTables::coat(const Material& m) {
    std::vector<float> key{m.index, m.roughness, m.stretch};
    for (const FilmLayer& layer : m.coating) {
        key.push_back(static_cast<float>(layer.index));
        key.push_back(static_cast<float>(layer.thickness_nm));
    }
    if (const auto found = coats_.find(key); found != coats_.end()) return found->second;
    return coats_.emplace(std::move(key), make_coat_table(m)).first->second;
}

}  // namespace rakelight
