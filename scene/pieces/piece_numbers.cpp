#include "scene/pieces/piece_numbers.h"

#include <cmath>

namespace rakelight {

namespace {

// A division of whole numbers is the double nearest to the decimal; adding 0 makes -0 plain.
double on_lattice(double value, double per_unit) {
    return std::round(value * per_unit) / per_unit + 0.0;
}

constexpr double kPerMm = 1e4;
constexpr double kPerDegree = 1e6;

}  // namespace

double lattice_mm(double length_mm) {
    return on_lattice(length_mm, kPerMm);
}

glm::dvec2 lattice_mm(const glm::dvec2& point_mm) {
    return {lattice_mm(point_mm.x), lattice_mm(point_mm.y)};
}

double rotation_deg(const glm::dvec2& along) {
    return on_lattice(glm::degrees(std::atan2(along.y, along.x)), kPerDegree);
}

glm::dvec2 direction_of(double rotation_deg) {
    const double turn = glm::radians(rotation_deg);
    return {std::cos(turn), std::sin(turn)};
}

glm::dvec2 tilt_deg(const glm::dvec2& tilt_rad) {
    return {on_lattice(glm::degrees(tilt_rad.x), kPerDegree),
            on_lattice(glm::degrees(tilt_rad.y), kPerDegree)};
}

glm::dvec2 tilt_rad_of(const glm::dvec2& tilt_deg) {
    return glm::radians(tilt_deg);
}

void settle_numbers(Piece& piece) {
    for (auto& p : piece.outline_mm) p = lattice_mm(p);
    piece.thickness_mm = lattice_mm(piece.thickness_mm);
    piece.top_mm = lattice_mm(piece.top_mm);
    if (piece.dome_mm) piece.dome_mm = lattice_mm(*piece.dome_mm);
    piece.tilt_rad = tilt_rad_of(tilt_deg(piece.tilt_rad));
    piece.along = direction_of(rotation_deg(piece.along));
}

void number_pieces(std::span<Piece> pieces) {
    std::uint32_t number = 0;
    for (Piece& piece : pieces) {
        settle_numbers(piece);
        piece.number = ++number;
    }
}

}  // namespace rakelight
