#include "output/glare/moving/what_to_move.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <stdexcept>
#include <tuple>

#include "output/glare/measures/panel_light.h"
#include "output/glare/moving/move_stops.h"
#include "scene/light/window_light.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

constexpr double kNearlyAsGood = 0.1;  // of the present score: then what moves less is the better advice
constexpr std::size_t kMostChanges = 3;
constexpr std::size_t kLean = 0, kHeight = 1, kFirstTrack = 2;

void add_to(LampEffect& sum, const LampEffect& effect) {
    for (std::size_t i = 0; i < sum.score.size(); ++i) sum.score[i] += effect.score[i];
    for (std::size_t i = 0; i < sum.lux.size(); ++i) sum.lux[i] += effect.lux[i];
}

struct Light {
    double lux = 0, evenness = 0;
};

Light light_of(const LampEffect& effect, double indirect_lux) {
    const auto [least, most] = std::minmax_element(effect.lux.begin(), effect.lux.end());
    const double mean =
        std::accumulate(effect.lux.begin(), effect.lux.end(), 0.0) / static_cast<double>(effect.lux.size());
    const double brightest = *most + indirect_lux;
    return {mean + indirect_lux, brightest > 0 ? (*least + indirect_lux) / brightest : 0};
}

std::size_t index_of(const Lighting& light, const std::string& lamp) {
    for (std::size_t i = 0; i < light.lamps.size(); ++i)
        if (light.lamps[i].name == lamp) return i;
    throw std::invalid_argument("no lamp is called " + lamp);
}

bool moves(const MoveBounds& bounds, const Lamp& lamp) {
    return std::any_of(bounds.lamps.begin(), bounds.lamps.end(),
                       [&](const LampTrack& t) { return t.lamp == lamp.name; });
}

class Search {
  public:
    Search(const Layout& layout, const std::vector<SmallMirror>& mirrors,
           const std::vector<glm::dvec3>& eyes_mm, const MoveBounds& bounds, const GlareTerms& terms,
           double indirect_lux)
        : layout_(layout), indirect_lux_(indirect_lux) {
        leans_ = lean_stops(layout.panel.lean_deg, bounds.lean_deg);
        heights_ = height_stops(layout.panel.centre_height_mm, bounds.height_mm);
        std::vector<Emitter> fixed;
        std::vector<std::vector<Emitter>> moving;
        for (const LampTrack& track : bounds.lamps) {
            const std::size_t i = index_of(layout.on, track.lamp);
            tracks_.push_back({i, lamp_stops(layout.on.lamps[i], track), {}});
            auto& places = moving.emplace_back();
            for (const LampStop& stop : tracks_.back().stops)
                places.push_back(make_emitter(stop.lamp, glm::dvec3(0), 0));
        }
        for (const Lamp& lamp : layout.on.lamps)
            if (!moves(bounds, lamp)) fixed.push_back(make_emitter(lamp, glm::dvec3(0), 0));
        for (const WindowLight& window : window_lights(layout, glm::dvec3(0)))
            fixed.push_back(window.emitter);

        const MeterGrid meter = meter_grid(layout.panel);
        const std::size_t hangs = leans_.size() * heights_.size();
        fixed_.resize(hangs);
        for (Track& track : tracks_) track.effects.resize(hangs * track.stops.size());
        tbb::parallel_for(std::size_t{0}, hangs, [&](std::size_t h) {
            const PanelFrame hang =
                panel_frame(layout.panel, leans_[h / heights_.size()], heights_[h % heights_.size()]);
            const auto effect = [&](const Emitter& lamp) {
                return effect_of(lamp, hang, mirrors, eyes_mm, meter, terms);
            };
            fixed_[h] = {std::vector<double>(eyes_mm.size(), 0.0),
                         std::vector<double>(meter.at_mm.size(), 0.0)};
            for (const Emitter& lamp : fixed) add_to(fixed_[h], effect(lamp));
            for (std::size_t t = 0; t < tracks_.size(); ++t)
                for (std::size_t k = 0; k < moving[t].size(); ++k)
                    tracks_[t].effects[h * moving[t].size() + k] = effect(moving[t][k]);
        });
    }

    std::size_t knobs() const { return kFirstTrack + tracks_.size(); }
    std::size_t stops(std::size_t knob) const {
        return knob == kLean     ? leans_.size()
               : knob == kHeight ? heights_.size()
                                 : tracks_[knob - kFirstTrack].stops.size();
    }

    // `at`: the stop of each knob.
    MoveChoice choice(const std::vector<std::size_t>& at) const {
        const LampEffect all = effect(at);
        MoveChoice c;
        c.score = all.score;
        c.worst = *std::max_element(c.score.begin(), c.score.end());
        const Light light = light_of(all, indirect_lux_);
        c.lux = light.lux;
        c.evenness = light.evenness;
        c.effort = effort(at);
        for (std::size_t knob = 0; knob < at.size(); ++knob)
            if (at[knob] > 0) c.changed.push_back(knob);
        c.how.lean_deg = leans_[at[kLean]];
        c.how.height_mm = heights_[at[kHeight]];
        c.how.lamps = layout_.on.lamps;
        for (std::size_t t = 0; t < tracks_.size(); ++t)
            c.how.lamps[tracks_[t].lamp] = tracks_[t].stops[at[kFirstTrack + t]].lamp;
        return c;
    }

    LampEffect effect(const std::vector<std::size_t>& at) const {
        const std::size_t hang = at[kLean] * heights_.size() + at[kHeight];
        LampEffect all = fixed_[hang];
        for (std::size_t t = 0; t < tracks_.size(); ++t)
            add_to(all, tracks_[t].effects[hang * tracks_[t].stops.size() + at[kFirstTrack + t]]);
        return all;
    }

    double effort(const std::vector<std::size_t>& at) const {
        double sum =
            std::abs(leans_[at[kLean]] - leans_[0]) / 4 + std::abs(heights_[at[kHeight]] - heights_[0]) / 100;
        for (std::size_t t = 0; t < tracks_.size(); ++t) sum += tracks_[t].stops[at[kFirstTrack + t]].effort;
        return sum;
    }

    double indirect_lux() const { return indirect_lux_; }

  private:
    struct Track {
        std::size_t lamp = 0;  // in the layout
        std::vector<LampStop> stops;
        std::vector<LampEffect> effects;  // [hang * stops + stop]
    };

    const Layout& layout_;
    double indirect_lux_;
    std::vector<double> leans_, heights_;
    std::vector<Track> tracks_;
    std::vector<LampEffect> fixed_;  // by hang
};

// What is remembered of an arrangement while the rest is gone through.
struct Candidate {
    std::vector<std::size_t> at;
    double worst = 0, mean = 0, effort = 0;
};

bool nicer(const Candidate& a, const Candidate& b) {
    return std::tuple(a.effort, a.worst, a.mean) < std::tuple(b.effort, b.worst, b.mean);
}

// Calls `see` for every arrangement in which exactly `left` knobs from `knob` on are changed.
template <class See>
void each_change(const Search& search, std::vector<std::size_t>& at, std::size_t knob, std::size_t left,
                 const See& see) {
    if (left == 0) return see();
    for (std::size_t k = knob; k < search.knobs(); ++k) {
        for (at[k] = 1; at[k] < search.stops(k); ++at[k]) each_change(search, at, k + 1, left - 1, see);
        at[k] = 0;
    }
}

}  // namespace

MoveSearch what_to_move(const Layout& layout, const std::vector<SmallMirror>& mirrors,
                        const std::vector<glm::dvec3>& eyes_mm, const MoveBounds& bounds,
                        const GlareTerms& terms, double indirect_lux, const std::function<bool()>& stopped) {
    const Search search(layout, mirrors, eyes_mm, bounds, terms, indirect_lux);
    std::vector<std::size_t> at(search.knobs(), 0);
    MoveSearch result;
    result.present = search.choice(at);
    constexpr double kMostLoss = 0.9;
    result.keep = bounds.keep.value_or(
        KeptLight{{kMostLoss * result.present.lux, 1e9}, kMostLoss * result.present.evenness});
    double last = result.present.worst;
    const double slack = kNearlyAsGood * result.present.worst;
    for (std::size_t changes = 1; changes <= std::min(kMostChanges, search.knobs()); ++changes) {
        std::vector<Candidate> good;  // within reach of the best so far
        double best = 1e300;
        each_change(search, at, 0, changes, [&] {
            if ((result.gone_through & 4095) == 0 && stopped && stopped()) return;
            ++result.gone_through;
            const LampEffect effect = search.effect(at);
            const Light light = light_of(effect, search.indirect_lux());
            if (light.lux < result.keep.lux.x || light.lux > result.keep.lux.y ||
                light.evenness < result.keep.evenness)
                return;
            ++result.kept_light;
            const double worst = *std::max_element(effect.score.begin(), effect.score.end());
            if (worst > best + slack) return;
            const double mean = std::accumulate(effect.score.begin(), effect.score.end(), 0.0) /
                                static_cast<double>(effect.score.size());
            best = std::min(best, worst);
            good.push_back({at, worst, mean, search.effort(at)});
            if (good.size() > 100'000)
                std::erase_if(good, [&](const Candidate& c) { return c.worst > best + slack; });
        });
        std::erase_if(good, [&](const Candidate& c) { return c.worst > best + slack; });
        if (good.empty()) continue;
        const Candidate& chosen = *std::min_element(good.begin(), good.end(), nicer);
        if (!(chosen.worst < (1 - kWorthMoving) * last)) continue;
        last = chosen.worst;
        result.better.push_back(search.choice(chosen.at));
    }
    return result;
}

Layout arranged(Layout layout, const Arrangement& how) {
    layout.panel.lean_deg = how.lean_deg;
    layout.panel.centre_height_mm = how.height_mm;
    layout.on.lamps = how.lamps;
    return layout;
}

double direct_lux(const Layout& layout) {
    return direct_lux(layout, layout.panel, panel_frame(layout.panel));
}

}  // namespace rakelight
