#include "scene/drawing/svg/number.h"

#include <charconv>
#include <cmath>

namespace rakelight {
namespace {

constexpr std::string_view kSpace = " \t\r\n";

void skip_space(std::string_view& text) {
    text.remove_prefix(std::min(text.find_first_not_of(kSpace), text.size()));
}

}  // namespace

std::string_view svg_trimmed(std::string_view text) {
    skip_space(text);
    return text.substr(0, text.find_last_not_of(kSpace) + 1);
}

std::optional<double> take_svg_number(std::string_view& text) {
    std::string_view rest = text;
    skip_space(rest);
    const bool plus = rest.starts_with('+');
    if (plus) rest.remove_prefix(1);
    // The library would also take "inf" and "nan".
    const auto first = rest.find_first_not_of(!plus && rest.starts_with('-') ? "-" : "");
    if (first > 1 || first == rest.npos ||
        !(rest[first] == '.' || (rest[first] >= '0' && rest[first] <= '9')))
        return std::nullopt;
    double value = 0;
    const auto [end, error] = std::from_chars(rest.data(), rest.data() + rest.size(), value);
    if (error != std::errc{} || !std::isfinite(value)) return std::nullopt;
    rest.remove_prefix(static_cast<std::size_t>(end - rest.data()));
    skip_space(rest);
    if (rest.starts_with(',')) rest.remove_prefix(1);
    text = rest;
    return value;
}

std::optional<std::vector<double>> read_svg_numbers(std::string_view text) {
    std::vector<double> numbers;
    for (text = svg_trimmed(text); !text.empty(); text = svg_trimmed(text)) {
        const auto number = take_svg_number(text);
        if (!number) return std::nullopt;
        numbers.push_back(*number);
    }
    return numbers;
}

std::optional<double> read_svg_length_px(std::string_view text) {
    const auto number = take_svg_number(text);
    if (!number) return std::nullopt;
    const std::string_view unit = svg_trimmed(text);
    constexpr struct {
        std::string_view name;
        double px;
    } kUnits[] = {{"", 1},    {"px", 1},         {"mm", 96 / 25.4}, {"cm", 96 / 2.54},
                  {"in", 96}, {"pt", 96.0 / 72}, {"pc", 16}};
    for (const auto& each : kUnits)
        if (each.name == unit) return *number * each.px;
    return std::nullopt;
}

std::string svg_property(const pugi::xml_node& element, std::string_view name) {
    std::string_view style = element.attribute("style").value();
    std::string_view found;
    bool given = false;
    while (!style.empty()) {
        const std::size_t end = std::min(style.find(';'), style.size());
        const std::string_view declaration = style.substr(0, end);
        style.remove_prefix(std::min(end + 1, style.size()));
        const std::size_t colon = declaration.find(':');
        if (colon == declaration.npos || svg_trimmed(declaration.substr(0, colon)) != name) continue;
        found = declaration.substr(colon + 1);
        found = svg_trimmed(found.substr(0, found.find('!')));
        given = true;
    }
    if (given) return std::string(found);
    return std::string(svg_trimmed(element.attribute(std::string(name).c_str()).value()));
}

}  // namespace rakelight
