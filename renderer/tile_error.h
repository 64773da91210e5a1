// When a tile is fine enough: the relative standard error of its pixels, of all their light and of each lamp
// group alone, since any may be dimmed after the render until another one is left.
#pragma once

#include <algorithm>
#include <span>
#include <vector>

#include "renderer/batches.h"

namespace rakelight {

/// Luminance of pixels by lamp group, added up batch by batch. Holds nothing of a single group.
class GroupLight {
  public:
    GroupLight(std::size_t pixels, std::size_t groups)
        : groups_(groups > 1 ? groups : 0), sums_(pixels * groups_) {}

    /// How many groups it tells apart; 0 = there is but one.
    std::size_t groups() const { return groups_; }

    /// Takes in a batch of so many samples of a pixel, whose luminance by the group adds up to `sum`, cd/m2.
    void add(std::size_t pixel, std::size_t group, double sum, int samples) {
        sums_[pixel * groups_ + group].add(sum, samples);
    }

    /// Sum over the pixels of the relative standard error of the group in which it is the largest, when
    /// `samples_of(pixel)` samples of each are in; 0 of a single group. A pixel's error counts against its
    /// light of that group, and at least against a tenth of all its light; `floor_cd_per_m2` is added as the
    /// group has part in the light of all the pixels, and at least a tenth of it: so what adds nearly nothing
    /// may be as grainy as nobody sees.
    template <class SamplesOf>
    double worst_error(SamplesOf&& samples_of, double floor_cd_per_m2) const {
        constexpr double kLeastPart = 0.1;
        const std::size_t pixels = groups_ ? sums_.size() / groups_ : 0;
        std::vector<double> all(pixels, 0.0), of_group(groups_, 0.0);
        double total = 0;
        for (std::size_t i = 0; i < sums_.size(); ++i) {
            const double mean = sums_[i].sum / samples_of(i / groups_);
            all[i / groups_] += mean;
            of_group[i % groups_] += mean;
            total += mean;
        }
        double worst = 0;
        for (std::size_t g = 0; g < groups_; ++g) {
            const double part = total > 0 ? std::max(of_group[g] / total, kLeastPart) : 1;
            double error = 0;
            for (std::size_t p = 0; p < pixels; ++p) {
                const BatchSums& sums = sums_[p * groups_ + g];
                const int samples = samples_of(p);
                error += sums.error(samples) /
                         (std::max(sums.sum / samples, kLeastPart * all[p]) + part * floor_cd_per_m2);
            }
            worst = std::max(worst, error);
        }
        return worst;
    }

    /// All that it holds, [pixel][group].
    std::span<BatchSums> sums() { return sums_; }

  private:
    std::size_t groups_;
    std::vector<BatchSums> sums_;
};

}  // namespace rakelight
