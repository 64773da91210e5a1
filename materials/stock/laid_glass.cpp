#include "materials/stock/laid_glass.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "materials/colour/ciede2000.h"
#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/stock/face_on.h"

namespace rakelight {
namespace {

constexpr int kScan = 20;
constexpr double kExact_mm = 0.01;

class Layer {
  public:
    explicit Layer(const LaidGlassQuestion& question) : q_(question) {
        if (q_.glass.opaque || q_.glass.backed)
            throw std::invalid_argument(q_.glass.name + " is opaque: neither thickness nor bed changes it");
        const auto spectrum = find_illuminant(q_.light);
        if (!spectrum) throw std::invalid_argument("no illuminant is called " + q_.light);
        if (q_.beds.empty()) throw std::invalid_argument("there is no bed to lay on");
        weights_ = tristimulus_weights(*spectrum);
        const auto white = integrate(weights_, SampledSpectrum(1));
        white_ = {white[0], white[1], white[2]};
    }

    LaidGlass laid(const Bed& bed, double thickness_mm) {
        const auto seen =
            integrate(weights_, face_on_reflectance(q_.glass, thickness_mm, bed.reflectance, 1, faces_));
        LaidGlass r{bed.name, thickness_mm, xyz_to_lab({seen[0], seen[1], seen[2]}, white_), 0};
        r.off = q_.lab ? ciede2000(r.lab, *q_.lab) : std::abs(r.lab.l - q_.lightness);
        return r;
    }

    LaidGlass best(const Bed& bed) {
        if (q_.fixed_mm) return laid(bed, *q_.fixed_mm);
        const double step = std::log(q_.most_mm / q_.least_mm) / kScan;
        LaidGlass best = laid(bed, q_.least_mm);
        for (int i = 1; i <= kScan; ++i) {
            LaidGlass each = laid(bed, q_.least_mm * std::exp(i * step));
            if (each.off < best.off) best = each;
        }
        return refined(bed, std::max(q_.least_mm, best.thickness_mm * std::exp(-step)),
                       std::min(q_.most_mm, best.thickness_mm * std::exp(step)), best);
    }

  private:
    LaidGlass refined(const Bed& bed, double low, double high, LaidGlass best) {
        const double golden = (std::sqrt(5.0) - 1) / 2;
        LaidGlass a = laid(bed, high - golden * (high - low)), b = laid(bed, low + golden * (high - low));
        while (high - low > kExact_mm) {
            if (a.off < b.off) {
                high = b.thickness_mm, b = a;
                a = laid(bed, high - golden * (high - low));
            } else {
                low = a.thickness_mm, a = b;
                b = laid(bed, low + golden * (high - low));
            }
        }
        for (const LaidGlass& each : {a, b})
            if (each.off < best.off) best = each;
        return best;
    }

    const LaidGlassQuestion& q_;
    TristimulusWeights weights_;
    Xyz white_;
    InterfaceTables faces_;
};

}  // namespace

std::vector<LaidGlass> ways_to_lay(const LaidGlassQuestion& question) {
    Layer layer(question);
    std::vector<LaidGlass> ways;
    for (const Bed& bed : question.beds) {
        question.pause();
        ways.push_back(layer.best(bed));
    }
    std::stable_sort(ways.begin(), ways.end(),
                     [](const LaidGlass& a, const LaidGlass& b) { return a.off < b.off; });
    return ways;
}

}  // namespace rakelight
