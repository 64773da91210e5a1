#include "scene/drawing/svg/leftovers.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>
#include <utility>

#include "scene/text/diagnostics.h"

namespace rakelight {

std::string_view why_element_is_left_out(std::string_view name) {
    constexpr std::pair<std::string_view, std::string_view> kReasons[] = {
        {"defs", ""},
        {"desc", ""},
        {"metadata", ""},
        {"title", ""},
        {"symbol", ""},  // drawn where it is used
        {"view", ""},
        {"cursor", ""},
        {"text", "words are not laid; turn them into paths"},
        {"image", "pictures are not traced here; `map:` in the layout reads one"},
        {"style", "style sheets are not read, only attributes: what one hides is read as if shown"},
        {"clipPath", "nothing is clipped; shapes are read whole"},
        {"mask", "nothing is masked; shapes are read whole"},
        {"linearGradient", "colours come from the layout's mix"},
        {"radialGradient", "colours come from the layout's mix"},
        {"pattern", "colours come from the layout's mix"},
        {"filter", "effects have no outline"},
        {"marker", "the ends of lines are not laid"},
        {"script", "nothing in a drawing is run"},
        {"foreignObject", "it is not drawn in SVG"},
        {"animate", "a panel stands still"},
        {"animateTransform", "a panel stands still"},
        {"animateMotion", "a panel stands still"},
        {"set", "a panel stands still"},
    };
    for (const auto& [each, why] : kReasons)
        if (each == name) return why;
    return "it is not known";
}

void Leftovers::add(const Place& place, std::string what, std::string_view because) {
    Kind& kind = kinds_[std::move(what)];
    if (kind.count++ == 0) {
        kind.first = place;
        kind.because = because;
    }
}

std::vector<std::string> Leftovers::told() const {
    std::vector<std::pair<std::string, Kind>> sorted(kinds_.begin(), kinds_.end());
    std::stable_sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) {
        return std::tie(a.second.first.line, a.second.first.column) <
               std::tie(b.second.first.line, b.second.first.column);
    });
    std::vector<std::string> lines;
    for (const auto& [what, kind] : sorted)
        lines.push_back(to_string(
            {kind.first, what,
             fmt::format("left out{}, because {}", kind.count > 1 ? fmt::format(" {} times", kind.count) : "",
                         kind.because)}));
    return lines;
}

}  // namespace rakelight
