// The panel in a photograph of its wall, from an opened photograph to a finished print.
#pragma once

#include <functional>

#include "output/in_photograph/camera_look.h"
#include "output/in_photograph/taken.h"
#include "output/print/develop.h"
#include "scene/laying/laying.h"

namespace rakelight {

struct Layout;

struct PrintInPhotograph {
    Print print;        ///< of the picture's size
    std::string light;  ///< what it is lit by
    glm::dvec3
        white_cd_per_m2{};  ///< of the rendering, that red, green, blue of 1 in the photograph stand for
    CameraLook look;
    double softened_px = 0;  ///< what the rendering was blurred by
};

struct HowToSetIn {
    int threads = 0;
    std::function<void(double share)> progress;  ///< as of RenderOptions
    std::function<bool()> cancelled;
};

/// The panel is rendered twice, hung and taken away, with the same samples, so that the wall differs by its
/// shadow and not by grain. `beside`: as of build_world. \throws PhotographError where the rendered sheet or
/// wall gets no light; Cancelled.
PrintInPhotograph panel_in_photograph(const TakenPhotograph& taken, const Layout& layout,
                                      const Laying& laying, const Laying* beside, const HowToSetIn& how);

/// The layout under the light that the panel is shown in.
Layout lit_as_photographed(const TakenPhotograph& taken, const Layout& layout);

}  // namespace rakelight
