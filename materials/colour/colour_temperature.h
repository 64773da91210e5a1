// The temperature of the black body that a light looks most like.
// Source: CIE 015:2018, correlated colour temperature: least distance in the CIE 1960 u, v diagram.
#pragma once

#include "materials/colour/colorimetry.h"

namespace rakelight {

/// A colour temperature, and how far from the Planckian locus the light lies in CIE 1960 u, v (positive:
/// greenish). Beyond a distance of 0.05 a colour temperature has no meaning (CIE 015:2018).
struct CorrelatedTemperature {
    double cct_k = 0;
    double duv = 0;
};

/// The nearest black body between 1000 and 100 000 K; X + 15 Y + 3 Z must not be 0.
CorrelatedTemperature correlated_temperature(const Xyz& colour);

/// Its temperature alone, in kelvin.
inline double cct_k(const Xyz& colour) {
    return correlated_temperature(colour).cct_k;
}

}  // namespace rakelight
