// A lamp as plain values. Room coordinates (room.h).
#pragma once

#include <glm/glm.hpp>
#include <memory>
#include <optional>
#include <string>

#include "materials/colour/spectrum.h"
#include "scene/model/lamp_fittings.h"
#include "scene/text/place.h"

namespace rakelight {

enum class LampForm { spot, bulb, panel, strip, lantern, picture_light, measured };

struct PhotometricFile;

/// A lamp. Candela or lumen is given, not both (or neither, of a measured one); colour by temperature, a
/// named illuminant or its own spectrum.
struct Lamp {
    std::string name;
    std::string group;  ///< lamps of a group are dimmed together; defaults to the name
    LampForm form = LampForm::spot;
    glm::dvec3 at_mm{};                  ///< room coordinates, centre of the luminous face
    glm::dvec3 aim_mm{};                 ///< room coordinates; for forms that face one way
    std::optional<glm::dvec3> faces_mm;  ///< strip: where its opening faces when its beam is aimed elsewhere
    double turn_deg = 0;                 ///< about the axis, counter-clockwise as seen along the beam
    double lumen = 0;
    double candela = 0;  ///< centre-beam, of a lantern sideways, of a measured lamp the most; 0 = from lumen
    double beam_deg = 24;   ///< spot: full angle at 50 % of the centre beam; strip: across it, 0 = matte
    double field_deg = 0;   ///< full angle at 10 %; 0 = as a cosine power with this beam
    double width_mm = 60;   ///< the first size of its form (lamp_forms.h): a diameter, width or length
    double height_mm = 60;  ///< the second one, if it has two
    std::shared_ptr<const PhotometricFile> measured;  ///< LM-63 file of a measured lamp
    LampFittings fittings;
    double temperature_k = 3000;       ///< below 5000 K a Planckian, from 5000 K up daylight
    std::string illuminant;            ///< A, D65, F11, LED-B3 ...; empty = by temperature
    std::optional<Spectrum> spectrum;  ///< the lamp's own, relative; instead of both
    double dimming = 1;                ///< 0..1
    Place place;
};

}  // namespace rakelight
