#include "materials/surface.h"

#include <stdexcept>

#include "materials/body.h"

namespace rakelight {
namespace {

void require(bool good, const Material& m, const char* what) {
    if (!good) throw std::invalid_argument("material " + m.name + ": " + what);
}

bool within(const Bands& b, float low, float high) {
    return all_finite(b) && min_value(b) >= low && max_value(b) <= high;
}

// More or less of what absorbs in an opaque stuff: a factor on K/S.
Bands toned(const Bands& reflectance, double tone) {
    if (tone == 1) return reflectance;
    return map(reflectance, [tone](float r) {
        return r > 0 ? static_cast<float>(endless_reflectance(tone * k_over_s(r))) : 0.f;
    });
}

void set_even(Surface& s, const Bands& inner) {
    s.kind = Surface::Body::even;
    s.even = inner;
    if (s.face) {
        const double k2 = 1 - (1 - s.face->mean_albedo) / (s.face->index * s.face->index);
        s.even = map(inner, [k2](float r) { return static_cast<float>(through_face(r, 0, k2)); });
    }
    s.mean_albedo = mean(s.even);
    s.max_body_scale = 1 / std::max(max_value(s.even), 1e-6f);
}

void set_matte(Surface& s, const Bands& facet, float slope_deg) {
    s.kind = Surface::Body::matte;
    s.matte = make_matte(slope_deg);
    s.even = facet;
    s.among = map(facet, [&](float r) { return matte_interreflection(s.matte, r); });
    s.mean_albedo = mean(s.even) * s.matte.mean_albedo + mean(s.among) * (1 - s.matte.mean_albedo);
    s.max_body_scale = 1 / std::max(max_value(facet), 1e-6f);  // no direction returns more than a facet does
}

void set_layered(Surface& s, const Material& m, double thickness_mm, const Bands& backing, double tone) {
    s.kind = Surface::Body::layered;
    const LayerFrame frame = make_layer_frame(s.face);
    s.cosine = frame.cosine;
    double most = 0, total = 0;
    for (int b = 0; b < kBandCount; ++b) {
        const auto albedo = layer_albedo(
            frame, {m.absorption_per_mm[b] * tone, m.scattering_per_mm[b], thickness_mm, backing[b]});
        const LayerFactor factor = layer_factor(frame, albedo);
        for (int k = 0; k < kLayerNodes; ++k) {
            const auto node = static_cast<std::size_t>(k);
            s.g[node][b] = static_cast<float>(factor.g[node]);
            most = std::max(most, albedo[node]);
        }
        s.even[b] = static_cast<float>(factor.mean);
        total += factor.mean * factor.mean;
    }
    s.mean_albedo = static_cast<float>(total / kBandCount);
    s.max_body_scale = static_cast<float>(1 / std::max(most, 1e-6));
}

}  // namespace

Surface make_surface(const Material& m, double thickness_mm, const Bands& backing, double tone,
                     FaceTables& cache) {
    require(m.index >= 1 && m.index <= 4, m, "index must be 1 (no face) to 4");
    require(m.roughness >= 0 && m.roughness <= 1, m, "roughness must be 0 to 1");
    require(m.matte_deg >= 0 && m.matte_deg <= 90, m, "matte slopes must be 0 to 90 degrees");
    require(tone > 0 && std::isfinite(tone), m, "tone must be above 0");
    Surface s;
    if (m.index > 1) {
        s.face = &cache.get(m.index, m.roughness);
        s.body_norm /= 1 - s.face->mean_albedo;
    }
    if (m.opaque) {
        require(within(m.reflectance, 0, 1), m, "reflectance must be 0 to 1");
        const Bands inner = toned(m.reflectance, tone);
        if (s.face || m.matte_deg == 0) {
            set_even(s, inner);
        } else {
            set_matte(s, inner, m.matte_deg);
        }
    } else {
        constexpr float kMost = 1e6f;
        require(within(m.absorption_per_mm, 0, kMost), m, "absorption must be 0 or more");
        require(within(m.scattering_per_mm, 0, kMost), m, "scattering must be 0 or more");
        require(within(backing, 0, 1), m, "reflectance of the backing must be 0 to 1");
        require(thickness_mm >= 0, m, "thickness must be 0 or more");
        set_layered(s, m, thickness_mm, backing, tone);
    }
    return s;
}

Surface make_glassy_surface(const Material& m, double tone, FaceTables& cache) {
    require(m.opaque, m, "only an opaque stuff has glassy patches");
    Material glassy = m;
    glassy.index = m.glassy_index;
    glassy.roughness = m.glassy_roughness;
    return make_surface(glassy, m.thickness_mm, Bands(), tone, cache);
}

Bands directional_albedo(const Surface& s, float z) {
    const float entering = s.entering(z);
    Bands body;
    switch (s.kind) {
        case Surface::Body::even:
            body = s.even;
            break;
        case Surface::Body::matte: {
            const float single = matte_albedo(s.matte, z);
            body = s.even * single + s.among * (1 - single);
            break;
        }
        case Surface::Body::layered:
            body = s.cosine.read(s.g, z) * s.even;
            break;
    }
    return body * entering + Bands(1 - entering);
}

}  // namespace rakelight
