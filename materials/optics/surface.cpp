#include "materials/optics/surface.h"

#include <tbb/parallel_for.h>

#include <numbers>
#include <stdexcept>

#include "materials/optics/coat.h"
#include "materials/optics/facets.h"
#include "materials/optics/kubelka_munk.h"
#include "materials/optics/marked.h"
#include "materials/optics/metal.h"

namespace rakelight {
namespace {

void require(bool good, const Material& m, const char* what) {
    if (!good) throw std::invalid_argument("material " + m.name + ": " + what);
}

bool within(const SampledSpectrum& b, float low, float high) {
    return all_finite(b) && min_value(b) >= low && max_value(b) <= high;
}

// More or less of what absorbs in an opaque material: a factor on K/S.
SampledSpectrum toned(const SampledSpectrum& reflectance, double tone) {
    if (tone == 1) return reflectance;
    return map(reflectance, [tone](float r) {
        return r > 0 ? static_cast<float>(endless_reflectance(tone * k_over_s(r))) : 0.f;
    });
}

void set_even(Surface& s, const SampledSpectrum& inner) {
    s.kind = Surface::Base::even;
    s.even = inner;
    if (s.interface) {
        const double k2 = 1 - (1 - s.interface->mean_albedo) / (s.interface->index * s.interface->index);
        s.even = map(inner, [k2](float r) { return static_cast<float>(through_interface(r, 0, k2)); });
    }
    s.mean_albedo = mean(s.even);
    s.max_base_scale = 1 / std::max(max_value(s.even), 1e-6f);
}

void set_matte(Surface& s, const SampledSpectrum& facet, float slope_deg) {
    s.kind = Surface::Base::matte;
    s.matte = make_matte(slope_deg);
    s.even = facet;
    s.among = map(facet, [&](float r) { return matte_interreflection(s.matte, r); });
    s.mean_albedo = mean(s.even) * s.matte.mean_albedo + mean(s.among) * (1 - s.matte.mean_albedo);
    s.max_base_scale = 1 / std::max(max_value(facet), 1e-6f);  // no direction returns more than a facet does
}

// The layers that light crosses in one band, interface first: a white film of haze, then the glass.
std::vector<LayerBand> layers_of(const Material& m, double thickness_mm, double tone, int b) {
    std::vector<LayerBand> r;
    if (m.haze > 0) r.push_back({0, m.haze, 1, 0});
    for (const BodyLayer& sheet : m.sheets)
        r.push_back({sheet.absorption_per_mm[b] * tone, sheet.scattering_per_mm[b],
                     thickness_mm * static_cast<double>(sheet.share), 0});
    if (m.sheets.empty())
        r.push_back({m.absorption_per_mm[b] * tone, m.scattering_per_mm[b], thickness_mm, 0});
    return r;
}

// Layers of glass as one, which is what side light sees of them.
SideWalks::Band mixed(std::span<const LayerBand> layers, double filling) {
    SideWalks::Band mean;
    double thickness_mm = 0;
    for (const LayerBand& l : layers) {
        thickness_mm += l.thickness_mm;
        mean.absorption_per_mm += l.absorption_per_mm * l.thickness_mm;
        mean.scattering_per_mm += l.scattering_per_mm * l.thickness_mm;
    }
    mean.absorption_per_mm /= std::max(thickness_mm, 1e-9);
    mean.scattering_per_mm /= std::max(thickness_mm, 1e-9);
    mean.bed = layers.back().backing;
    mean.filling = filling;
    return mean;
}

// Brings the albedo of an endless layer to the mean of a piece with sides. \return false where none shows
bool bring_in_sides(Surface& s, double thickness_mm, const SideWall& side,
                    std::array<SideWalks::Band, kBandCount> bands, SideWalks& walks,
                    std::array<std::array<double, kLayerNodes>, kBandCount>& albedo) {
    if (!side.shows() || !(thickness_mm > 0)) return false;
    const SideBlock block{s.interface ? s.interface->index : 1.0, thickness_mm, side.across_mm,
                          std::min(side.bonded_mm, thickness_mm)};
    const auto lights = walks.light(block, bands);
    for (std::size_t b = 0; b < kBandCount; ++b) {
        double most = 0;
        for (double& a : albedo[b]) most = std::max(most, a = std::min(a * lights[b].mean, 1.0));
        for (std::size_t place = 0; place < kSidePlaces; ++place)
            s.side[place][static_cast<int>(b)] =
                static_cast<float>(std::min(lights[b].profile[place], 1 / std::max(most, 1e-6)));
    }
    s.side_per_mm = static_cast<float>(1 / block.reach_mm());
    s.thickness_mm = static_cast<float>(thickness_mm);
    return true;
}

// g of a ray that crosses a piece level: as of a layer as thick as the piece is wide in the mean (pi A / P,
// the mean chord of a convex outline: Santalo), with the filling behind it.
float level_way(const LayerFrame& frame, const SideWalks::Band& glass, double across_mm) {
    const double chord_mm = across_mm * std::numbers::pi / 4;
    const LayerFactor f = layer_factor(
        frame,
        layer_albedo(frame, {glass.absorption_per_mm, glass.scattering_per_mm, chord_mm, glass.filling}));
    return static_cast<float>(std::min(f.g.back(), 1.0));
}

void set_layered(Surface& s, const Material& m, double thickness_mm, const SampledSpectrum& backing,
                 double tone, const SideWall& side, SideWalks& walks) {
    s.kind = Surface::Base::layered;
    const LayerFrame frame = make_layer_frame(s.interface);
    s.cosine = frame.cosine;
    std::array<std::array<double, kLayerNodes>, kBandCount> albedo;
    std::array<SideWalks::Band, kBandCount> bands;
    std::array<float, kBandCount> level{};
    tbb::parallel_for(0, kBandCount, [&](int band) {
        const auto b = static_cast<std::size_t>(band);
        auto layers = layers_of(m, thickness_mm, tone, band);
        layers.back().backing = backing[band];
        albedo[b] = layer_albedo(frame, layers);
        bands[b] = mixed(std::span(layers).subspan(m.haze > 0 ? 1 : 0), side.reflectance[band]);
        if (side.shows()) level[b] = level_way(frame, bands[b], side.across_mm);
    });
    s.side.fill(SampledSpectrum(1));
    const bool sided = bring_in_sides(s, thickness_mm, side, bands, walks, albedo);
    double most = 0, total = 0;
    for (std::size_t b = 0; b < kBandCount; ++b) {
        const LayerFactor factor = layer_factor(frame, albedo[b]);
        const int band = static_cast<int>(b);
        double edge = 1;
        for (std::size_t place = 0; sided && place < kSidePlaces; ++place)
            edge = std::max(edge, static_cast<double>(s.side[place][band]));
        s.flat[band] = sided ? level[b] : static_cast<float>(factor.g[0]);
        for (std::size_t node = 0; node < kLayerNodes; ++node) {
            s.g[node][band] = static_cast<float>(factor.g[node]);
            most = std::max(most, edge * albedo[b][node]);
        }
        s.even[band] = static_cast<float>(factor.mean);
        total += factor.mean * factor.mean;
    }
    s.mean_albedo = static_cast<float>(total / kBandCount);
    s.max_base_scale = static_cast<float>(1 / std::max(most, 1e-6));
}

// What crosses the layers once, per unit of slant: exp(-depth) of all extinction, and of scattering alone.
struct Crossing {
    double depth = 0;
    double scattering = 0;
};
Crossing crossing(const std::vector<LayerBand>& layers) {
    Crossing c;
    for (const LayerBand& l : layers) {
        c.scattering += 4. / 3 * l.scattering_per_mm * l.thickness_mm;
        c.depth += l.absorption_per_mm * l.thickness_mm;
    }
    c.depth += c.scattering;
    return c;
}

// The outer cosine whose ray is refracted to a node.
float outer_cosine(const LayerCosine& cosine, std::size_t node, float index) {
    const float inside = cosine.first + static_cast<float>(node) / cosine.per_cosine;
    return std::sqrt(std::max(0.f, 1 - index * index * (1 - inside * inside)));
}

// Share of evenly falling light that the lobe of white leaf loses to the sides.
float lobe_beside(const Surface& s) {
    constexpr int kSteps = 64;
    double sum = 0;
    for (int i = 0; i < kSteps; ++i) {
        const float z = (static_cast<float>(i) + 0.5f) / kSteps;
        sum +=
            static_cast<double>(2 * z * (1 - leaf_keeps(s.interface, s.leaf, z)) * s.leaf.table->albedo(z));
    }
    return static_cast<float>(sum / kSteps);
}

// What comes back of light that meets a side, halfway down.
SampledSpectrum seen_beside(const LayerFrame& frame, const Material& m, double thickness_mm, double tone,
                            const SideWall& side) {
    SampledSpectrum seen;
    for (int b = 0; b < kBandCount; ++b) {
        auto halfway = layers_of(m, thickness_mm / 2, tone, b);
        halfway.back().backing = side.reflectance[b];
        const double mean = layer_factor(frame, layer_albedo(frame, halfway)).mean;
        seen[b] = static_cast<float>(mean * mean);
    }
    return seen;
}

void set_leaf(Surface& s, const Material& m, double thickness_mm, double tone, const SideWall& side,
              InterfaceTables& cache) {
    s.kind = Surface::Base::leaf;
    const MetalIndex& metal = metal_index(m.leaf);
    const float index = s.interface ? s.interface->index : 1;
    s.leaf.table = &cache.leaf(s.interface, std::clamp(m.leaf_roughness * index, 0.01f, 1.0f), m.stretch);
    s.anisotropic = s.anisotropic || s.leaf.table->anisotropic();
    const LayerFrame frame = make_layer_frame(s.interface);
    s.cosine = make_layer_cosine(index);
    std::array<std::vector<LayerBand>, kBandCount> layers;
    std::array<Crossing, kBandCount> crossings;
    s.leaf.clear = 0;
    for (std::size_t b = 0; b < kBandCount; ++b) {
        if (s.interface) layers[b] = layers_of(m, thickness_mm, tone, static_cast<int>(b));
        crossings[b] = crossing(layers[b]);
        s.leaf.clear = std::max(s.leaf.clear, static_cast<float>(std::exp(-2 * crossings[b].scattering)));
    }
    const double first = s.cosine.first;
    SampledSpectrum colour;  // of the lobe, in the mean over the light that enters
    for (int k = 0; k < kLayerNodes; ++k) {
        // Under an interface the grazing node stands for the steep last stretch, and is taken a little inside
        // it.
        const double outside = k == 0 && s.interface ? 0.08 : 0;
        const double steps = k / (kLayerNodes - 1.0);
        const double inside = std::max(first + (1 - first) * steps,
                                       std::sqrt(first * first + outside * outside / (index * index)));
        SampledSpectrum pass;
        for (int b = 0; b < kBandCount; ++b) {
            const double depth = crossings[static_cast<std::size_t>(b)].depth;
            pass[b] = depth > 0 ? static_cast<float>(std::exp(-depth / inside)) : 1;
        }
        const auto node = static_cast<std::size_t>(k);
        s.g[node] =
            s.interface ? metal_under_glass(metal, index, inside, pass) : metal_mirror(metal, inside, 1);
        colour += s.g[node] * static_cast<float>(frame.node_weight[node]);
    }
    const float enters = s.interface ? 1 - s.interface->mean_albedo : 1, lobe = s.leaf.table->mean_albedo;
    const float once = lobe / enters;  // share that leaves after one wrinkle
    float left = std::max(enters - s.leaf.clear * lobe, 0.0f);
    // What meets wrinkles again takes the metal's colour again each time (Kulla and Conty).
    s.among = map(colour, [once](float c) { return c * c * once / (1 - c * (1 - once)); });
    if (s.leaf.clear < 1) {
        const SampledSpectrum diffuse = metal_diffuse(metal, index);
        for (int b = 0; b < kBandCount; ++b) {
            auto& stack = layers[static_cast<std::size_t>(b)];
            stack.back().backing = diffuse[b];
            const double mean = layer_factor(frame, layer_albedo(frame, stack)).mean;
            s.among[b] = s.leaf.clear * s.among[b] + (1 - s.leaf.clear) * static_cast<float>(mean * mean);
        }
    }
    float by_lobe = mean(colour) * lobe;
    if (side.shows()) {
        const double share =
            side_share(4 / side.across_mm, side.bonded_mm, std::max(static_cast<double>(index), 1.0));
        s.leaf.beside = static_cast<float>(2 * share / mean_tangent(static_cast<double>(index)));
        for (std::size_t node = 0; node < kLayerNodes; ++node)
            s.g[node] = s.g[node] * leaf_keeps(s.interface, s.leaf, outer_cosine(s.cosine, node, index));
        const float beside = s.leaf.clear * lobe_beside(s);
        by_lobe *= 1 - beside / std::max(s.leaf.clear * lobe, 1e-6f);
        const SampledSpectrum filling = seen_beside(frame, m, thickness_mm, tone, side);
        s.among = (s.among * left + filling * beside) * (1 / std::max(left + beside, 1e-6f));
        left += beside;
    }
    s.base_norm = left > 1e-5f ? std::numbers::inv_pi_v<float> / left : 0;
    const float evenly = mean(s.among) * left;
    s.mean_albedo = (by_lobe + evenly) / enters;
    s.leaf.lobe_share = by_lobe + evenly > 0 ? std::clamp(by_lobe / (by_lobe + evenly), 0.1f, 0.95f) : 0.5f;
    s.max_base_scale = 1 / std::max({max_value(s.g[0]), max_value(s.g.back()), max_value(s.among), 1e-6f});
}

// The even part of leaf's albedo goes with what its lobe and the interface leave over.
SampledSpectrum leaf_albedo(const Surface& s, const glm::vec3& out) {
    SampledSpectrum r = s.among * leaf_left(s.interface, s.leaf, out);
    for (int b = 0; b < kBandCount; ++b)
        r[b] += static_cast<float>(
            over_visible_facets(out, s.leaf.table->slopes, [&](double toward, double z_in) -> double {
                const auto spot = s.cosine.find(static_cast<float>(std::min(toward, 1.0)));
                const float low = s.g[spot.node][b], high = s.g[spot.node + 1][b];
                return s.transmittance(std::min(out.z, static_cast<float>(z_in))) *
                       (low + spot.part * (high - low));
            }));
    return r;
}

}  // namespace

Surface make_surface(const Material& m, double thickness_mm, const SampledSpectrum& backing, double tone,
                     InterfaceTables& cache, const SideWall& side) {
    require(m.index >= 1 && m.index <= 4, m, "index must be 1 (no interface) to 4");
    require(m.roughness >= 0 && m.roughness <= 1, m, "roughness must be 0 to 1");
    require(m.stretch >= 1 && m.stretch <= kMostStretch, m, "sheen stretch must be 1 to 16");
    require(m.matte_deg >= 0 && m.matte_deg <= 90, m, "matte slopes must be 0 to 90 degrees");
    require(tone > 0 && std::isfinite(tone), m, "tone must be above 0");
    if (has_looks(m))
        return mean_of_looks(surfaces_of_looks(m, thickness_mm, backing, tone, cache, side),
                             shares_of_looks(marks_of(m)));
    Surface s;
    const bool bare_leaf = m.opaque && m.leaf != Leaf::none;
    if (m.index > 1 && !bare_leaf) {
        s.interface = &cache.get(m.index, m.roughness, m.stretch);
        s.anisotropic = s.interface->anisotropic();
        s.base_norm /= 1 - s.interface->mean_albedo;
    }
    require(m.haze >= 0 && m.haze <= 10, m, "haze must be 0 to 10");
    if (m.leaf != Leaf::none)
        require(m.leaf_roughness >= 0.01f && m.leaf_roughness <= 1, m, "roughness of leaf must be 0.01 to 1");
    if (m.opaque && m.leaf != Leaf::none) {
        set_leaf(s, m, 0, 1, {}, cache);
    } else if (m.opaque) {
        require(within(m.reflectance, 0, 1), m, "reflectance must be 0 to 1");
        const DiffuseLayer film = diffuse_layer(0, m.haze, 1);
        const SampledSpectrum inner = map(toned(m.reflectance, tone), [&](float r) {
            return static_cast<float>(std::min(1.0, over_backing(film, r)));
        });
        if (s.interface || m.matte_deg == 0) {
            set_even(s, inner);
            if (!m.coating.empty()) set_coat(s, m, s.even, cache);
        } else {
            set_matte(s, inner, m.matte_deg);
        }
    } else {
        constexpr float kMost = 1e6f;
        require(within(m.absorption_per_mm, 0, kMost), m, "absorption must be 0 or more");
        require(within(m.scattering_per_mm, 0, kMost), m, "scattering must be 0 or more");
        double shares = 0;
        for (const BodyLayer& sheet : m.sheets) {
            require(within(sheet.absorption_per_mm, 0, kMost), m, "absorption of a sheet must be 0 or more");
            require(within(sheet.scattering_per_mm, 0, kMost), m, "scattering of a sheet must be 0 or more");
            require(sheet.share >= 0, m, "share of a sheet must be 0 or more");
            shares += sheet.share;
        }
        require(shares < 1 + 1e-4, m, "sheets must not be thicker than the whole");
        const SampledSpectrum& under = m.backed ? m.reflectance : backing;
        require(within(under, 0, 1), m, "reflectance of the backing must be 0 to 1");
        require(thickness_mm >= 0, m, "thickness must be 0 or more");
        require(side.across_mm >= 0 && std::isfinite(side.across_mm), m, "width must be 0 or more");
        require(side.bonded_mm >= 0, m, "height of the filling must be 0 or more");
        require(within(side.reflectance, 0, 1), m, "reflectance of the sides must be 0 to 1");
        if (m.leaf != Leaf::none)
            set_leaf(s, m,
                     m.leaf_depth_mm > 0 ? std::min<double>(m.leaf_depth_mm, thickness_mm) : thickness_mm,
                     tone, side, cache);
        else
            set_layered(s, m, thickness_mm, under, tone, side, cache.side_walks());
        if (m.leaf == Leaf::none && !m.coating.empty()) set_coat(s, m, s.even * s.even, cache);
    }
    return s;
}

Surface make_glassy_surface(const Material& m, double tone, InterfaceTables& cache) {
    require(m.opaque, m, "only an opaque stuff has glassy patches");
    Material glassy = m;
    glassy.markings = {};
    glassy.index = m.glassy_index;
    glassy.roughness = m.glassy_roughness;
    return make_surface(glassy, m.thickness_mm, SampledSpectrum(), tone, cache);
}

SampledSpectrum directional_albedo(const Surface& s, const glm::vec3& out) {
    const float transmittance = s.transmittance(out);
    if (s.kind == Surface::Base::leaf) return leaf_albedo(s, out) + SampledSpectrum(1 - transmittance);
    SampledSpectrum base;
    switch (s.kind) {
        case Surface::Base::even:
            base = s.even;
            break;
        case Surface::Base::matte: {
            const float single = matte_albedo(s.matte, out.z);
            base = s.even * single + s.among * (1 - single);
            break;
        }
        case Surface::Base::leaf:
            break;  // done above
        case Surface::Base::layered:
            base = s.cosine.read(s.g, out.z) * s.even;
            break;
    }
    return base * transmittance + SampledSpectrum(1 - transmittance);
}

}  // namespace rakelight
