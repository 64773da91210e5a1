#include "materials/optics/marked.h"

#include <algorithm>

#include "materials/optics/kubelka_munk.h"

namespace rakelight {

namespace {

// A share of another colour melted into a material.
Material with_share(Material m, const Strands& other, float share) {
    if (other.haze > 0) {
        m.haze += share * other.haze;
        return m;
    }
    if (other.thicker != 0) {
        for (FilmLayer& film : m.coating) film.thickness_nm *= static_cast<double>(1 + share * other.thicker);
        return m;
    }
    if (other.covers) {
        constexpr float kHides = 0.6f;  // so thin a film; common practice, no published source
        m.reflectance = lerp(m.reflectance, other.reflectance, kHides * share);
        m.roughness += share * std::max(0.6f - m.roughness, 0.f);
        return m;
    }
    if (m.opaque) {
        for (int b = 0; b < kBandCount; ++b) {
            const float r = std::max(m.reflectance[b], 1e-4f), s = std::max(other.reflectance[b], 1e-4f);
            const double mixed = (1 - static_cast<double>(share)) * k_over_s(r) + share * k_over_s(s);
            m.reflectance[b] = static_cast<float>(endless_reflectance(mixed));
        }
        return m;
    }
    m.absorption_per_mm = lerp(m.absorption_per_mm, other.absorption_per_mm, share);
    m.scattering_per_mm = lerp(m.scattering_per_mm, other.scattering_per_mm, share);
    for (BodyLayer& sheet : m.sheets) {
        sheet.absorption_per_mm = lerp(sheet.absorption_per_mm, other.absorption_per_mm, share);
        sheet.scattering_per_mm = lerp(sheet.scattering_per_mm, other.scattering_per_mm, share);
    }
    return m;
}

// Means of a layer's albedo at each node, parted into its factor again.
void average_layers(Surface& mean, const std::vector<Surface>& looks, const std::vector<float>& shares) {
    const LayerFrame frame = make_layer_frame(mean.interface);
    for (int b = 0; b < kBandCount; ++b) {
        std::array<double, kLayerNodes> albedo{};
        for (std::size_t i = 0; i < looks.size(); ++i)
            for (std::size_t node = 0; node < kLayerNodes; ++node)
                albedo[node] += static_cast<double>(shares[i] * looks[i].g[node][b] * looks[i].even[b]);
        const LayerFactor factor = layer_factor(frame, albedo);
        mean.even[b] = static_cast<float>(factor.mean);
        for (std::size_t node = 0; node < kLayerNodes; ++node)
            mean.g[node][b] = static_cast<float>(factor.g[node]);
    }
}

template <class Member>
SampledSpectrum average(const std::vector<Surface>& looks, const std::vector<float>& shares, Member&& of) {
    SampledSpectrum sum;
    for (std::size_t i = 0; i < looks.size(); ++i) sum += of(looks[i]) * shares[i];
    return sum;
}

}  // namespace

bool has_looks(const Material& material) {
    return !material.markings.strands.empty() ||
           (material.markings.seeds.size_mm > 0 && material.markings.seeds.per_cm2 > 0);
}

Marks marks_of(const Material& material) {
    Marks marks = compile(material.markings, material.thickness_mm, material.kind != Kind::glass);
    // Rough bodies darken half as much as even ones where they slope (Oren and Nayar 1994, by brute force).
    if (!(material.index > 1) && material.matte_deg > 10) marks.levelled = 0.5f;
    return marks;
}

std::vector<Surface> surfaces_of_looks(const Material& material, double thickness_mm,
                                       const SampledSpectrum& backing, double tone, InterfaceTables& cache,
                                       const SideWall& side) {
    Material plain = material;
    plain.markings = {};
    std::vector<Surface> looks{make_surface(plain, thickness_mm, backing, tone, cache, side)};
    for (const Strands& strands : material.markings.strands)
        for (int step = 1; step <= kStrandSteps; ++step)
            looks.push_back(make_surface(with_share(plain, strands, static_cast<float>(step) / kStrandSteps),
                                         thickness_mm, backing, tone, cache, side));
    const Seeds& seeds = material.markings.seeds;
    if (seeds.size_mm > 0 && seeds.per_cm2 > 0) {
        // A ball takes two thirds of its width out of the way through the glass; its rim looks along it.
        const double gas_mm = 2. / 3 * static_cast<double>(seeds.size_mm);
        looks.push_back(make_surface(plain, std::max(thickness_mm - gas_mm, 0.3 * thickness_mm), backing,
                                     tone, cache, side));
        looks.push_back(make_surface(plain, 1.8 * thickness_mm, backing * 0.7f, tone, cache, side));
    }
    return looks;
}

Surface quick_mean_of_looks(const Material& material, double thickness_mm, const SampledSpectrum& backing,
                            double tone, InterfaceTables& cache, const SideWall& side) {
    Material plain = material;
    plain.markings = {};
    std::vector<Surface> looks{make_surface(plain, thickness_mm, backing, tone, cache, side)};
    std::vector<float> shares{1};
    for (const Strands& s : material.markings.strands)
        for (const float step : {0.5f, 1.f}) {  // as much of it lies in soft edges as is full
            looks.push_back(
                make_surface(with_share(plain, s, step), thickness_mm, backing, tone, cache, side));
            shares.push_back(0.5f * s.share / step);
            shares.front() -= shares.back();
        }
    shares.front() = std::max(shares.front(), 0.f);
    return mean_of_looks(looks, shares);
}

Surface mean_of_looks(const std::vector<Surface>& looks, const std::vector<float>& shares) {
    Surface mean = looks.front();
    mean.even = average(looks, shares, [](const Surface& s) { return s.even; });
    mean.among = average(looks, shares, [](const Surface& s) { return s.among; });
    mean.flat = average(looks, shares, [](const Surface& s) { return s.flat; });
    mean.mean_albedo = 0;
    for (std::size_t i = 0; i < looks.size(); ++i) {
        mean.mean_albedo += shares[i] * looks[i].mean_albedo;
        mean.max_base_scale = std::min(mean.max_base_scale, looks[i].max_base_scale);
    }
    for (std::size_t place = 0; place < kSidePlaces; ++place)
        mean.side[place] = average(looks, shares, [place](const Surface& s) { return s.side[place]; });
    if (mean.kind == Surface::Base::layered) {
        average_layers(mean, looks, shares);
    } else {
        for (std::size_t node = 0; node < kLayerNodes; ++node)
            mean.g[node] = average(looks, shares, [node](const Surface& s) { return s.g[node]; });
    }
    return mean;
}

}  // namespace rakelight
