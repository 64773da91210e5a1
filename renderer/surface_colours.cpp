#include "renderer/surface_colours.h"

#include "materials/colour/tristimulus_weights.h"

namespace rakelight {

std::vector<glm::vec3> surface_colours(std::span<const Surface> surfaces) {
    Spectrum equal;
    equal.v.fill(1);
    const TristimulusWeights even = tristimulus_weights(equal);
    std::vector<glm::vec3> colours;
    colours.reserve(surfaces.size());
    for (const Surface& surface : surfaces) {
        const SampledSpectrum all = directional_albedo(surface, 1.0f);
        const std::array<float, 3> xyz =
            integrate(even, all + SampledSpectrum(surface.transmittance(1.0f) - 1));
        colours.emplace_back(xyz[0], xyz[1], xyz[2]);
    }
    return colours;
}

}  // namespace rakelight
