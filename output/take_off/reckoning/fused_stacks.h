// Sheet glass that goes into the kiln for a shade of fused glass: what to cut of each sheet of its stack, so
// that after firing there is enough. A free stack over 6 mm spreads to 6 mm and keeps its volume
// (glass_stack.h), so that less has to be cut than comes out.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "materials/optics/material.h"
#include "materials/stock/glass_stack.h"
#include "output/take_off/reckoning/purchase.h"

namespace rakelight {

struct Sources;

struct StackLayer {
    std::string glass;
    double thickness_mm = 0;
};

struct FusedStack {
    std::vector<StackLayer> layers;  ///< face first
    FusedSize fired;
};

/// Stacks in the `stock` of a layout file, by name; those `like` one that is a stack too.
std::map<std::string, FusedStack> stacks_in(const Sources& sources);

/// What to cut for one material, of each layer alike.
struct Fusing {
    std::uint32_t material = 0;  ///< index in Layout::stock
    FusedStack stack;
    double fired_mm2 = 0;  ///< that is bought of it: what has to come out of the kiln
    double cut_mm2 = 0;    ///< of each layer, before firing
    int sheets = 0;        ///< whole ones, of each layer
};

std::vector<Fusing> fusings(const std::vector<Material>& stock, const std::vector<Purchase>& purchases,
                            const std::map<std::string, FusedStack>& stacks);

}  // namespace rakelight
