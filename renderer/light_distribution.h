// The discrete distribution of light samples over lamps at eight vertices: in proportion to their
// importances, but no lamp more than one of several, as in systematic sampling with inclusion probabilities
// (Horvitz and Thompson, Journal of the American Statistical Association 47 (1952) 663). A lamp that promises
// more than all others together is so asked by a sample of its own, and where it turns out to be hidden, as
// the sun is behind a glazing bar, the others have been asked as well.
#pragma once

#include <array>

#include "renderer/light_sampler.h"

namespace rakelight {

/// A lamp in each of eight lanes, and how many of a vertex's samples go to it on average (0: none gives
/// light).
struct SampledLights {
    Ints lamp{};
    Floats expected{};
};

/// Of eight vertices over all lamps.
class LightDistribution {
  public:
    /// `samples`: 1 or 2, of each vertex. The other arguments must outlive the distribution.
    LightDistribution(const LightSampler& lights, const Vec3s& at_mm, const Vec3s& normal, int samples)
        : lights_(lights), at_mm_(at_mm), normal_(normal) {
        Floats greatest{}, rest{};
        for (std::size_t i = 0; i < lights.size(); ++i) {
            const Floats own = lights.importance(i, at_mm, normal);
            if (i < kKept) kept_[i] = own;
            const Ints more = own > greatest;
            rest += more ? greatest : own;
            greatest = more ? own : greatest;
            foremost_ = more ? number(i) : foremost_;
        }
        const Ints alone = samples > 1 ? greatest > rest : Ints{};
        foremost_ = alone ? foremost_ : kNone;
        total_ = alone ? rest : (rest + greatest) * (1 / static_cast<float>(samples));
    }

    /// Lamps by one uniform number each; sample `n` of those of a vertex.
    SampledLights sample(int n, const Floats& u) const {
        SampledLights s;
        const Ints alone = foremost_ >= 0;
        Floats left = (alone ? u : u + static_cast<float>(n)) * total_;
        for (std::size_t i = 0; i < lights_.size(); ++i) {
            const Floats others = importance(i);
            const Ints here = (left >= 0) & (others > 0);  // the last one stands when rounding leaves some
            s.lamp = here ? number(i) : s.lamp;
            s.expected = here ? others : s.expected;
            left -= others;
        }
        s.expected = total_ > 0 ? s.expected / total_ : 0.0f;
        if (n > 0) return s;
        s.lamp = alone ? foremost_ : s.lamp;
        s.expected = alone ? 1.0f : s.expected;
        return s;
    }

    /// How many samples of each lane's vertex go to `lamp`, on average.
    Floats expected(std::size_t lamp) const {
        const Floats others = total_ > 0 ? importance(lamp) / total_ : 0.0f;
        return foremost_ == number(lamp) ? 1.0f : others;
    }

  private:
    static constexpr Ints kNone = Ints{} - 1;

    static Ints number(std::size_t lamp) { return Ints{} + static_cast<std::int32_t>(lamp); }

    // As it counts where all but the foremost lamp are chosen from.
    Floats importance(std::size_t lamp) const {
        const Floats all = lamp < kKept ? kept_[lamp] : lights_.importance(lamp, at_mm_, normal_);
        return foremost_ == number(lamp) ? 0.0f : all;
    }

    static constexpr std::size_t kKept = 64;  // importances kept; those of later lamps are reckoned again

    const LightSampler& lights_;
    const Vec3s& at_mm_;
    const Vec3s& normal_;
    std::array<Floats, kKept> kept_;
    Floats total_{};         // importance that one sample stands for, the foremost lamp's left out
    Ints foremost_ = kNone;  // lamp that has a sample of its own
};

}  // namespace rakelight
