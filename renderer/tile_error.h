// When a tile is fine enough: the relative standard error of its pixels, of all their light and of each lamp
// group alone, since any may be dimmed after the render until another one is left.
#pragma once

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>
#include <vector>

#include "renderer/vertices.h"

namespace rakelight {

/// Luminance of pixels by lamp group, added up path by path. Holds nothing of a single group.
class GroupLight {
  public:
    struct Sum {
        double luminance = 0;
        double squared = 0;

        double error(int samples) const {
            const double mean = luminance / samples;
            return std::sqrt(std::max(0.0, squared / samples - mean * mean) / samples);
        }
    };

    GroupLight(std::size_t pixels, std::size_t groups)
        : groups_(groups > 1 ? groups : 0), sums_(pixels * groups_) {}

    /// Black places where so many paths leave their light, [path][group], cd/m2.
    std::vector<float> of_path(std::size_t most_paths) const {
        return std::vector<float>(most_paths * groups_, 0.0f);
    }

    /// Takes in what finished paths have left there, and blackens it again.
    void add(std::span<const Path> paths, std::span<float> of_path) {
        for (std::size_t i = 0; i < paths.size() && groups_ > 0; ++i)
            for (std::size_t g = 0; g < groups_; ++g) {
                const auto y = static_cast<double>(std::exchange(of_path[i * groups_ + g], 0.0f));
                Sum& sum = sums_[paths[i].slot * groups_ + g];
                sum.luminance += y;
                sum.squared += y * y;
            }
    }

    /// Sum over the pixels of the relative standard error of the group in which it is the largest, after so
    /// many samples of each; 0 of a single group. A pixel's error counts against its light of that group, and
    /// at least against a tenth of all its light; `floor_cd_per_m2` is added as the group has part in the
    /// light of all the pixels, and at least a tenth of it: so what adds nearly nothing may be as grainy as
    /// nobody sees.
    double worst_error(int samples, double floor_cd_per_m2) const {
        constexpr double kLeastPart = 0.1;
        const std::size_t pixels = groups_ ? sums_.size() / groups_ : 0;
        std::vector<double> all(pixels, 0.0), of_group(groups_, 0.0);
        double total = 0;
        for (std::size_t i = 0; i < sums_.size(); ++i) {
            all[i / groups_] += sums_[i].luminance;
            of_group[i % groups_] += sums_[i].luminance;
            total += sums_[i].luminance;
        }
        double worst = 0;
        for (std::size_t g = 0; g < groups_; ++g) {
            const double part = total > 0 ? std::max(of_group[g] / total, kLeastPart) : 1;
            double error = 0;
            for (std::size_t p = 0; p < pixels; ++p) {
                const Sum& sum = sums_[p * groups_ + g];
                error += sum.error(samples) /
                         (std::max(sum.luminance, kLeastPart * all[p]) / samples + part * floor_cd_per_m2);
            }
            worst = std::max(worst, error);
        }
        return worst;
    }

    /// All that it holds, [pixel][group].
    std::span<Sum> sums() { return sums_; }

  private:
    std::size_t groups_;
    std::vector<Sum> sums_;
};

}  // namespace rakelight
