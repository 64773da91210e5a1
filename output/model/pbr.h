// What a material looks like to a viewer of glTF: the metallic-roughness model (ISO/IEC 12113:2022, appendix
// B) with the extensions KHR_materials_ior and KHR_materials_clearcoat.
#pragma once

#include <array>
#include <compare>
#include <cstdint>

#include "materials/optics/material.h"

namespace rakelight {

/// A glTF material but for its name.
struct PbrLook {
    std::array<std::uint8_t, 3> seen{};  ///< encoded sRGB: face-on in D65, first-surface light excluded
    bool metallic = false;
    double roughness = 1;  ///< 0..1, the square root of GGX's alpha
    double index = 1;      ///< refractive index of the face; 1 = no face
    bool coated = false;   ///< a metal under a face of glass or resin
    double coat_roughness = 0;
    auto operator<=>(const PbrLook&) const = default;
};

/// The look of a material whose colour on paper is `seen`. What glTF has no words for is left out: grain,
/// ripple, glassy patches, the even part of leaf. Glass is opaque, the bed in its colour: the model has
/// nothing under it.
PbrLook pbr_look(const Material& material, const std::array<std::uint8_t, 3>& seen);

/// The share that a face of this index mirrors face-on: ((n - 1) / (n + 1))^2 (Fresnel).
double mirrored_face_on(double index);

/// `baseColorFactor`: linear sRGB, so that the body seen through the face has the colour `seen`. glTF lets
/// 1 - F of the light into the body, F being what the face mirrors, and none is lost on the way out.
std::array<double, 3> base_colour(const PbrLook& look);

}  // namespace rakelight
