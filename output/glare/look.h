// One look at the panel for its glare: traced from a viewpoint, counted, named and printed.
#pragma once

#include <glm/glm.hpp>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "output/glare/luminance_map.h"
#include "output/glare/report.h"
#include "output/glare/sheet.h"
#include "output/print/develop.h"
#include "renderer/bvh.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/model/views.h"
#include "scene/world/world.h"

namespace rakelight {

/// A layout ready to be looked at, every lamp and window a group of its own so that each can be told apart.
struct GlareRoom {
    GlareRoom(const Layout& from, const Laying& laid);
    GlareRoom(const GlareRoom&) = delete;
    GlareRoom& operator=(const GlareRoom&) = delete;

    Layout layout;
    const Laying& laying;
    World world;
    Bvh bvh;
};

/// Figures of glare are of a quarter of a degree and more, hundreds of pixels, so that they are steady long
/// before a pixel is.
inline constexpr int kUsualGlareSamples = 64;

struct GlareAsk {
    std::vector<std::string> lamps;  ///< of single lights (lights_meant); empty = all
    GlareLimits limits;
    std::vector<std::pair<std::string, std::string>> contrast;
    int width_px = 1040;  ///< of the pictures
    int most_samples = kUsualGlareSamples;
    double error = 0.02;
    bool quiet = false;
    std::string what;  ///< for the progress line: "", ", lean 4"
};

struct GlareLook {
    GlareReport report;
    GlarePictures pictures;  ///< as wide as asked
    LuminanceScale scale;
    double ev100 = 0;
};

/// Light on the panel, all lamps that are asked for, the room's own light included: XYZ with Y in lux for
/// each.
std::vector<glm::dvec3> metered_light(const GlareRoom& room, const GlareAsk& ask);

/// Traces and counts. `illuminance`: the room's `metered_light`. `ev100`: exposure of the picture; none = by
/// a grey card on the panel. \throws Interrupted.
GlareLook look_for_glare(const GlareRoom& room, std::span<const glm::dvec3> illuminance,
                         const Viewpoint& view, const GlareAsk& ask, std::optional<double> ev100 = {});

/// How long such a look will take, s (expected_time.h). Arguments and exceptions as of `look_for_glare`.
double expected_look_s(const GlareRoom& room, std::span<const glm::dvec3> illuminance, const Viewpoint& view,
                       const GlareAsk& ask);

/// Names of the single lamps and windows that are meant by names of them or of their groups.
/// \throws RequestError when one is not known.
std::vector<std::string> lights_meant(const Layout& layout, const std::vector<std::string>& names);

/// \throws RequestError when the light that is on comes from a picture whose lamps are cut off at white:
/// glare is of what is brightest.
void refuse_cut_off_light(const Layout& layout);

/// Whether any of the panel lies in the view and before the eye.
bool sees_panel(const Layout& layout, const Viewpoint& view);

}  // namespace rakelight
