#include "output/take_off/reckoning/grout_batch.h"

#include <algorithm>
#include <cmath>

namespace rakelight {

double usual_spare_g(double net_g) {
    return std::clamp(5 * std::ceil(0.1 * net_g / 5 - 1e-9), 25.0, 250.0);
}

Batch make_batch(double volume_mm3, const Recipe& recipe, const BatchWishes& wishes) {
    Batch b;
    const Base& base = recipe.base;
    b.epoxy = base.kind == Kind::epoxy;
    b.net_g = volume_mm3 / 1000 * base.weighed_g_per_cm3;
    if (b.net_g <= 0) return b;
    const double wanted = b.net_g * (1 + wishes.waste);
    b.mix_g = std::max(kLeastBatch_g, kBatchStep_g * std::ceil(wanted / kBatchStep_g - 1e-9));
    b.spare_g = b.epoxy ? 0 : wishes.spare_g;
    b.total_g = b.mix_g + b.spare_g;
    b.water_g = b.epoxy ? 0 : b.mix_g * wishes.water;
    b.cement_g = b.total_g * base.binder_share;
    for (const Dose& dose : recipe.doses) {
        const double grams = std::round(10 * dose.share * b.cement_g) / 10;
        if (grams > 0) b.pigments.push_back({dose.pigment.name, dose.pigment.usual_name, grams});
        b.pigment_share += dose.share;
    }
    b.pots = static_cast<int>(std::ceil(b.mix_g / (b.epoxy ? kEpoxyPot_g : wishes.most_batch_g) - 1e-9));
    return b;
}

}  // namespace rakelight
