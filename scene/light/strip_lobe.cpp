#include "scene/light/strip_lobe.h"

#include <cmath>
#include <glm/gtc/constants.hpp>

namespace rakelight {

namespace {

constexpr double kRim_deg = 80;  // from here on the edge of the opening hides ever more of what is in it

}  // namespace

double slant_deg(const Lamp& lamp) {
    if (!lamp.faces_mm) return 0;
    const glm::dvec3 face = glm::normalize(*lamp.faces_mm - lamp.at_mm);
    const glm::dvec3 beam = glm::normalize(lamp.aim_mm - lamp.at_mm);
    return glm::degrees(std::atan2(glm::length(glm::cross(face, beam)), glm::dot(face, beam)));
}

double shine_as_strip(Emitter& e, const Lamp& lamp) {
    const double slant = slant_deg(lamp);
    if (slant > 0.1) {
        e.v = glm::normalize(glm::vec3(lamp.aim_mm - lamp.at_mm) -
                             e.axis * glm::dot(glm::vec3(lamp.aim_mm - lamp.at_mm), e.axis));
        e.u = glm::cross(e.v, e.axis);
    }
    const BeamTable beam = make_beam(lamp.beam_deg, lamp.field_deg);
    LampOptics optics;
    optics.frame = {e.u, -e.v, e.axis};
    // Pole along the strip, turned round it from where it faces (z of the lamp's frame) towards v (-y).
    IntensityGrid& grid = optics.intensity;
    grid.across = glm::transpose(glm::mat3(glm::vec3(0, 0, 1), glm::vec3(0, -1, 0), glm::vec3(1, 0, 0)));
    for (int i = -180; i <= 180; ++i) grid.round_deg.push_back(static_cast<float>(i) / 2);
    for (int i = 0; i <= 180; ++i) grid.polar_deg.push_back(static_cast<float>(i));
    for (const float round : grid.round_deg) {
        const double off = glm::radians(round - slant), turned = glm::radians(double(round));
        const double rim = std::max(0.0, std::cos(turned) / std::cos(glm::radians(kRim_deg)));
        const double across = beam.at(static_cast<float>(std::cos(off))) * std::min(1.0, rim);
        for (const float polar : grid.polar_deg)
            grid.candela.push_back(static_cast<float>(across * std::sin(glm::radians(double(polar)))));
    }
    const float greatest = greatest_candela(grid);
    for (float& candela : grid.candela) candela /= greatest;
    const double flux = lumens(grid);
    e.optics = std::make_shared<const LampOptics>(std::move(optics));
    return lamp.candela > 0 ? lamp.candela : lamp.lumen / flux;
}

}  // namespace rakelight
