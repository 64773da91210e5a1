// What an eye is expected to be disturbed by, without tracing a ray: every piece is a small mirror, every
// lamp a few bright rectangles, and how much of a face mirrors which is a closed form (lit_share.h). Costs
// some microseconds a lamp and a thousand pieces, so that hundreds of places for a lamp can be gone through.
// Lamps are independent of each other here: what one does is reckoned once and added up.
//
// Left out, for the tracer to tell: placed stones, chips, light that comes by way of walls, and furniture or
// frames that stand in the light.
#pragma once

#include <span>
#include <vector>

#include "output/glare/measures/lamp_parts.h"
#include "output/glare/measures/small_mirror.h"
#include "scene/model/panel.h"
#include "scene/room/panel_frame.h"

namespace rakelight {

/// What mirrored light is held against.
struct GlareTerms {
    double lux = 300;     ///< light that pieces are taken to lie in: their own is body * lux / pi
    double veil = 1.5;    ///< (body + mirrored) / body that nobody minds
    double head_mm = 40;  ///< standard deviation of where the eye is, each way: no head is still
};

/// Times ten that mirrored light outshines what nobody minds: log10(mirrored / body / (veil - 1)), at least 0
/// (by Fechner's law, Elemente der Psychophysik, 1860, a sensation goes with the logarithm of its cause).
double glare_weight(double mirrored_cd_per_m2, double body_cd_per_m2, double veil);

/// What one lamp does.
struct LampEffect {
    /// For every eye: 100 times the mean of `glare_weight` over the panel as it is seen from there. 0: nobody
    /// minds; 100: all of it mirrors ten times as strongly as nobody minds.
    std::vector<double> score;
    std::vector<double> lux;  ///< direct, at every point of the meter
};

/// Points in panel coordinates where light is measured: even over the panel, rows from below.
struct MeterGrid {
    static constexpr int kAcross = 5, kUp = 4;
    std::vector<glm::dvec3> at_mm;
};
MeterGrid meter_grid(const Panel& panel);

/// `lamp` and `eyes_mm` in room coordinates. An eye behind the panel's plane sees nothing of it and scores 0.
LampEffect effect_of(const Emitter& lamp, const PanelFrame& hang, std::span<const SmallMirror> mirrors,
                     std::span<const glm::dvec3> eyes_mm, const MeterGrid& meter, const GlareTerms& terms);

/// Light of a lamp on the points of a meter, lux.
std::vector<double> lux_of(const Emitter& lamp, const PanelFrame& hang, const MeterGrid& meter);

}  // namespace rakelight
