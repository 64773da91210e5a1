#include "output/glare/moving/also_tried.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <tuple>

#include "scene/light/window_light.h"
#include "scene/model/layout.h"
#include "scene/room/panel_frame.h"

namespace rakelight {

namespace {

constexpr double kWorthSaying = 0.9;  // of the present worst score

// A panel, its eyes and its light in one state.
struct State {
    Layout layout;
    PanelFrame hang;
    std::vector<glm::dvec3> eyes_mm;
    std::vector<SmallMirror> mirrors;
};

struct Outcome {
    double worst = 0, lux = 0;
};

class Trial {
  public:
    Trial(const State& present, const GlareTerms& terms, double indirect_lux)
        : present_(present), terms_(terms), meter_(meter_grid(present.layout.panel)) {
        const Outcome direct = reckon(present);
        now_ = direct;
        indirect_share_ = direct.lux > 0 ? indirect_lux / direct.lux : 0;
        now_.lux += indirect_lux;
    }

    void add(std::string what, const State& state) {
        Outcome then = reckon(state);
        then.lux *= 1 + indirect_share_;
        if (then.worst < kWorthSaying * now_.worst) tried_.push_back({std::move(what), then.worst, then.lux});
    }

    const State& present() const { return present_; }

    std::vector<TriedAlone> take() {
        std::stable_sort(tried_.begin(), tried_.end(),
                         [](const TriedAlone& a, const TriedAlone& b) { return a.worst < b.worst; });
        if (tried_.size() > kMostTried) tried_.resize(kMostTried);
        return std::move(tried_);
    }

  private:
    Outcome reckon(const State& state) const {
        Outcome sum;
        std::vector<double> score(state.eyes_mm.size(), 0.0);
        const auto add = [&](const Emitter& lamp) {
            const LampEffect effect =
                effect_of(lamp, state.hang, state.mirrors, state.eyes_mm, meter_, terms_);
            for (std::size_t e = 0; e < score.size(); ++e) score[e] += effect.score[e];
            sum.lux += std::accumulate(effect.lux.begin(), effect.lux.end(), 0.0) /
                       static_cast<double>(effect.lux.size());
        };
        for (const Lamp& lamp : state.layout.on.lamps) add(make_emitter(lamp, glm::dvec3(0), 0));
        for (const WindowLight& window : window_lights(state.layout, glm::dvec3(0))) add(window.emitter);
        sum.worst = *std::max_element(score.begin(), score.end());
        return sum;
    }

    const State& present_;
    GlareTerms terms_;
    MeterGrid meter_;
    Outcome now_;
    double indirect_share_ = 0;
    std::vector<TriedAlone> tried_;
};

void try_windows(Trial& trial) {
    const auto& windows = trial.present().layout.on.windows;
    for (std::size_t i = 0; i < windows.size(); ++i)
        for (const auto& [curtain, words, passes] : {std::tuple(Curtain::sheer, "a sheer curtain", 0.4),
                                                     std::tuple(Curtain::blind, "a blind", 0.1)}) {
            if (windows[i].curtain != Curtain::none && windows[i].transmittance <= passes) continue;
            State state = trial.present();
            state.layout.on.windows[i].curtain = curtain;
            state.layout.on.windows[i].transmittance = passes;
            trial.add(fmt::format("{} on {}", words, windows[i].name), state);
        }
}

void try_dimming(Trial& trial) {
    for (std::size_t i = 0; i < trial.present().layout.on.lamps.size(); ++i) {
        const Lamp& lamp = trial.present().layout.on.lamps[i];
        if (!(lamp.dimming > 0)) continue;
        State state = trial.present();
        state.layout.on.lamps[i].dimming *= 0.5;
        trial.add(fmt::format("{} at half its light", lamp.name), state);
    }
}

void try_sideways(Trial& trial) {
    const Room& room = trial.present().layout.room;
    const double half = outer_half_mm(trial.present().layout.panel, 0).x;
    for (const double by_mm : {-1000.0, -500.0, 500.0, 1000.0}) {
        if (std::abs(by_mm) + half > room.width_mm / 2) continue;
        State state = trial.present();
        const glm::dvec3 by(by_mm, 0, 0);
        state.hang.centre_mm += by;
        state.hang.origin_mm += by;
        for (glm::dvec3& eye : state.eyes_mm) eye += by;
        trial.add(fmt::format("the panel {:.0f} mm to the {}, its viewers with it", std::abs(by_mm),
                              by_mm < 0 ? "left" : "right"),
                  state);
    }
}

// The panel and its eyes turned about the upright, to the middle of another wall.
void try_other_walls(Trial& trial) {
    const Room& room = trial.present().layout.room;
    const glm::dvec3 x(1, 0, 0), z(0, 0, 1), y(0, 1, 0);
    struct Wall {
        const char* name;
        glm::dvec3 along, out, foot_mm;
        double wide_mm;
    };
    const Wall walls[] = {{"left", -z, x, {-room.width_mm / 2, 0, room.depth_mm / 2}, room.depth_mm},
                          {"right", z, -x, {room.width_mm / 2, 0, room.depth_mm / 2}, room.depth_mm},
                          {"opposite", -x, -z, {0, 0, room.depth_mm}, room.width_mm}};
    const double half = outer_half_mm(trial.present().layout.panel, 0).x;
    for (const Wall& wall : walls) {
        if (2 * half > wall.wide_mm) continue;
        const glm::dmat3 turn(wall.along, y, wall.out);
        const auto moved = [&](const glm::dvec3& p) { return wall.foot_mm + turn * p; };
        State state = trial.present();
        state.hang.centre_mm = moved(state.hang.centre_mm);
        state.hang.origin_mm = moved(state.hang.origin_mm);
        state.hang.axes = turn * state.hang.axes;
        bool inside = true;
        for (glm::dvec3& eye : state.eyes_mm) {
            eye = moved(eye);
            inside &= std::abs(eye.x) < room.width_mm / 2 && eye.z > 0 && eye.z < room.depth_mm;
        }
        if (inside)
            trial.add(fmt::format("the panel on the {} wall, its viewers before it", wall.name), state);
    }
}

// Faces acid-etched: as rough as frosted glass.
void try_less_gloss(Trial& trial) {
    constexpr double kEtched = 0.35;  // GGX alpha; common practice, no published source
    const auto& fields = trial.present().layout.fields;
    for (std::size_t f = 0; f < fields.size(); ++f) {
        State state = trial.present();
        for (SmallMirror& mirror : state.mirrors)
            if (mirror.field == f) mirror.rough_slope = std::max(mirror.rough_slope, kEtched);
        trial.add(fmt::format("etched or honed faces in {}", fields[f].name), state);
    }
}

}  // namespace

std::vector<TriedAlone> also_tried(const Layout& layout, const std::vector<SmallMirror>& mirrors,
                                   const std::vector<glm::dvec3>& eyes_mm, const GlareTerms& terms,
                                   double indirect_lux) {
    const State present{layout, panel_frame(layout.panel), eyes_mm, mirrors};
    Trial trial(present, terms, indirect_lux);
    try_windows(trial);
    try_dimming(trial);
    try_sideways(trial);
    try_other_walls(trial);
    try_less_gloss(trial);
    return trial.take();
}

}  // namespace rakelight
