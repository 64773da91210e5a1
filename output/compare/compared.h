// A photograph of a real panel beside its picture, in numbers: laid on the picture, brought to its exposure
// and white, and the CIEDE2000 that is left, by pixel, field and material. Mirrored light differs with every
// place of a camera: pixels that the film says are mostly mirrored are left out.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "materials/colour/colorimetry.h"
#include "output/compare/panel_photograph.h"
#include "output/compare/registration.h"
#include "renderer/film.h"

namespace rakelight {

/// The first surface's share of luminance from which a pixel is left out.
inline constexpr double kMostlyMirrored = 0.5;

struct CompareAsk {
    Corners corners{};                  ///< of the laid panel in the photograph
    std::optional<Corners> in_picture;  ///< the same in the picture; none = those of its pieces
    std::string white;                  ///< field or material that both show alike; empty = exposure alone
    bool by_chart = false;              ///< exposure and white of the photograph are a chart's already
    Xyz light_white{0.9505, 1, 1.089};  ///< of the light on the panel; Y: illuminance in lux
    std::vector<std::uint32_t> field_of_piece;  ///< empty = no layout was read
    std::vector<std::string> field_names;
};

/// What one field or material looks like in both, in the mean over its pixels that count.
struct ComparedArea {
    std::string name;
    bool pieces = true;  ///< of a material: of pieces; false: of joints, frame or wall
    std::size_t pixels = 0;
    Lab picture, photo;  ///< relative to a white in the light on the panel, adapted to D65
    double delta_e = 0;
    glm::dvec3 picture_xyz{}, photo_xyz{};  ///< the same as tristimulus values, Y of that white 1
    double mirrored = 0;                    ///< mean share of the picture's light that is mirrored
};

struct Compared {
    Registered laid;
    Corners given{}, found{}, in_picture{};  ///< px; given and found are the photograph's
    bool by_edges = true;                    ///< false: no better than as given, which was kept
    std::string white;                       ///< as asked
    bool by_chart = false;                   ///< likewise
    glm::dvec3 gain{1};                      ///< photograph's linear channels to the picture's
    int width = 0, height = 0;
    std::vector<glm::vec3> picture_rgb, photo_rgb;  ///< linear, white 1; photo 0 outside of the photograph
    std::vector<float> delta_e;                     ///< by pixel; negative = left out
    std::size_t panel_pixels = 0, mirrored_out = 0, spoilt_out = 0, outside = 0;
    double median = 0, nine_in_ten = 0;
    std::vector<ComparedArea> fields, materials;  ///< the furthest off first
};

/// \throws RequestError when the panel is not in the picture, nothing is left to compare, or there is no
/// field or material of the name in `white` in it.
Compared compare(const Film& film, const PanelPhotograph& photo, const CompareAsk& ask);

/// Corners of all pixels that show pieces. \throws RequestError when there are too few.
Corners corners_of_pieces(const Film& film);

}  // namespace rakelight
