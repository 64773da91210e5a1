#include "materials/optics/thin_film.h"

#include <cmath>
#include <numbers>

namespace rakelight {

namespace {

using Complex = std::complex<double>;

struct Matrix {
    Complex a = 1, b = 0, c = 0, d = 1;
};

// Of one layer: its phase and its admittance in one polarisation.
Matrix times_layer(const Matrix& m, const Complex& phase, const Complex& admittance) {
    const Complex cosine = std::cos(phase), sine = Complex(0, 1) * std::sin(phase);
    const Complex b = sine / admittance, c = sine * admittance;
    return {m.a * cosine + m.b * c, m.a * b + m.b * cosine, m.c * cosine + m.d * c, m.c * b + m.d * cosine};
}

// n cos t across the faces, n / cos t along the plane of incidence.
Complex admittance(double index, const Complex& cosine, bool across) {
    return across ? index * cosine : index / cosine;
}

}  // namespace

double film_reflectance(double index_over, std::span<const FilmLayer> layers, double index_under,
                        double cosine_over, double nm) {
    const double cosine = std::max(cosine_over, 1e-6);
    const double sine = index_over * std::sqrt(std::max(0.0, 1 - cosine * cosine));
    const auto cosine_in = [&](double index) {
        return std::sqrt(Complex(1 - sine * sine / (index * index), 0));
    };
    double sum = 0;
    for (const bool across : {true, false}) {
        Matrix m;
        for (const FilmLayer& layer : layers) {
            const Complex inside = cosine_in(layer.index);
            const Complex phase = 2 * std::numbers::pi / nm * layer.index * layer.thickness_nm * inside;
            m = times_layer(m, phase, admittance(layer.index, inside, across));
        }
        const Complex over = admittance(index_over, cosine, across);
        const Complex under = admittance(index_under, cosine_in(index_under), across);
        const Complex b = m.a + m.b * under, c = m.c + m.d * under;
        sum += std::norm((over * b - c) / (over * b + c));
    }
    return std::min(sum / 2, 1.0);
}

}  // namespace rakelight
