#include "materials/colour/colorimetry.h"

#include <algorithm>
#include <cmath>
#include <glm/mat3x3.hpp>
#include <glm/matrix.hpp>
#include <stdexcept>

#include "materials/colour/observer.h"

namespace rakelight {

namespace {

// glm fills matrices by columns; these are written by rows, as published, and turned.
glm::dmat3 rows(const glm::dvec3& a, const glm::dvec3& b, const glm::dvec3& c) {
    return glm::transpose(glm::dmat3(a, b, c));
}

glm::dvec3 vec(const Xyz& c) {
    return {c.x, c.y, c.z};
}
Xyz xyz(const glm::dvec3& v) {
    return {v.x, v.y, v.z};
}

// CIE 015:2018: the cube root, and its straight continuation near black.
constexpr double kDelta = 6.0 / 29;

double lab_curve(double t) {
    return t > kDelta * kDelta * kDelta ? std::cbrt(t) : t / (3 * kDelta * kDelta) + 4.0 / 29;
}

double lab_curve_inverse(double f) {
    return f > kDelta ? f * f * f : 3 * kDelta * kDelta * (f - 4.0 / 29);
}

// Columns: the primaries of IEC 61966-2-1, in the amounts whose sum is the white.
const glm::dmat3& xyz_from_rgb() {
    static const glm::dmat3 matrix = [] {
        const glm::dmat3 primaries(vec(xyz_of({0.64, 0.33})), vec(xyz_of({0.30, 0.60})),
                                   vec(xyz_of({0.15, 0.06})));
        const glm::dvec3 amounts = glm::inverse(primaries) * vec(xyz_of(kD65));
        return glm::dmat3(primaries[0] * amounts[0], primaries[1] * amounts[1], primaries[2] * amounts[2]);
    }();
    return matrix;
}

const glm::dmat3& rgb_from_xyz() {
    static const glm::dmat3 matrix = glm::inverse(xyz_from_rgb());
    return matrix;
}

double encode_channel(double v) {
    const double a = std::abs(v);
    return std::copysign(a <= 0.0031308 ? 12.92 * a : 1.055 * std::pow(a, 1 / 2.4) - 0.055, v);
}

double decode_channel(double v) {
    const double a = std::abs(v);
    return std::copysign(a <= 0.04045 ? a / 12.92 : std::pow((a + 0.055) / 1.055, 2.4), v);
}

std::uint8_t to_byte(double v) {
    return v > 0 ? static_cast<std::uint8_t>(std::lround(255 * std::min(v, 1.0))) : std::uint8_t{0};
}

}  // namespace

Xyz spectrum_to_xyz(const Spectrum& lamp) {
    Spectrum perfect;
    perfect.v.fill(1);
    return spectrum_to_xyz(lamp, perfect);
}

Xyz spectrum_to_xyz(const Spectrum& lamp, const Spectrum& reflectance) {
    Xyz total;
    double luminous = 0;
    for (int i = 0; i < kSpectrumCount; ++i) {
        const double power = lamp[i] * reflectance[i];
        total.x += power * kObserver1931.x_bar[i];
        total.y += power * kObserver1931.y_bar[i];
        total.z += power * kObserver1931.z_bar[i];
        luminous += lamp[i] * kObserver1931.y_bar[i];
    }
    if (!(luminous > 0)) throw std::invalid_argument("a lamp must give some light between 380 and 780 nm");
    return {total.x / luminous, total.y / luminous, total.z / luminous};
}

Chromaticity chromaticity(const Xyz& c) {
    const double total = c.x + c.y + c.z;
    return {c.x / total, c.y / total};
}

Xyz xyz_of(const Chromaticity& c, double luminance) {
    return {luminance * c.x / c.y, luminance, luminance * (1 - c.x - c.y) / c.y};
}

Lab xyz_to_lab(const Xyz& c, const Xyz& white) {
    const double fx = lab_curve(c.x / white.x);
    const double fy = lab_curve(c.y / white.y);
    const double fz = lab_curve(c.z / white.z);
    return {116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)};
}

Xyz lab_to_xyz(const Lab& lab, const Xyz& white) {
    const double fy = (lab.l + 16) / 116;
    return {white.x * lab_curve_inverse(fy + lab.a / 500), white.y * lab_curve_inverse(fy),
            white.z * lab_curve_inverse(fy - lab.b / 200)};
}

LinearRgb xyz_to_linear_rgb(const Xyz& colour) {
    const glm::dvec3 v = rgb_from_xyz() * vec(colour);
    return {v.x, v.y, v.z};
}

Xyz linear_rgb_to_xyz(const LinearRgb& c) {
    return xyz(xyz_from_rgb() * glm::dvec3(c.r, c.g, c.b));
}

EncodedSrgb encode(const LinearRgb& c) {
    return {encode_channel(c.r), encode_channel(c.g), encode_channel(c.b)};
}

LinearRgb decode(const EncodedSrgb& c) {
    return {decode_channel(c.r), decode_channel(c.g), decode_channel(c.b)};
}

std::array<std::uint8_t, 3> to_bytes(const EncodedSrgb& c) {
    return {to_byte(c.r), to_byte(c.g), to_byte(c.b)};
}

EncodedSrgb from_bytes(const std::array<std::uint8_t, 3>& bytes) {
    return {bytes[0] / 255.0, bytes[1] / 255.0, bytes[2] / 255.0};
}

Xyz adapt(const Xyz& colour, const Xyz& white_from, const Xyz& white_to) {
    static const glm::dmat3 to_cones =
        rows({0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296});
    static const glm::dmat3 from_cones = glm::inverse(to_cones);
    const glm::dvec3 gain = (to_cones * vec(white_to)) / (to_cones * vec(white_from));
    return xyz(from_cones * (gain * (to_cones * vec(colour))));
}

}  // namespace rakelight
