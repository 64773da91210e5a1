#include "output/take_off/reckoning/fused_stacks.h"

#include <cmath>

#include "scene/keys/keys.h"
#include "scene/model/layout.h"
#include "scene/reading/said_by_entries.h"
#include "scene/text/layout_tree.h"

namespace rakelight {

namespace {

FusedStack read_layers(Section& in) {
    FusedStack stack;
    double stacked_mm = 0;
    for_each_item(in, "stack", [&](Section& item) {
        StackLayer layer;
        item.set(layer.glass, "glass");
        item.set(layer.thickness_mm, "thickness");
        stacked_mm += layer.thickness_mm;
        stack.layers.push_back(std::move(layer));
    });
    std::string firing;
    in.set(firing, "firing");
    stack.fired = fused_size(stacked_mm, firing == "dammed" ? Firing::dammed : Firing::free);
    return stack;
}

}  // namespace

std::map<std::string, FusedStack> stacks_in(const Sources& sources) {
    ProblemList unused(sources.path);  // the layout was read before: what is wrong has been said
    Section file(sources.tree->root, "", keys::layout, unused);
    return said_by_entries<FusedStack>(file, "stock", "stack", "thickness",
                                       [](Section& in) { return std::optional(read_layers(in)); });
}

std::vector<Fusing> fusings(const std::vector<Material>& stock, const std::vector<Purchase>& purchases,
                            const std::map<std::string, FusedStack>& stacks) {
    std::vector<Fusing> out;
    for (const Purchase& p : purchases) {
        const auto stack = stacks.find(stock[p.material].name);
        if (stack == stacks.end()) continue;
        Fusing f;
        f.material = p.material;
        f.stack = stack->second;
        f.fired_mm2 = p.bought_mm2;
        f.cut_mm2 = p.bought_mm2 / f.stack.fired.area_growth;
        if (p.by_sheet)
            f.sheets = static_cast<int>(std::ceil(f.cut_mm2 / (p.sheet_mm.x * p.sheet_mm.y) - 1e-9));
        out.push_back(std::move(f));
    }
    return out;
}

}  // namespace rakelight
