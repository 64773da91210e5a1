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

// How much larger than the middle of a work so wide its nearer edge shows from aside.
double nearer_edge(double aside_mm, double distance_mm, double half_width_mm) {
    const double to_middle_mm = std::hypot(aside_mm, distance_mm);
    const double nearer_mm = half_width_mm * std::abs(aside_mm) / to_middle_mm;
    return to_middle_mm / std::max(to_middle_mm - nearer_mm, 0.1 * to_middle_mm);
}

std::vector<Viewpoint> walk_past(const Clips& clips, const Layout& layout, int frames) {
    const HungWork work = each_hung(layout).front();
    const glm::dvec2 half = work.outer_half_mm;
    const ClipWalk& walk = clips.walk;
    const double usual_mm = 2 * 1.75 * glm::length(half);
    const double most_mm = layout.room.width_mm / 2 - kOffWalls_mm;
    const auto within_mm = [&](double x) { return std::clamp(x, -most_mm, most_mm); };
    Viewpoint view;
    view.name = kClipWords[0];
    view.look_at_mm = {glm::dvec2(work.centre_mm), 0};
    view.eye_mm = {
        0, walk.eye_mm,
        std::min(walk.distance_mm > 0 ? walk.distance_mm : usual_mm, layout.room.depth_mm - kOffWalls_mm)};
    double edge = 1;
    for (const double end_mm : {walk.from_mm, walk.to_mm})
        edge = std::max(edge, nearer_edge(end_mm, view.eye_mm.z, half.x));
    const double margin_mm = 2 * kMargin * half.x;
    view.view_width_mm = 2 * std::max(half.x + margin_mm, aspect(clips) * (edge * half.y + margin_mm));
    std::vector<Viewpoint> views;
    for (int i = 0; i < frames; ++i) {
        view.eye_mm.x =
            within_mm(view.look_at_mm.x + std::lerp(walk.from_mm, walk.to_mm, share_of_way(i, frames)));
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
