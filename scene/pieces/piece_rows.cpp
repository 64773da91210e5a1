#include "scene/pieces/piece_rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "scene/model/form_words.h"
#include "scene/text/nearest_word.h"

namespace rakelight {

namespace {

constexpr Range kOnOrNearPanel_mm{-20'000, 20'000};
constexpr Range kSize_mm{0, 20'000};

constexpr std::array kNumbers{
    NumberColumn{"x_mm", &PieceRow::x_mm, kOnOrNearPanel_mm},
    NumberColumn{"y_mm", &PieceRow::y_mm, kOnOrNearPanel_mm},
    NumberColumn{"rotation_deg", &PieceRow::rotation_deg, {-360, 360}},
    NumberColumn{"length_mm", &PieceRow::length_mm, kSize_mm},
    NumberColumn{"width_mm", &PieceRow::width_mm, kSize_mm},
    NumberColumn{"thickness_mm", &PieceRow::thickness_mm, {0.1, 1000}},
    NumberColumn{"height_mm", &PieceRow::height_mm, {0, 1000}},
    NumberColumn{"tilt_x_deg", &PieceRow::tilt_x_deg, {-60, 60}},
    NumberColumn{"tilt_y_deg", &PieceRow::tilt_y_deg, {-60, 60}},
    NumberColumn{"dome_mm", &PieceRow::dome_mm, {0, 20}},
};

}  // namespace

std::span<const NumberColumn> number_columns() {
    return kNumbers;
}

const std::vector<std::string>& piece_columns() {
    static const std::vector<std::string> names{
        "id",           "field",     "number",   "material",     "form",      "x_mm",       "y_mm",
        "rotation_deg", "length_mm", "width_mm", "thickness_mm", "height_mm", "tilt_x_deg", "tilt_y_deg",
        "dome_mm",      "area_mm2",  "mass_g",   "seed",         "outline_mm"};
    return names;
}

std::string number_problem(const NumberColumn& column, double value) {
    if (value >= column.range.low && value <= column.range.high) return "";
    return fmt::format("found {}, expected {} to {}", value, column.range.low, column.range.high);
}

std::optional<std::uint64_t> seed_from(std::string_view text) {
    std::uint64_t seed = 0;
    if (!text.starts_with('s') || text.size() < 2) return std::nullopt;
    const auto [end, error] = std::from_chars(text.data() + 1, text.data() + text.size(), seed, 16);
    if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
    return seed;
}

std::string form_problem(const std::string& form) {
    const auto& forms = form_words();
    if (form.empty() || std::find(forms.begin(), forms.end(), form) != forms.end()) return "";
    return fmt::format("found {}, expected one of {}{}", rakelight::quoted(form), fmt::join(forms, ", "),
                       did_you_mean(form, forms));
}

}  // namespace rakelight
