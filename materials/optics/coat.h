// A coat of thin films on a face: iridised and dichroic glass, lustre, mother-of-pearl. What the films mirror
// is a lobe of its own, coloured by angle and wavelength (thin_film.h); what they let through meets the body
// and comes back through them (Saunderson 1942, with the films' own shares). Like leaf it counts to the base.
#pragma once

#include "materials/optics/surface.h"

namespace rakelight {

/// Puts the coating of a material over its body: makes of `surface`, still without interface and base, one
/// with both. `body`: the share of what enters that leaves again under a plain face of the material's index,
/// as Surface::even of an even base. Never more light than falls on it.
void set_coat(Surface& surface, const Material& material, const SampledSpectrum& body,
              InterfaceTables& cache);

/// Reflectance of the films of a material at the bands, upright or at the cosine `z`.
SampledSpectrum coat_reflectance(const Material& material, double z);

}  // namespace rakelight
