// Lamps for tests, and their flux by summing what they send every way.
#pragma once

#include <memory>
#include <string>

#include "scene/light/emitter.h"
#include "scene/light/photometric_file.h"
#include "tests/support/photometric_samples.h"

namespace rakelight {

/// Looking straight down from 2 m, 1000 lm.
inline Lamp lamp_of_form(LampForm form) {
    Lamp lamp;
    lamp.name = "lamp";
    lamp.form = form;
    lamp.at_mm = {0, 2000, 1000};
    lamp.aim_mm = {0, 0, 1000};
    lamp.lumen = 1000;
    return lamp;
}

inline Lamp measured_lamp(const std::string& text) {
    Lamp lamp = lamp_of_form(LampForm::measured);
    lamp.lumen = 0;
    lamp.measured = std::make_shared<const PhotometricFile>(read_photometric_text(text, "t.ies"));
    return lamp;
}

inline Emitter emitter_of(const Lamp& lamp) {
    return make_emitter(lamp, glm::dvec3(0), 0);
}

/// Flux over the sphere by the midpoint rule in height and turn about the lamp's axis, lm.
inline double flux_of(const Emitter& e, int heights, int turns) {
    double sum = 0;
    for (int i = 0; i < heights; ++i) {
        const double z = 2 * (i + 0.5) / heights - 1, r = std::sqrt(1 - z * z);
        for (int k = 0; k < turns; ++k) {
            const double turn = 2 * std::numbers::pi * (k + 0.5) / turns;
            sum += candela_toward(e, glm::vec3(r * std::cos(turn)) * e.u +
                                         glm::vec3(r * std::sin(turn)) * e.v + glm::vec3(z) * e.axis);
        }
    }
    return sum * 4 * std::numbers::pi / (heights * turns);
}

}  // namespace rakelight
