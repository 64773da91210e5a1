#include "materials/stock/face_on.h"

#include <algorithm>

namespace rakelight {

namespace {

// All that comes back, less what the face mirrors.
SampledSpectrum from_body(const Surface& surface) {
    return map(directional_albedo(surface, 1) - SampledSpectrum(1 - surface.transmittance(1)),
               [](float r) { return std::clamp(r, 0.f, 1.f); });
}

}  // namespace

SampledSpectrum face_on_reflectance(const Material& material, double thickness_mm,
                                    const SampledSpectrum& backing, double tone, InterfaceTables& tables,
                                    const SideWall& side) {
    const SampledSpectrum main = from_body(make_surface(material, thickness_mm, backing, tone, tables, side));
    if (!(material.glassy_share > 0)) return main;
    const SampledSpectrum glassy = from_body(make_glassy_surface(material, tone, tables));
    return main * (1 - material.glassy_share) + glassy * material.glassy_share;
}

}  // namespace rakelight
