// What to beware of in making, lifting and hanging this very panel. To be printed, not advice: data sheets,
// local codes and licensed practice win.
#pragma once

#include <string>
#include <vector>

#include "output/take_off/reckoning/hanging_load.h"
#include "output/take_off/reckoning/stone_anchors.h"
#include "output/take_off/reckoning/tint_recipes.h"

namespace rakelight {

struct Layout;

struct Caution {
    std::string about;
    std::string text;
};

std::vector<Caution> cautions(const Layout& layout, const Weighing& weighing, const HangingLoad& load,
                              const std::vector<StoneAnchor>& anchors,
                              const std::map<std::string, TintRecipe>& recipes);

}  // namespace rakelight
