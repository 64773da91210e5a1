#include "scene/text/shown_amounts.h"

#include <fmt/format.h>

namespace rakelight {

namespace {

bool inches(Units units) {
    return units == Units::inches;
}

}  // namespace

std::string area_unit(Units units) {
    return inches(units) ? "sq in" : "cm²";
}

std::string shown_area(double mm2, Units units, int decimals) {
    return fmt::format("{:.{}f}", mm2 / (inches(units) ? kInch_mm * kInch_mm : 100), decimals);
}

std::string small_mass_unit(Units units) {
    return inches(units) ? "oz" : "g";
}

std::string shown_small_mass(double g, Units units) {
    return fmt::format("{:.{}f}", g / (inches(units) ? 1000 * kPound_kg / 16 : 1), inches(units) ? 1 : 0);
}

}  // namespace rakelight
