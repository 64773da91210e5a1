#include "scene/reading/field/corners.h"

#include <fmt/format.h>

#include "scene/text/yaml_reader.h"

namespace rakelight {
namespace {

using Corners = std::array<glm::dvec2, 4>;

/// Clockwise as a picture shows it, without a corner that bends in (y down).
bool go_round(const Corners& c) {
    for (std::size_t i = 0; i < 4; ++i) {
        const glm::dvec2 a = c[(i + 1) % 4] - c[i], b = c[(i + 2) % 4] - c[(i + 1) % 4];
        if (!(a.x * b.y - a.y * b.x > 1e-6)) return false;
    }
    return true;
}

}  // namespace

std::optional<Corners> read_corners(Section& in, std::string_view or_else) {
    const YamlValue* value = in.find("corners");
    if (!value) return {};
    if (value->shape != YamlValue::Shape::list || value->items.size() != 4) {
        in.problem("corners",
                   fmt::format("found {}, expected four corners [x, y] in pixels{}", found(*value), or_else));
        return {};
    }
    Corners corners;
    for (std::size_t i = 0; i < 4; ++i) {
        std::array<double, 2> xy{};
        if (!read_numbers(xy, value->items[i], fmt::format("{}[{}]", in.path("corners"), i + 1),
                          Quantity::plain, {-100'000, 100'000}, in.problems()))
            return {};
        corners[i] = {xy[0], xy[1]};
    }
    if (go_round(corners)) return corners;
    in.problem(
        "corners",
        "found corners that cross over, are out of order or go round no quadrilateral that bulges outwards, "
        "expected upper left, upper right, lower right, lower left");
    return {};
}

}  // namespace rakelight
