#include "scene/light/measured_lamp.h"

#include <glm/gtc/constants.hpp>

#include "scene/light/photometric_file.h"

namespace rakelight {

namespace {

constexpr float kSides = 0.1f;  // of the shorter side of a flat opening

// The body's own frame: its axis along the C 0 or C 90 direction of the lamp, u along the nadir.
void lie_along(Emitter& e, const glm::vec3& axis, const glm::vec3& nadir) {
    e.axis = axis;
    e.u = nadir;
    e.v = glm::cross(axis, nadir);
}

void set_body(Emitter& e, const PhotometricFile& file, const LampOptics& optics) {
    const auto half = [](double mm) { return static_cast<float>(mm / 2); };
    const glm::vec2 face(half(file.length_mm), half(file.width_mm));  // u lies along C 0
    switch (file.opening) {
        case Opening::point:
            break;
        case Opening::rectangle:
            e.shape = RectangleShape{face};
            break;
        case Opening::box:
            e.shape = BoxShape{{face, half(file.height_mm)}};
            break;
        case Opening::ellipse:
            e.shape = DiscShape{face};
            break;
        case Opening::cylinder:
            e.shape = CylinderShape{half((file.length_mm + file.width_mm) / 2), half(file.height_mm)};
            break;
        case Opening::sphere:
            e.shape = SphereShape{half((file.length_mm + file.width_mm + file.height_mm) / 3)};
            break;
        case Opening::tube_along:
        case Opening::tube_across: {
            const bool along = file.opening == Opening::tube_along;
            e.shape = CylinderShape{half(((along ? file.width_mm : file.length_mm) + file.height_mm) / 2),
                                    half(along ? file.length_mm : file.width_mm)};
            lie_along(e, optics.frame[along ? 0 : 1], optics.frame[2]);
            break;
        }
        case Opening::upright:
            e.shape = DiscShape{{half(file.height_mm), half(file.width_mm)}};
            lie_along(e, optics.frame[0], optics.frame[2]);
            break;
    }
}

// A flat opening that also shines sideways or back: a body with sides.
EmitterShape with_sides(const EmitterShape& shape) {
    const FlatFace face = flat_face(shape);
    if (!face.is_flat) return shape;
    const float half_depth_mm = kSides * std::min(face.half_mm.x, face.half_mm.y);
    if (face.is_round) return CylinderShape{(face.half_mm.x + face.half_mm.y) / 2, half_depth_mm};
    return BoxShape{{face.half_mm, half_depth_mm}};
}

// Any light level with the opening or behind it.
bool backward(const Emitter& e, const LampOptics& optics) {
    const IntensityGrid& grid = optics.intensity;
    constexpr float kNothing = 1e-6f;
    for (std::size_t r = 0; r < grid.round_deg.size(); ++r)
        for (std::size_t p = 0; p < grid.polar_deg.size(); ++p) {
            if (grid.candela[r * grid.polar_deg.size() + p] <= kNothing) continue;
            const glm::vec3 own = grid.direction(grid.round_deg[r], grid.polar_deg[p]);
            const glm::vec3 d = own.x * optics.frame[0] + own.y * optics.frame[1] + own.z * optics.frame[2];
            if (glm::dot(d, e.axis) < 1e-4f) return true;
        }
    return false;
}

}  // namespace

double shine_as_measured(Emitter& e, const Lamp& lamp) {
    const PhotometricFile& file = *lamp.measured;
    LampOptics optics;
    optics.intensity = file.intensity;
    const float greatest = greatest_candela(file.intensity);
    for (float& candela : optics.intensity.candela) candela /= greatest;
    optics.frame = {e.u, -e.v, e.axis};
    const double tilt_deg = glm::degrees(std::acos(glm::clamp(-e.axis.y, -1.0f, 1.0f)));

    if (file.opening == Opening::point) {
        const float radius_mm = static_cast<float>(lamp.width_mm / 2);
        if (backward(e, optics))
            e.shape = SphereShape{radius_mm};
        else
            e.shape = DiscShape{glm::vec2(radius_mm)};
    } else {
        set_body(e, file, optics);
        if (is_flat(e) && backward(e, optics)) e.shape = with_sides(e.shape);
    }
    e.optics = std::make_shared<const LampOptics>(std::move(optics));
    const double stated = lamp.candela > 0 ? lamp.candela
                          : lamp.lumen > 0 ? lamp.lumen * greatest / file.lumens
                                           : greatest;
    return stated * file.tilt.at(tilt_deg);
}

}  // namespace rakelight
