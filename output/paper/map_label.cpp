#include "output/paper/map_label.h"

namespace rakelight {

namespace {

bool fits(const Ring& ring, const glm::dvec2& at, const glm::dvec2& half) {
    for (int x = -1; x <= 1; ++x)
        for (int y = -1; y <= 1; ++y)
            if ((x || y) && !contains(ring, at + glm::dvec2(x, y) * half)) return false;
    // Corners that reach into the label.
    for (const auto& p : ring)
        if (const glm::dvec2 d = glm::abs(p - at); d.x < half.x && d.y < half.y) return false;
    return true;
}

}  // namespace

LabelSpot label_spot(const Ring& ring, double width_em, double height_em) {
    constexpr int kHalvings = 10;
    LabelSpot best;
    const glm::dvec2 half_em(width_em / 2, height_em / 2);
    const Box box = bounds(ring);
    const auto try_at = [&](const glm::dvec2& at) {
        if (!contains(ring, at) || (best.em_mm > 0 && !fits(ring, at, best.em_mm * half_em))) return;
        double low = best.em_mm, high = std::min(box.size().x / width_em, box.size().y / height_em);
        for (int i = 0; i < kHalvings; ++i) {
            const double middle = (low + high) / 2;
            (fits(ring, at, middle * half_em) ? low : high) = middle;
        }
        if (low > best.em_mm) best = {at, low};
    };
    try_at(centroid(ring));
    try_at((box.low + box.high) / 2.0);
    if (const auto star = star_centre(ring)) try_at(*star);
    return best;
}

}  // namespace rakelight
