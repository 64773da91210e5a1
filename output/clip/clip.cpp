#include "output/clip/clip.h"

#include <algorithm>
#include <cmath>

#include "scene/model/layout.h"
#include "scene/room/hung_panel.h"

namespace rakelight {

namespace {

constexpr double kMargin = 0.07;      // of the work's outer width, left free on each side
constexpr double kOffWalls_mm = 200;  // an eye keeps so far from the walls
constexpr double kUsualAspect = 4.0 / 3;

// 0 at the first frame, 1 at the last.
double share_of_way(int frame, int frames) {
    return static_cast<double>(frame) / std::max(frames - 1, 1);
}

double aspect(const Clips& clips) {
    return static_cast<double>(clips.size_px.x) / clips.size_px.y;
}

std::vector<Viewpoint> walk_past(const Clips& clips, const Layout& layout, int frames) {
    const HungWork work = each_hung(layout).front();
    const glm::dvec2 outer = 2.0 * work.outer_half_mm;
    const glm::dvec2 seen = outer + 2 * kMargin * outer.x;
    const ClipWalk& walk = clips.walk;
    const double usual_mm = 1.75 * glm::length(outer);
    Viewpoint view;
    view.name = kClipWords[0];
    view.look_at_mm = {glm::dvec2(work.centre_mm), 0};
    view.view_width_mm = std::max(seen.x, aspect(clips) * seen.y);
    view.eye_mm = {
        0, walk.eye_mm,
        std::min(walk.distance_mm > 0 ? walk.distance_mm : usual_mm, layout.room.depth_mm - kOffWalls_mm)};
    const double most_mm = layout.room.width_mm / 2 - kOffWalls_mm;
    std::vector<Viewpoint> views;
    for (int i = 0; i < frames; ++i) {
        const double aside_mm = std::lerp(walk.from_mm, walk.to_mm, share_of_way(i, frames));
        view.eye_mm.x = std::clamp(view.look_at_mm.x + aside_mm, -most_mm, most_mm);
        views.push_back(view);
    }
    return views;
}

}  // namespace

int frame_count(const Clips& clips) {
    return std::max(2, static_cast<int>(std::lround(clips.seconds * clips.frames_per_s)));
}

std::string why_no_clip(ClipKind kind, const Layout& layout) {
    if (kind != ClipKind::day) return "";
    if (layout.on.windows.empty()) return "found no window, expected one for a day to pass outside it";
    if (!layout.on.daylight.time)
        return "found no time in daylight, expected a date and time for a day to pass";
    return "";
}

std::vector<Viewpoint> clip_viewpoints(ClipKind kind, const Clips& clips, const Layout& layout) {
    const int frames = frame_count(clips);
    if (kind == ClipKind::walk_past) return walk_past(clips, layout, frames);
    const auto& views = layout.views.viewpoints;
    const auto named = std::ranges::find(views, clips.viewpoint, &Viewpoint::name);
    Viewpoint view = named != views.end() ? *named : views.front();
    view.view_width_mm *= std::max(1.0, aspect(clips) / kUsualAspect);
    return std::vector<Viewpoint>(static_cast<std::size_t>(frames), view);
}

std::vector<std::vector<double>> dimmed_frames(int frames, std::size_t groups,
                                               const std::vector<std::size_t>& dimmed, double to) {
    std::vector<std::vector<double>> all;
    for (int i = 0; i < frames; ++i) {
        std::vector<double>& left = all.emplace_back(groups, 1.0);
        const double at = share_of_way(i, frames) * static_cast<double>(dimmed.size());
        for (std::size_t k = 0; k < dimmed.size(); ++k) {
            const double done = std::clamp(at - static_cast<double>(k), 0.0, 1.0);
            const double setting = std::lerp(1.0, std::sqrt(to), done);
            left[dimmed[k]] = setting * setting;
        }
    }
    return all;
}

std::vector<double> clip_hours(int frames, const ClipDay& day) {
    std::vector<double> hours;
    for (int i = 0; i < frames; ++i)
        hours.push_back(std::lerp(day.from_h, day.to_h, share_of_way(i, frames)));
    return hours;
}

}  // namespace rakelight
