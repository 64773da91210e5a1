#include "materials/stock/wetting.h"

#include <cmath>

#include "materials/optics/fresnel.h"

namespace rakelight {

double wet_absorptance(double absorptance, double mirrored, double returned) {
    return (1 - mirrored) * absorptance / (1 - returned * (1 - absorptance));
}

double soaked_absorptance(double absorptance, double liquid, double grain) {
    const double step = liquid < grain ? grain / liquid : liquid / grain;
    const double gain = (1 - diffuse_reflectance_outside(step)) / (1 - diffuse_reflectance_outside(grain));
    return absorptance * ((1 - absorptance) * gain + absorptance);
}

SampledSpectrum soaked_reflectance(const SampledSpectrum& reflectance, double liquid) {
    return map(reflectance,
               [liquid](float r) { return static_cast<float>(1 - soaked_absorptance(1 - r, liquid)); });
}

double film_index(double film, double below) {
    const double outer = dielectric_reflectance(1.0, film), inner = dielectric_reflectance(1.0, below / film);
    const double through = (1 - outer) * (1 - outer);
    const double amplitude = std::sqrt(outer + through * inner / (1 - outer * inner));
    return (1 + amplitude) / (1 - amplitude);
}

double open_pores(double reflectance, double trapped) {
    const double lost = 1 - trapped * reflectance;
    return lost > 0 ? (1 - trapped) * reflectance / lost : 1;
}

}  // namespace rakelight
