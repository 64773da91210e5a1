#include "output/clip/make.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>

#include "output/film/scene_hash.h"
#include "output/print/exposure.h"
#include "output/system/interrupt.h"
#include "output/system/progress.h"
#include "renderer/bvh.h"
#include "renderer/light_meter.h"
#include "renderer/render.h"
#include "scene/model/layout.h"
#include "scene/model/viewpoint.h"
#include "scene/world/world.h"

namespace rakelight {

namespace {

constexpr int kMetered = 13;        // hours of a day, of which the brightest sets the exposure
constexpr int kDimmingSamples = 8;  // times those of a frame: one picture serves all

Picture picture_of(const ClipWork& work, const std::string& viewpoint) {
    Picture picture;
    picture.name = kClipWords[static_cast<std::size_t>(work.kind)];
    picture.viewpoint = viewpoint;
    picture.width_px = work.clips.size_px.x;
    picture.height_px = work.clips.size_px.y;
    picture.error = work.clips.grain;
    picture.most_samples = work.clips.most_samples;
    if (work.kind == ClipKind::dimming) {
        picture.error /= std::sqrt(kDimmingSamples);
        picture.most_samples *= kDimmingSamples;
    }
    return picture;
}

std::vector<std::size_t> dimmed_groups(const World& world, const std::vector<std::string>& names) {
    std::vector<std::size_t> groups;
    const auto add = [&](std::size_t group) {
        if (std::ranges::find(groups, group) == groups.end()) groups.push_back(group);
    };
    if (names.empty())
        for (std::size_t g = 0; g < world.groups.size(); ++g) add(g);
    for (const std::string& name : names)
        for (std::size_t e = 0; e < world.emitters.size(); ++e)
            if (world.emitter_names[e] == name || world.groups[world.emitters[e].group] == name)
                add(world.emitters[e].group);
    return groups;
}

/// One room that a clip is made in.
class Studio {
  public:
    Studio(const ClipWork& work, const Layout& layout, const Laying& laying)
        : work_(work),
          lit_(layout),
          views_(clip_viewpoints(work.kind, work.clips, layout)),
          picture_(picture_of(work, views_.front().name)),
          world_(build_world(layout, laying)),
          bvh_(world_),
          progress_(picture_.name, progress_kind(stderr, work.quiet)) {
        lit_.views.viewpoints = {views_.front()};
        meter();
    }

    MadeFrames make(const FrameFolder& folder) {
        MadeFrames made{static_cast<int>(views_.size()), 0, how_.ev100};
        std::vector<int> missing;
        for (int i = 0; i < made.frames; ++i)
            if (!folder.has(i)) missing.push_back(i);
        if (missing.size() < views_.size() && !missing.empty())
            fmt::print(stderr, "Note: {} goes on from frame {}\n", picture_.name, missing.front() + 1);
        if (work_.kind == ClipKind::dimming) {
            dim(folder, missing);
            return made;
        }
        for (std::size_t k = 0; k < missing.size(); ++k) {
            stop_if_interrupted();
            const double all = static_cast<double>(missing.size());
            put_frame(missing[k]);
            folder.keep(missing[k], develop(traced(static_cast<double>(k) / all, 1 / all), how_));
            ++made.rendered;
        }
        return made;
    }

  private:
    void put_hour(double hour) {
        lit_.on.daylight.time->hour = hour;
        set_lights(world_, lit_);
    }

    void meter() {
        std::vector<glm::dvec3> brightest = metered();
        if (work_.kind == ClipKind::day) {
            brightest.clear();
            double most = -1;
            for (const double hour : clip_hours(kMetered, work_.clips.day)) {
                stop_if_interrupted();
                put_hour(hour);
                const std::vector<glm::dvec3> now = metered();
                double lux = 0;
                for (const glm::dvec3& group : now) lux += group.y;
                if (lux > most) most = lux, brightest = now;
            }
        }
        const double pixel_deg = glm::degrees(
            std::atan(views_.front().view_width_mm / picture_.width_px / view_distance_mm(views_.front())));
        how_ = developing_of_clip(brightest, pixel_deg);
        card_cd_per_m2_ = brightest_card_cd_per_m2_ = grey_card_cd_per_m2(brightest);
    }

    std::vector<glm::dvec3> metered() const {
        return panel_illuminance_xyz(world_, bvh_, lamps_of_picture(world_, lit_, picture_));
    }

    // Puts eye and hour of a frame, and exposes for it.
    void put_frame(int frame) {
        const auto at = static_cast<std::size_t>(frame);
        lit_.views.viewpoints = {views_[at]};
        if (work_.kind != ClipKind::day) return;
        put_hour(clip_hours(static_cast<int>(views_.size()), work_.clips.day)[at]);
        const double card_cd_per_m2 =
            eased_card_cd_per_m2(grey_card_cd_per_m2(metered()), brightest_card_cd_per_m2_);
        how_.ev100 = ev100_of(card_cd_per_m2);
        card_cd_per_m2_ = card_cd_per_m2;
    }

    Film traced(double done, double part) {
        RenderOptions options;
        options.threads = work_.threads;
        options.card_cd_per_m2 = card_cd_per_m2_;
        options.progress = [&, done, part](double share) { progress_.show(done + part * share); };
        options.cancelled = interrupted;
        return render(world_, bvh_, lit_, picture_, options);
    }

    void dim(const FrameFolder& folder, const std::vector<int>& missing) {
        if (missing.empty()) return;
        put_frame(0);
        const Film film = traced(0, 1);
        const auto left =
            dimmed_frames(static_cast<int>(views_.size()), film.groups.size(),
                          dimmed_groups(world_, work_.clips.dimming.lamps), work_.clips.dimming.to);
        for (const int i : missing) {
            stop_if_interrupted();
            folder.keep(i, develop(dimmed(film, left[static_cast<std::size_t>(i)]), how_));
        }
    }

    const ClipWork& work_;
    Layout lit_;
    std::vector<Viewpoint> views_;
    Picture picture_;
    World world_;
    Bvh bvh_;
    Progress progress_;
    Developing how_;
    double card_cd_per_m2_ = 0, brightest_card_cd_per_m2_ = 0;
};

}  // namespace

std::uint64_t clip_hash(const ClipWork& work, const Layout& layout) {
    const Clips& c = work.clips;
    std::string said =
        fmt::format("{} {} {} {} {} {} {}", kClipWords[static_cast<std::size_t>(work.kind)], c.seconds,
                    c.frames_per_s, c.viewpoint, c.dimming.to, c.day.from_h, c.day.to_h);
    for (const double mm : {c.walk.from_mm, c.walk.to_mm, c.walk.distance_mm, c.walk.eye_mm})
        said += fmt::format(" {}", mm);
    for (const std::string& lamp : c.dimming.lamps) said += " " + lamp;
    said += " " + layout.on.name;
    return fnv1a(said, scene_hash(work.sources, "", picture_of(work, c.viewpoint)));
}

std::string clip_stem(ClipKind kind) {
    std::string stem = "clip-" + kClipWords[static_cast<std::size_t>(kind)];
    std::ranges::replace(stem, ' ', '-');
    return stem;
}

MadeFrames make_frames(const ClipWork& work, const Layout& layout, const Laying& laying,
                       const FrameFolder& folder) {
    return Studio(work, layout, laying).make(folder);
}

}  // namespace rakelight
