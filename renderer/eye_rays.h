// Rays from the eye through a pixel, by a tent filter one pixel wide each way, and through the lens.
#pragma once

#include "renderer/camera.h"
#include "renderer/film.h"
#include "renderer/lens.h"
#include "renderer/sampler.h"

namespace rakelight {

/// Uniform numbers to offsets of a tent filter one pixel wide each way.
inline Floats tent(const Floats& u) {
    return u < 0.5f ? sqrt(2 * u) - 1 : 1 - sqrt(2 * (1 - u));
}

/// Eight rays through the pixel (x, y) by the first pair of these points, and that of the lens.
inline LensRays eye_rays(const Camera& camera, const Lens& lens, const Film& film, int x, int y,
                         const SamplePoint<Words>& points) {
    const PairOf<Floats> u = points.even_pair(1);
    const Floats across = (static_cast<float>(x) + 0.5f + tent(u.x)) / static_cast<float>(film.width);
    const Floats along = (static_cast<float>(y) + 0.5f + tent(u.y)) / static_cast<float>(film.height);
    if (lens.aperture_mm > 0) return through_lens(lens, camera, across, along, points.even_pair(kLensPair));
    return {broadcast3(camera.eye_mm), camera.toward(across, along)};
}

}  // namespace rakelight
