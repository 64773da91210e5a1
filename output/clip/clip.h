// Short moving pictures of the work, as plain values: what moves is the eye, the lamps' dimmers, or the sun.
#pragma once

#include <glm/glm.hpp>
#include <optional>
#include <string>
#include <vector>

#include "scene/model/views.h"

namespace rakelight {

struct Layout;

enum class ClipKind { walk_past, dimming, day };

/// Words for them, in the order of `ClipKind`.
inline const std::vector<std::string> kClipWords{"walk past", "dimmed", "day"};

struct ClipWalk {
    double from_mm = -1100;  ///< to the right of the panel's middle
    double to_mm = 1100;
    double distance_mm = 0;  ///< from the wall; 0 = 1.75 diagonals
    double eye_mm = 1600;    ///< height
};

struct ClipDimming {
    std::vector<std::string> lamps;  ///< lamps or groups, one after another; empty = all
    double to = 0;                   ///< share of the light that is left
};

struct ClipDay {
    double from_h = 8;
    double to_h = 18;
};

struct Clips {
    double seconds = 6;
    int frames_per_s = 24;
    glm::ivec2 size_px{1280, 720};  ///< both even
    double grain = 0.06;
    int most_samples = 32;
    std::string viewpoint;  ///< of dimming and day
    ClipWalk walk;
    ClipDimming dimming;
    ClipDay day;
};

/// At least two.
int frame_count(const Clips& clips);

/// "found ..., expected ...": why a clip cannot be made of a layout: no window, no time of day. Empty when it
/// can.
std::string why_no_clip(ClipKind kind, const Layout& layout);

/// Where each frame of the clip is seen from. A walk goes evenly from one end to the other, eyes on the
/// middle of the panel; the others stand still, as wide as the viewpoint's view is at 4:3.
std::vector<Viewpoint> clip_viewpoints(ClipKind kind, const Clips& clips, const Layout& layout);

/// What is left of the light of each of `groups` lamp groups in each frame, 0..1, [frame][group]. Those in
/// `dimmed` go down one after another, each in its part of the time, by a square law (light = setting^2, the
/// setting falling evenly), as dimmers of lamps do; common practice, no published source.
std::vector<std::vector<double>> dimmed_frames(int frames, std::size_t groups,
                                               const std::vector<std::size_t>& dimmed, double to);

/// The hour of each frame.
std::vector<double> clip_hours(int frames, const ClipDay& day);

}  // namespace rakelight
