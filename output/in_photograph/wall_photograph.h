// A photograph of the wall as the layout describes it: plain values, checked.
#pragma once

#include <array>
#include <glm/glm.hpp>
#include <optional>
#include <string>

namespace rakelight {

/// What says how bright the light in the photograph is.
enum class ExposureBy { sheet, wall };

/// The main light of a photograph, as it is stated.
struct MainLight {
    double right_deg = -30;  ///< seen from the panel, that it is to the right of straight ahead
    double up_deg = 50;
    double share = 0.6;  ///< of the light on the panel
    double across_deg = 15;
};

struct WallPhotograph {
    std::string name;  ///< of the picture
    std::string file;  ///< as opened
    std::optional<glm::dvec2> sheet_mm;
    std::optional<std::array<glm::dvec2, 4>> corners_px;  ///< none = by printed marks
    glm::dvec2 panel_centre_mm{};  ///< from the sheet's middle, right and up, along the wall
    std::optional<double> focal_35mm;
    std::string light;  ///< a set-up; empty = as the photograph has it
    MainLight main_light;
    double white = 0.85;  ///< reflectance of the sheet
    ExposureBy exposure_by = ExposureBy::sheet;
    std::string mask;  ///< as opened; empty = none
    std::optional<int> width_px;
    int samples = 128;
};

}  // namespace rakelight
