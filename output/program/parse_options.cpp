#include "output/program/parse_options.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <charconv>
#include <optional>

#include "output/system/errors.h"
#include "output/system/file_names.h"
#include "scene/model/layout.h"
#include "scene/text/nearest_word.h"
#include "scene/text/units.h"
#include "scene/text/word_list.h"

namespace rakelight {

namespace {

constexpr int kLeastSide_px = 16;
constexpr int kMostSide_px = 16384;

template <class Number>
std::optional<Number> number(std::string_view text) {
    Number value{};
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    return value;
}

// Two whole numbers with `between` in the middle.
std::optional<glm::ivec2> two_numbers(std::string_view text, char between) {
    const std::size_t at = text.find(between);
    if (at == std::string_view::npos) return std::nullopt;
    const auto a = number<int>(text.substr(0, at));
    const auto b = number<int>(text.substr(at + 1));
    if (!a || !b) return std::nullopt;
    return glm::ivec2(*a, *b);
}

}  // namespace

void check_words(std::string_view option, std::span<const std::string> words,
                 const std::vector<std::string>& known) {
    for (const std::string& word : words)
        if (!holds(known, word))
            throw RequestError(fmt::format("{}: found {}, expected {}{}", option, rakelight::quoted(word),
                                           fmt::join(known, ", "), did_you_mean(word, known)));
}

double parse_grain(std::string_view text) {
    std::string_view digits = text;
    const bool percent = digits.ends_with('%');
    if (percent) digits.remove_suffix(1);
    while (digits.ends_with(' ')) digits.remove_suffix(1);
    const auto value = number<double>(digits);
    const double share = value.value_or(0) / (percent ? 100 : 1);
    if (!value || !(share > 0 && share < 1))
        throw RequestError(
            fmt::format("--grain: found {}, expected a share such as 2% or 0.02", rakelight::quoted(text)));
    return share;
}

namespace {

glm::ivec2 two_sides(std::string_view option, std::string_view text, std::string_view unit,
                     std::string_view example) {
    const auto size = two_numbers(text, 'x');
    const auto fits = [](int side) { return side >= kLeastSide_px && side <= kMostSide_px; };
    if (!size || !fits(size->x) || !fits(size->y))
        throw RequestError(
            fmt::format("{}: found {}, expected width x height in {}, each {} to {}, such as {}", option,
                        rakelight::quoted(text), unit, kLeastSide_px, kMostSide_px, example));
    return *size;
}

}  // namespace

glm::ivec2 parse_size(std::string_view text) {
    return two_sides("--size", text, "pixels", "1200x900");
}

glm::ivec2 parse_slab(std::string_view text) {
    return two_sides("--slab", text, "mm", "600x400");
}

RowRange parse_rows(std::string_view text, int height_px) {
    const auto ends = two_numbers(text, '-');
    if (!ends || ends->x < 1 || ends->y < ends->x || ends->y > height_px)
        throw RequestError(
            fmt::format("--rows: found {}, expected first-last within 1-{}, counted from the top",
                        rakelight::quoted(text), height_px));
    return {ends->x - 1, ends->y};
}

Part parse_part(std::string_view text) {
    const auto part = two_numbers(text, '/');
    if (!part || part->y < 1 || part->x < 1 || part->x > part->y)
        throw RequestError(fmt::format("{}: found {}, expected for example 2/4, the second of four",
                                       kPartOption, rakelight::quoted(text)));
    return {part->x, part->y};
}

RowRange rows_of_part(const Part& part, int height_px) {
    if (part.of > height_px)
        throw RequestError(fmt::format("{}: found {} parts, expected at most {}, the rows of the picture",
                                       kPartOption, part.of, height_px));
    const auto edge = [&](int k) { return static_cast<int>(std::int64_t{height_px} * k / part.of); };
    return {edge(part.which - 1), edge(part.which)};
}

std::vector<Picture> choose_pictures(const Layout& layout, std::span<const std::string> names) {
    std::vector<std::string> known;
    for (const Picture& picture : layout.views.pictures) known.push_back(picture.name);
    std::vector<std::string> wanted(names.begin(), names.end());
    if (wanted.empty()) wanted = known;

    std::vector<Picture> chosen;
    for (const std::string& name : wanted) {
        const auto at = std::find(known.begin(), known.end(), name);
        if (at == known.end()) {
            const auto near = nearest_word(name, known);
            throw RequestError(fmt::format("{} has no picture called {}; {}", layout.sources.path, name,
                                           near ? fmt::format("did you mean {}?", *near)
                                                : fmt::format("it has: {}", fmt::join(known, ", "))));
        }
        const Picture& picture = layout.views.pictures[static_cast<std::size_t>(at - known.begin())];
        const auto same = [](const auto& value) { return [&](const Picture& p) { return p.name == value; }; };
        if (std::any_of(chosen.begin(), chosen.end(), same(name))) continue;
        chosen.push_back(picture);
    }
    std::vector<std::string> chosen_names;
    for (const Picture& picture : chosen) chosen_names.push_back(picture.name);
    check_picture_names(chosen_names);
    return chosen;
}

}  // namespace rakelight
