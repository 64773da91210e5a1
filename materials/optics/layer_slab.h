// A scattering layer as matrices of radiance from direction to direction, what the solvers of layer.cpp and
// plate.cpp share.
#pragma once

#include "materials/optics/layer.h"
#include "materials/optics/layer_matrix.h"

namespace rakelight::layer_matrix {

inline constexpr int kHalf = N / 2;         ///< directions from here on reach the outside
inline constexpr double kEndless = 1e9;     ///< optical depth that nothing passes
inline constexpr double kThinnest = 0.004;  ///< optical depth that doubling begins with, at most

/// Radiance reflected and transmitted, from radiance arriving, direction by direction.
struct Sheet {
    Matrix reflect;
    Matrix transmit;
};

/// Optical depth of a layer, and the share of extinction that scatters.
struct Depth {
    double depth = 0;
    double omega = 0;
};
Depth depth_of(const LayerBand& band);

/// Flux of unit radiance in each direction, sum 1.
Vector fluxes(const LayerFrame& frame);

/// The layer without its interface, by doubling.
Sheet whole_sheet(const LayerFrame& frame, Depth depth);

}  // namespace rakelight::layer_matrix
