#include "scene/reading/stock/cost.h"

namespace rakelight {

void read_cost(Section& in, Cost& cost) {
    const YamlValue* value = in.find("cost");
    if (!value) return;
    constexpr std::string_view kPer = " per ";
    constexpr double kMost = 1e6;
    const std::size_t per = value->text.find(kPer);
    const std::string unit = per == std::string::npos ? "" : value->text.substr(per + kPer.size());
    const Measure amount = read_measure(value->text.substr(0, per), Quantity::plain);
    if (value->shape != YamlValue::Shape::scalar || (unit != "kg" && unit != "m2") || !amount.ok() ||
        !(amount.value >= 0 && amount.value <= kMost)) {
        in.problem("cost", "found " + found(*value) +
                               ", expected a number and a measure, as in 38 per kg or 120 per m2");
        return;
    }
    cost = {amount.value, unit == "kg" ? Cost::Per::kg : Cost::Per::m2};
}

}  // namespace rakelight
