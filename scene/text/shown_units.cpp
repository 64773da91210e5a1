#include "scene/text/shown_units.h"

#include <fmt/format.h>

#include <cmath>

namespace rakelight {

namespace {

std::string in_inches(double mm) {
    const double inches = mm / kInch_mm;
    const double step = std::abs(inches) < 1 ? 1000 : 100;
    return fmt::format("{:.6g}", std::round(inches * step) / step);
}

}  // namespace

std::string shown_number(double mm, Units units) {
    return units == Units::inches ? in_inches(mm) : fmt::format("{:.6g}", mm);
}

const char* length_unit(Units units) {
    return units == Units::inches ? "in" : "mm";
}

std::string shown_length(double mm, Units units) {
    return fmt::format("{} {}", shown_number(mm, units), length_unit(units));
}

std::string shown_size(std::initializer_list<double> mm, Units units) {
    std::string text;
    for (const double each : mm) text += (text.empty() ? "" : " x ") + shown_number(each, units);
    return text + " " + length_unit(units);
}

std::string shown_rounded(double mm, Units units) {
    return units == Units::inches ? in_inches(mm) + " in" : fmt::format("{:.0f} mm", mm);
}

std::string shown_mass(double kg, Units units) {
    return units == Units::inches ? fmt::format("{:.1f} lb", kg / kPound_kg) : fmt::format("{:.1f} kg", kg);
}

}  // namespace rakelight
