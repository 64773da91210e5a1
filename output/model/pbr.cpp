#include "output/model/pbr.h"

#include <algorithm>
#include <cmath>

#include "materials/colour/colorimetry.h"

namespace rakelight {

namespace {

constexpr double kCoatIndex = 1.5;  // of every clear coat in glTF

double roughness_of(double alpha) {
    return std::sqrt(std::clamp(alpha, 0.0, 1.0));
}

}  // namespace

PbrLook pbr_look(const Material& material, const std::array<std::uint8_t, 3>& seen) {
    PbrLook look;
    look.seen = seen;
    look.index = static_cast<double>(material.index);
    const bool faced = look.index > 1;
    if (material.leaf != Leaf::none) {
        look.metallic = true;
        look.roughness = roughness_of(static_cast<double>(material.leaf_roughness));
        look.coated = faced;
        if (faced) look.coat_roughness = roughness_of(static_cast<double>(material.roughness));
        look.index = kCoatIndex;
    } else if (faced) {
        look.roughness = roughness_of(static_cast<double>(material.roughness));
    }
    return look;
}

double mirrored_face_on(double index) {
    const double r = (index - 1) / (index + 1);
    return r * r;
}

std::array<double, 3> base_colour(const PbrLook& look) {
    const double f = look.metallic && !look.coated ? 0 : mirrored_face_on(look.index);
    const LinearRgb seen = decode(from_bytes(look.seen));
    const auto let_in = [f](double c) { return std::clamp(c / (1 - f), 0.0, 1.0); };
    return {let_in(seen.r), let_in(seen.g), let_in(seen.b)};
}

}  // namespace rakelight
