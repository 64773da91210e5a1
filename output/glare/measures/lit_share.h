// How much of a face throws a lamp into an eye, in closed form. A facet does so when its slope lies among the
// slopes of the half vectors between the eye and the lamp's points. These fill a small rectangle of slopes;
// the slopes of a bulged and wavy face fill an even square with blurred edges. The share is how far the two
// overlap.
#pragma once

namespace rakelight {

/// Chance that a value spread evenly over [-even, even], with a normal deviate of standard deviation
/// `deviation` on top, lies within `half` of `from` (all >= 0 but `from`; an `even` or a `deviation` of 0 is
/// a very small one).
double overlap(double from, double half, double even, double deviation);

/// Slopes of a face about its mean: an even square (a bulge) and normal waves over it, per axis.
struct SlopeSpread {
    double even = 0;
    double deviation = 0;
};

/// The rectangle of slopes that mirror a lamp: its middle relative to the face's mean slope, and half its
/// sides, along its own two axes.
struct MirroredSlopes {
    double x = 0, y = 0;
    double half_x = 0, half_y = 0;
};

/// Share of the face that mirrors the lamp, 0..1.
inline double lit_share(const MirroredSlopes& lamp, const SlopeSpread& face) {
    const double x = overlap(lamp.x, lamp.half_x, face.even, face.deviation);
    return x > 0 ? x * overlap(lamp.y, lamp.half_y, face.even, face.deviation) : 0;
}

}  // namespace rakelight
