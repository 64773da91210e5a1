// From a volume of joint to what is weighed: powder with waste, rounded up, water, pigment to a tenth of a
// gram, dry mix kept for repairs. Figures are common practice, no published source; pigment caps are those of
// recipe.h.
#pragma once

#include <string>
#include <vector>

#include "materials/stock/recipe.h"

namespace rakelight {

/// Weighing to 1 % of less than this is not to be had on a kitchen scale.
inline constexpr double kLeastBatch_g = 150;
inline constexpr double kBatchStep_g = 50;
/// More resin than this in one pot runs hot; 100 to 250 g are worked at a time.
inline constexpr double kEpoxyPot_g = 250;

/// Dry mix kept for repairs where nobody said how much: a tenth of what the zone takes, in steps of 5 g, from
/// 25 to 250 g. Common practice, no published source.
double usual_spare_g(double net_g);

struct BatchWishes {
    double waste = 0.20;
    double spare_g = 250;
    double water = 0.25;  ///< of the powder; none in epoxy
    double most_batch_g = 2000;
};

struct PigmentGrams {
    std::string name;
    std::string usual_name;
    double grams = 0;  ///< for all of the powder or paste, spare included
};

struct Batch {
    bool epoxy = false;
    double net_g = 0;     ///< that stays in the joints: powder, or mixed resin
    double mix_g = 0;     ///< with waste, rounded up to 50 g, at least 150 g
    double spare_g = 0;   ///< dry, kept; of resin none
    double total_g = 0;   ///< blended at once, so that it is of one colour
    double water_g = 0;   ///< for what is mixed, not for the spare
    double cement_g = 0;  ///< that the pigment is counted on: cement, or resin with hardener
    std::vector<PigmentGrams> pigments;
    double pigment_share = 0;  ///< of `cement_g`
    int pots = 1;              ///< wetted or mixed one after the other
};

/// For joints of this volume, cured. The recipe's pigments are weighed for all of the powder or paste.
Batch make_batch(double volume_mm3, const Recipe& recipe, const BatchWishes& wishes);

}  // namespace rakelight
