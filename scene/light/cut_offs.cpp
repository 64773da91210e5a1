#include "scene/light/cut_offs.h"

#include <algorithm>

namespace rakelight {

CutOffs make_cut_offs(const LampFittings& fittings, const glm::vec2& half_mm) {
    CutOffs cut;
    if (fittings.honeycomb.cell_mm > 0)
        cut.honeycomb = static_cast<float>(fittings.honeycomb.depth_mm / fittings.honeycomb.cell_mm);
    cut.snoot_length_mm = static_cast<float>(fittings.snoot.length_mm);
    cut.snoot_radius_mm2 = static_cast<float>(fittings.snoot.width_mm / 2 * fittings.snoot.width_mm / 2);
    // Seen along the beam, +u of the face is to the left and +v up.
    for (std::size_t i = 0; i < 4; ++i) {
        const std::optional<double> open = fittings.doors.open_deg[i];
        if (fittings.doors.length_mm <= 0 || !open) continue;
        const double turned = glm::radians(*open);
        cut.doors[i] = {half_mm[static_cast<int>(i / 2)] +
                            static_cast<float>(fittings.doors.length_mm * std::sin(turned)),
                        static_cast<float>(fittings.doors.length_mm * std::cos(turned))};
    }
    return cut;
}

double cut_off_deg(const Honeycomb& honeycomb) {
    return glm::degrees(std::atan2(honeycomb.cell_mm, honeycomb.depth_mm));
}

double cut_off_deg(const Snoot& snoot, double face_width_mm) {
    return glm::degrees(std::atan2((snoot.width_mm + face_width_mm) / 2, snoot.length_mm));
}

double clear_deg(const Snoot& snoot, double face_width_mm) {
    return glm::degrees(std::atan2(std::max(snoot.width_mm - face_width_mm, 0.0) / 2, snoot.length_mm));
}

}  // namespace rakelight
