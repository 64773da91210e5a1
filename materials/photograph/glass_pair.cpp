#include "materials/photograph/glass_pair.h"

#include <cmath>
#include <stdexcept>

#include "materials/optics/interface_table.h"
#include "materials/optics/layer.h"

namespace rakelight {

namespace {

constexpr double kMostScattering = 20;                        // per mm, as the key `milkiness` takes
constexpr double kMostAbsorption_times_mm = 13.815510557964;  // -log(1e-6)

struct Bench {
    const GlassPair& pair;
    InterfaceTables tables;
    LayerFrame frame;
    double passed = 1;  // by the face, of light that comes or goes square on

    explicit Bench(const GlassPair& p) : pair(p) {
        const InterfaceTable* face = p.index > 1 ? &tables.get(static_cast<float>(p.index), 0) : nullptr;
        frame = make_layer_frame(face);
        passed = face ? 1 - static_cast<double>(face->albedo(1)) : 1;
    }

    /// Seen square on, lit from everywhere.
    double seen(double absorption, double scattering, double card) const {
        return passed * layer_albedo(frame, {absorption, scattering, pair.thickness_mm, card}).back();
    }

    /// Absorption that makes one band look as it does over white; more light than there can be is clear.
    double absorption(int band, double scattering) const {
        double low = 0, high = kMostAbsorption_times_mm / pair.thickness_mm;
        const auto card = static_cast<double>(pair.white_card[band]);
        const auto wanted = static_cast<double>(pair.over_white[band]);
        for (int i = 0; i < 30; ++i) {
            const double middle = (low + high) / 2;
            (seen(middle, scattering, card) > wanted ? low : high) = middle;
        }
        return (low + high) / 2;
    }

    /// By how much the glass would look lighter over black than it does, in the mean of bands.
    double too_milky(double scattering) const {
        double sum = 0;
        for (int b = 0; b < kBandCount; ++b)
            sum += seen(absorption(b, scattering), scattering, static_cast<double>(pair.black_card[b])) -
                   static_cast<double>(pair.over_black[b]);
        return sum;
    }

    GlassOfPair glass(double milkiness) const {
        GlassOfPair g;
        g.milkiness = milkiness;
        for (int b = 0; b < kBandCount; ++b)
            g.transmittance[b] = static_cast<float>(std::exp(-absorption(b, milkiness) * pair.thickness_mm));
        return g;
    }
};

}  // namespace

GlassOfPair glass_of_pair(const GlassPair& pair) {
    if (!(pair.thickness_mm > 0)) throw std::invalid_argument("the thickness must be above 0");
    if (mean(pair.over_black) > mean(pair.over_white))
        throw std::invalid_argument("the glass looks brighter over black than over white");
    const Bench bench(pair);
    double low = 0, high = 0;
    if (bench.too_milky(0) < 0) {
        for (high = 0.01; high < kMostScattering && bench.too_milky(high) < 0; high *= 4) low = high;
        for (int i = 0; i < 20; ++i) {
            const double middle = (low + high) / 2;
            (bench.too_milky(middle) < 0 ? low : high) = middle;
        }
    }
    return bench.glass(std::min(kMostScattering, (low + high) / 2));
}

GlassOfPair glass_of_white(const GlassPair& pair, double milkiness) {
    if (!(pair.thickness_mm > 0)) throw std::invalid_argument("the thickness must be above 0");
    return Bench(pair).glass(milkiness);
}

}  // namespace rakelight
