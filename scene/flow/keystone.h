// When a curve asks for keystones. Rectangles set along a curve of radius R open their head joints towards
// the outside by P h / R (similar triangles; P: piece and joint along the row, h: width across it, R: of the
// row's middle line). Up to a tolerance the joint takes that; beyond it pieces are cut to a wedge. The limits
// are common practice, no published source.
#pragma once

namespace rakelight {

inline constexpr double kTightTolerance = 0.5;   ///< of the joint: how much a head joint may open
inline constexpr double kRusticTolerance = 1.0;  ///< the same in rustic work
inline constexpr double kMostWedge_deg = 25;     ///< what a hand nipper can hold; then pieces are cut shorter

/// How much wider the head joint is outside than inside, mm.
constexpr double head_opening_mm(double pitch_mm, double width_mm, double radius_mm) {
    return pitch_mm * width_mm / radius_mm;
}

/// The tightest curve on which rectangles do, mm.
constexpr double least_radius_mm(double pitch_mm, double width_mm, double tolerance_mm) {
    return pitch_mm * width_mm / tolerance_mm;
}

struct KeystoneCut {
    double inner_mm = 0, outer_mm = 0;  ///< lengths along the row
    double wedge_rad = 0;               ///< between its two heads
};

/// A piece of middle length `length_mm` cut for a curve; `radius_mm` more than half the width.
constexpr KeystoneCut keystone(double length_mm, double width_mm, double radius_mm) {
    const double half = width_mm / (2 * radius_mm);
    return {length_mm * (1 - half), length_mm * (1 + half), length_mm / radius_mm};
}

/// Share of the ground that joints take between rectangles in rows.
constexpr double joint_share(double length_mm, double width_mm, double joint_mm) {
    return 1 - length_mm * width_mm / ((length_mm + joint_mm) * (width_mm + joint_mm));
}

}  // namespace rakelight
