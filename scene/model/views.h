// Viewpoints and pictures as plain values. Room coordinates (room.h).
#pragma once

#include <glm/glm.hpp>
#include <optional>
#include <string>
#include <vector>

#include "scene/text/place.h"

namespace rakelight {

/// How lines of the room are drawn. `natural`: the picture lies across the line of sight, as an eye sees;
/// `upright`: it stands upright and is shifted, so that verticals stay vertical; `square`: it is parallel to
/// the panel's wall, so that level lines along the wall stay level as well.
enum class Perspective { natural, upright, square };

struct Viewpoint {
    std::string name;
    std::string walk;          ///< the walk past the panel of which it is a step; empty = none
    glm::dvec3 eye_mm{};       ///< room coordinates
    glm::dvec3 look_at_mm{};   ///< room coordinates; the panel's centre unless told
    double view_width_mm = 0;  ///< width of the view at the looked-at point, > 0
    double focal_length_mm =
        0;  ///< of a lens before film of 36 x 24 mm, from which the width follows; 0 = none
    Perspective perspective = Perspective::natural;
    Place place;
};

struct Picture {
    std::string name;
    std::string viewpoint;
    std::string light;               ///< a set-up of light; empty = any of the lights of the layout
    std::vector<std::string> lamps;  ///< lamp or group names; empty = all
    int width_px = 1200;
    int height_px = 900;
    std::optional<double> ev;  ///< exposure value at ISO 100; none = by `exposure`
    std::string exposure =
        "grey-card";      ///< grey-card (an 18 % card on the panel), adapted (as an eye is to the picture)
    double error = 0.02;  ///< wanted relative error of a pixel
    int most_samples = 512;
    std::optional<std::uint64_t> grain_seed;  ///< of the chance in tracing; none = the panel's seed
    Place place;
};

/// Where the panel is seen from, and what is pictured.
struct Views {
    std::vector<Viewpoint> viewpoints;
    std::vector<Picture> pictures;
};

}  // namespace rakelight
