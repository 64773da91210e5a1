#include "output/take_off/reckoning/day_plan.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "scene/model/layout.h"

namespace rakelight {

namespace {

bool has_bed(const Layout& layout, Kind kind) {
    return std::any_of(layout.fields.begin(), layout.fields.end(),
                       [&](const Field& f) { return layout.tints[f.bed].kind == kind; });
}

}  // namespace

std::vector<PlanStep> day_plan(const Layout& layout, const std::vector<GroutZone>& zones,
                               const std::vector<std::size_t>& order,
                               const std::vector<std::string>& pre_seal) {
    std::vector<PlanStep> plan;
    const bool cement_bed = has_bed(layout, Kind::cement), epoxy_bed = has_bed(layout, Kind::epoxy);
    int first = 1, unhurried = cement_bed ? 2 : 1;
    plan.push_back({0, 0, "The bed cures",
                    cement_bed && epoxy_bed ? "cement 24 to 48 h, epoxy 16 to 24 h; no grout before"
                    : cement_bed            ? "cement: 24 to 48 h; no grout before"
                                            : "epoxy: 16 to 24 h; no grout before",
                    -1});
    if (!pre_seal.empty()) {
        plan.push_back({first, unhurried, "Pre-seal or wax open pores",
                        fmt::format("{}: 2 coats, 1 to 24 h", fmt::join(pre_seal, ", ")), -1});
        ++unhurried;
    }
    for (std::size_t k = 0; k < order.size(); ++k) {
        const GroutZone& zone = zones[order[k]];
        const char* cure = zone.traits.epoxy ? "24 h" : "24 h at least, 48 to 72 h better";
        plan.push_back(
            {first + static_cast<int>(k), unhurried + 2 * static_cast<int>(k),
             fmt::format("Zone {}: {}", k + 1, zone.name),
             fmt::format("mask; spread, pack, first wipe 15 to 30 min; cut the edge at 30 to 60 min, "
                         "thumb-hard; tape off at 1 to 3 h; before tape goes over it {}",
                         cure),
             static_cast<int>(order[k])});
    }
    if (order.empty()) return plan;
    const int last_first = first + static_cast<int>(order.size()) - 1,
              last_unhurried = unhurried + 2 * (static_cast<int>(order.size()) - 1);
    plan.push_back({last_first + 1, last_unhurried + 1, "Wash, buff the haze off glass",
                    "24 h after the last zone; no acid on limestone, marble or leaf", -1});
    plan.push_back(
        {last_first + 3, last_unhurried + 3, "Damp cure over", "24 to 72 h under plastic sheet", -1});
    plan.push_back(
        {last_first + 7, last_unhurried + 7, "First look at the colours", "7 days: indicative", -1});
    plan.push_back({last_first + 28, last_unhurried + 28, "Colours final; seal",
                    "28 days; sealer by its data sheet, 3 to 28 days", -1});
    return plan;
}

}  // namespace rakelight
