#include "scene/room/window_bars.h"

#include <algorithm>

namespace rakelight {
namespace {

constexpr double kBarDepth_mm = 20;

}  // namespace

double open_share(const Window& window) {
    if (window.panes.x < 1) return 1;
    const glm::dvec2 bars = glm::dvec2(window.panes + 1) * window.bar_mm;
    const glm::dvec2 open = glm::max(window.size_mm - bars, 0.0) / window.size_mm;
    return open.x * open.y;
}

bool bars_close(const Window& window) {
    return !(open_share(window) > 0);
}

std::vector<std::pair<glm::dvec3, glm::dvec3>> window_bars(const Room& room, const Window& window) {
    std::vector<std::pair<glm::dvec3, glm::dvec3>> boxes;
    if (window.panes.x < 1) return boxes;
    const FacePlane face = face_plane(room, window.wall);
    const auto [low, high] = window_area(window);
    const auto add_bar = [&](const glm::dvec2& from, const glm::dvec2& to) {
        const glm::dvec3 a = face.point(from), b = face.point(to) + kBarDepth_mm * face.inward;
        boxes.emplace_back(glm::min(a, b), glm::max(a, b));
    };
    // Uprights run through, bars across lie between them: no two boxes share a face.
    const glm::dvec2 pane =
        (window.size_mm - glm::dvec2(window.panes + 1) * window.bar_mm) / glm::dvec2(window.panes);
    const glm::dvec2 step = pane + window.bar_mm;
    for (int i = 0; i <= window.panes.x; ++i) {
        const double x = low.x + i * step.x;
        add_bar({x, low.y}, {x + window.bar_mm, high.y});
        if (i == window.panes.x) break;
        for (int j = 0; j <= window.panes.y; ++j) {
            const double y = low.y + j * step.y;
            add_bar({x + window.bar_mm, y}, {x + step.x, y + window.bar_mm});
        }
    }
    return boxes;
}

}  // namespace rakelight
