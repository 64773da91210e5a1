#include "materials/stock/gloss.h"

#include <algorithm>
#include <boost/math/quadrature/gauss.hpp>
#include <cmath>
#include <glm/gtc/constants.hpp>

#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/optics/fresnel.h"
#include "materials/optics/surface_lanes.h"

namespace rakelight {

namespace {

using boost::math::quadrature::gauss;

constexpr double kStandardIndex = 1.567;

// Full openings of lamp and receptor, in the plane of incidence and across it: ISO 2813:2014, Table 1 (from
// memory).
struct Meter {
    double angle_deg;
    glm::dvec2 source_deg;
    glm::dvec2 receptor_deg;
};

const Meter& meter_of(GlossAngle angle) {
    static constexpr Meter k20{20, {0.75, 2.5}, {1.8, 3.6}};
    static constexpr Meter k60{60, {0.75, 2.5}, {4.4, 11.7}};
    static constexpr Meter k85{85, {0.75, 2.5}, {4.0, 6.0}};
    switch (angle) {
        case GlossAngle::deg20:
            return k20;
        case GlossAngle::deg60:
            return k60;
        case GlossAngle::deg85:
            break;
    }
    return k85;
}

// A window seen from the sample. A point of it is axis + x across.x + y (0, 1, 0), x and y tangents.
struct Window {
    glm::dvec3 axis;
    glm::dvec3 in_plane;
    glm::dvec2 half;

    Window(double angle_deg, const glm::dvec2& opening_deg)
        : axis(std::sin(glm::radians(angle_deg)), 0, std::cos(glm::radians(angle_deg))),
          in_plane(axis.z, 0, -axis.x),
          half(glm::tan(glm::radians(opening_deg) / 2.0)) {}

    glm::dvec3 direction(const glm::dvec2& at) const {
        return glm::normalize(axis + at.x * in_plane + glm::dvec3(0, at.y, 0));
    }
};

glm::dvec3 mirrored(const glm::dvec3& d) {
    return {-d.x, -d.y, d.z};
}

// Mean of f over the lamp's window.
template <class F>
double over_source(const Meter& meter, F&& f) {
    const Window lamp(-meter.angle_deg, meter.source_deg);
    return gauss<double, 7>::integrate(
               [&](double x) {
                   return gauss<double, 7>::integrate(
                       [&](double y) { return f(lamp.direction(lamp.half * glm::dvec2(x, y))); }, -1.0, 1.0);
               },
               -1.0, 1.0) /
           4;
}

// Integral of f over the solid angle of the receptor. Polar round the mirror point, because there the lobe of
// a rough face peaks; across the plane of incidence the lobe is narrower by the cosine, so y is stretched by
// that first. Each edge of the window bounds one triangle. `reach`: radius within which about half the lobe
// lies.
template <class F>
double over_receptor(const Window& window, const glm::dvec2& peak, double reach, F&& f) {
    const double squeeze = window.axis.z;
    const glm::dvec2 centre(peak.x, peak.y / squeeze), half(window.half.x, window.half.y / squeeze);
    double total = 0;
    for (int edge = 0; edge < 4; ++edge) {
        const double facing = edge * glm::half_pi<double>();
        const glm::dvec2 out(std::cos(facing), std::sin(facing)), along(-out.y, out.x);
        const double distance = glm::dot(glm::abs(out), half) - glm::dot(out, centre);
        const double extent = glm::dot(glm::abs(along), half), offset = glm::dot(along, centre);
        const auto ray = [&](double turn) {
            const glm::dvec2 way = std::cos(turn) * out + std::sin(turn) * along;
            const double end = distance / std::cos(turn);
            const auto ring = [&](double v) {  // radius = reach v / (1 - v): crowded at the peak
                const double radius = reach * v / (1 - v);
                const glm::dvec2 at = centre + radius * way;
                const glm::dvec2 tangents(at.x, at.y * squeeze);
                return f(window.direction(tangents)) * radius * reach / ((1 - v) * (1 - v)) /
                       std::pow(1 + glm::dot(tangents, tangents), 1.5);
            };
            return gauss<double, 20>::integrate(ring, 0.0, end / (end + reach));
        };
        total += gauss<double, 20>::integrate(ray, std::atan2(-extent - offset, distance),
                                              std::atan2(extent - offset, distance));
    }
    return total * squeeze;
}

// Share of the light from direction `from` that falls into the window, seen by the detector.
double received(const Surface& s, const glm::dvec3& from, const Window& window) {
    static const TristimulusWeights light = tristimulus_weights(*find_illuminant("C"));
    const glm::dvec3 mirror = mirrored(from);
    const double ahead = glm::dot(mirror, window.axis);
    const glm::dvec2 peak(glm::dot(mirror, window.in_plane) / ahead, mirror.y / ahead);
    double reach = s.has_rough_interface() ? 2.0 * s.interface->slopes.alpha : 1;
    if (s.kind == Surface::Base::leaf) reach = std::min(reach, 2.0 * s.leaf.table->slopes.alpha);
    const SurfaceLanes bsdf(s, glm::vec3(from));
    double share = over_receptor(window, peak, reach, [&](const glm::dvec3& to) {
        const LobeLanes lobes = bsdf.evaluate(broadcast3(glm::vec3(to)));
        return static_cast<double>(integrate(light, bsdf.base(0, lobes.base))[1] + lobes.interface[0]);
    });
    if (s.interface && !s.has_rough_interface())
        share += dielectric_reflectance(static_cast<float>(from.z), s.interface->index);
    return share;
}

double standard(const Meter& meter) {
    return over_source(meter,
                       [](const glm::dvec3& d) { return dielectric_reflectance(d.z, kStandardIndex); });
}

}  // namespace

double gloss_units(const Surface& surface, GlossAngle angle) {
    const Meter& meter = meter_of(angle);
    const Window window(meter.angle_deg, meter.receptor_deg);
    return 100 * over_source(meter, [&](const glm::dvec3& d) { return received(surface, d, window); }) /
           standard(meter);
}

double smooth_gloss_units(double index, GlossAngle angle) {
    const double cosine = std::cos(glm::radians(meter_of(angle).angle_deg));
    return 100 * dielectric_reflectance(cosine, index) / dielectric_reflectance(cosine, kStandardIndex);
}

}  // namespace rakelight
