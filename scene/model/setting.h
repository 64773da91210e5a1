// How a field's pieces are shaped and how the hand sets them: the figures by which one way of setting differs
// from another. Common practice, no published source, except where a row says otherwise: measure your own
// work and write its figures.
#pragma once

#include <glm/glm.hpp>
#include <optional>
#include <string>

namespace rakelight {

enum class PieceForm;  // laying.h

/// Faces turned on purpose. `lamp` or `viewpoint` names what they turn to; both together: the direction
/// halfway between, in which a face throws the lamp's light into that eye. Neither: `at_mm`.
struct Lean {
    double mean_deg = 0;  ///< how far the usual face is turned; 0 = no leaning
    std::string lamp;
    std::string viewpoint;
    glm::dvec3 at_mm{};  ///< room coordinates
};

struct Setting {
    PieceForm form{};
    double most_tilt_deg = 0;    ///< random tilt never beyond this, taken over both axes; 0 = no bound
    double most_lippage_mm = 0;  ///< 0 = three standard deviations
    double patch_mm = 220;       ///< how far a day's patch of like tilt reaches
    /// Middle of a face above the middles of its sides, 0 = flat; none = as the material usually is.
    std::optional<double> dome_mm;
    Lean lean;
};

}  // namespace rakelight
