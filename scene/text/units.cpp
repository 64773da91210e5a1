#include "scene/text/units.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <numbers>
#include <optional>
#include <vector>

#include "scene/text/nearest_word.h"

namespace rakelight {
namespace {

enum class Dimension { none, ratio, length, mass, temperature, angle, flux, intensity, illuminance };

/// value in the base unit (1, mm, g, K, deg, lm, cd) = number * factor + offset
struct Unit {
    std::string_view name;
    Dimension dimension;
    double factor;
    double offset = 0;
    bool listed = true;  ///< named in messages; the rest are other spellings
};

constexpr double kZeroCelsius_k = 273.15;
constexpr double kPound_g = 453.59237;
constexpr double kZeroFahrenheit_k = kZeroCelsius_k - 32 / 1.8;
constexpr double kRadian_deg = 180 / std::numbers::pi;

using enum Dimension;
constexpr std::array kUnits{
    Unit{"%", ratio, 0.01},
    Unit{"mm", length, 1},
    Unit{"cm", length, 10},
    Unit{"m", length, 1000},
    Unit{"in", length, 25.4},
    Unit{"ft", length, 304.8},
    Unit{"inch", length, 25.4, 0, false},
    Unit{"inches", length, 25.4, 0, false},
    Unit{"feet", length, 304.8, 0, false},
    Unit{"g", mass, 1},
    Unit{"kg", mass, 1000},
    Unit{"oz", mass, kPound_g / 16},
    Unit{"lb", mass, kPound_g},
    Unit{"K", temperature, 1},
    Unit{"C", temperature, 1, kZeroCelsius_k},
    Unit{"F", temperature, 1 / 1.8, kZeroFahrenheit_k},
    Unit{"°C", temperature, 1, kZeroCelsius_k, false},
    Unit{"°F", temperature, 1 / 1.8, kZeroFahrenheit_k, false},
    Unit{"deg", angle, 1},
    Unit{"rad", angle, kRadian_deg},
    Unit{"°", angle, 1, 0, false},
    Unit{"lm", flux, 1},
    Unit{"cd", intensity, 1},
    Unit{"lx", illuminance, 1},
    Unit{"lux", illuminance, 1, 0, false},
    Unit{"klx", illuminance, 1000},
};

/// How a quantity is kept: kept value = base value - offset.
struct Kept {
    Dimension dimension;
    std::string_view noun;
    std::string_view suffix;
    double offset = 0;
};

Kept kept(Quantity quantity) {
    switch (quantity) {
        case Quantity::plain:
            return {none, "a number without a unit", ""};
        case Quantity::share:
            return {ratio, "a share", ""};
        case Quantity::length_mm:
            return {length, "a length", " mm"};
        case Quantity::mass_g:
            return {mass, "a mass", " g"};
        case Quantity::temperature_k:
            return {temperature, "a temperature", " K"};
        case Quantity::temperature_c:
            return {temperature, "a temperature", " C", kZeroCelsius_k};
        case Quantity::angle_deg:
            return {angle, "an angle", " deg"};
        case Quantity::flux_lm:
            return {flux, "a luminous flux", " lm"};
        case Quantity::intensity_cd:
            return {intensity, "a luminous intensity", " cd"};
        case Quantity::illuminance_lx:
            return {illuminance, "an illuminance", " lx"};
    }
    return {none, "a number", ""};
}

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(" \t");
    if (first == text.npos) return {};
    return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

std::vector<std::string> unit_names(Dimension dimension, bool only_listed) {
    std::vector<std::string> names;
    for (const Unit& unit : kUnits)
        if (unit.dimension == dimension && (unit.listed || !only_listed)) names.emplace_back(unit.name);
    return names;
}

/// The number at the front of the text; `text` is left with the rest.
std::optional<double> take_number(std::string_view& text) {
    std::string_view digits = text;
    if (digits.starts_with('+')) digits.remove_prefix(1);
    // from_chars would also read words such as "nan" and "infinity".
    const auto start = digits.find_first_not_of('-');
    if (start == digits.npos || start > 1 ||
        (digits[start] != '.' && (digits[start] < '0' || digits[start] > '9')))
        return std::nullopt;
    if (digits.data() != text.data() && start > 0) return std::nullopt;
    double value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (error != std::errc() || !std::isfinite(value)) return std::nullopt;
    text = std::string_view(end, static_cast<size_t>(digits.data() + digits.size() - end));
    return value;
}

/// Whole digits at the front of the text; `text` is left with the rest.
std::optional<double> take_whole(std::string_view& text) {
    const std::size_t end = std::min(text.find_first_not_of("0123456789"), text.size());
    if (end == 0 || end > 6) return std::nullopt;
    int value = 0;
    std::from_chars(text.data(), text.data() + end, value);
    text.remove_prefix(end);
    return value;
}

/// "3/8", "1 3/8" or "1-3/8", as on a rule in inches, at the front of the text.
std::optional<double> take_fraction(std::string_view& text) {
    std::string_view rest = text;
    const auto first = take_whole(rest);
    if (!first || rest.empty()) return std::nullopt;
    double whole = 0, over = *first;
    if (rest.front() == ' ' || rest.front() == '-') {
        rest.remove_prefix(1);
        const auto second = take_whole(rest);
        if (!second) return std::nullopt;
        whole = *first;
        over = *second;
    }
    if (!rest.starts_with('/')) return std::nullopt;
    rest.remove_prefix(1);
    const auto under = take_whole(rest);
    if (!under || *under == 0 || over >= *under * (whole > 0 ? 1 : 1e6)) return std::nullopt;
    text = rest;
    return whole + over / *under;
}

}  // namespace

Measure read_measure(std::string_view text, Quantity quantity) {
    const Kept as = kept(quantity);
    const auto problem = [&](std::string hint = "") {
        return Measure{0, "found " + quoted(text) + ", expected " + describe(quantity) + hint};
    };
    std::string_view rest = trimmed(text);
    auto number = take_fraction(rest);
    if (!number) number = take_number(rest);
    if (!number) return problem();
    const std::string_view name = trimmed(rest);
    if (name.empty()) return {*number, ""};

    const auto unit =
        std::find_if(kUnits.begin(), kUnits.end(), [&](const Unit& u) { return u.name == name; });
    if (unit == kUnits.end()) {
        if (rest.front() == ',' && name.size() > 1 && std::isdigit(static_cast<unsigned char>(name[1])))
            return problem("; write decimals with a point");
        const std::string near = did_you_mean(name, unit_names(as.dimension, false));
        return problem(near);
    }
    if (unit->dimension != as.dimension) return problem();
    // A share keeps the quotient itself, so that 20 % is the very number 0.2.
    if (as.dimension == ratio) return {*number / 100, ""};
    const double value = *number * unit->factor + (unit->offset - as.offset);
    if (!std::isfinite(value)) return problem();
    return {value, ""};
}

std::string describe(Quantity quantity) {
    const Kept as = kept(quantity);
    if (as.dimension == none) return std::string(as.noun);
    if (as.dimension == ratio) return "a share (0.2 or 20 %)";
    return fmt::format("{} ({})", as.noun, fmt::join(unit_names(as.dimension, true), ", "));
}

std::string measure_pattern(Quantity quantity) {
    const std::vector<std::string> units = unit_names(kept(quantity).dimension, false);
    return fmt::format(
        "^[ \\t]*([+-]?([0-9]+[.]?[0-9]*|[.][0-9]+)([eE][+-]?[0-9]+)?|"
        "([0-9]{{1,6}}[ -])?[0-9]{{1,6}}/[1-9][0-9]{{0,5}})[ \\t]*{}$",
        units.empty() ? "" : fmt::format("({})?[ \\t]*", fmt::join(units, "|")));
}

std::string_view unit_suffix(Quantity quantity) {
    return kept(quantity).suffix;
}

std::string printable(std::string_view text) {
    constexpr size_t kLongest = 40;
    std::string result;
    for (const char c : text.substr(0, kLongest))
        result += static_cast<unsigned char>(c) < 0x20 || c == 0x7f ? '?' : c;
    return result + (text.size() > kLongest ? "..." : "");
}

std::string quoted(std::string_view text) {
    return '"' + printable(text) + '"';
}

std::string number_text(double value) {
    return fmt::format("{:.10g}", value);
}

}  // namespace rakelight
