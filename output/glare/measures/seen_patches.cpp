#include "output/glare/measures/seen_patches.h"

namespace rakelight {

std::vector<SeenPatch> seen_patches(const Film& film, const Camera& camera) {
    const glm::dvec3 right(camera.right), down(camera.down), corner(camera.corner);
    const glm::dvec3 pixel = glm::cross(right, down) / static_cast<double>(film.pixel_count());
    std::vector<SeenPatch> patches(film.pixel_count());
    for (int y = 0; y < film.height; ++y)
        for (int x = 0; x < film.width; ++x) {
            const glm::dvec3 at = corner + (x + 0.5) / film.width * right + (y + 0.5) / film.height * down;
            const double far = glm::length(at);
            const auto i = static_cast<std::size_t>(y) * static_cast<std::size_t>(film.width) +
                           static_cast<std::size_t>(x);
            patches[i] = {at / far, static_cast<double>(total_xyz(film, i).y),
                          std::abs(glm::dot(pixel, at)) / (far * far * far)};
        }
    return patches;
}

}  // namespace rakelight
