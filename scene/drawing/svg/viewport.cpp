#include "scene/drawing/svg/viewport.h"

#include <2geom/transforms.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "scene/drawing/svg/number.h"

namespace rakelight {
namespace {

constexpr double kRadPerDeg = std::numbers::pi / 180;

std::optional<Geom::Affine> one_transform(std::string_view kind, const std::vector<double>& v) {
    const std::size_t n = v.size();
    if (kind == "matrix" && n == 6) return Geom::Affine(v[0], v[1], v[2], v[3], v[4], v[5]);
    if (kind == "translate" && (n == 1 || n == 2)) return Geom::Affine(1, 0, 0, 1, v[0], n == 2 ? v[1] : 0);
    if (kind == "scale" && (n == 1 || n == 2)) return Geom::Affine(v[0], 0, 0, v[n - 1], 0, 0);
    if (kind == "skewX" && n == 1) return Geom::Affine(1, 0, std::tan(v[0] * kRadPerDeg), 1, 0, 0);
    if (kind == "skewY" && n == 1) return Geom::Affine(1, std::tan(v[0] * kRadPerDeg), 0, 1, 0, 0);
    if (kind == "rotate" && (n == 1 || n == 3)) {
        const double c = std::cos(v[0] * kRadPerDeg), s = std::sin(v[0] * kRadPerDeg);
        const double x = n == 3 ? v[1] : 0, y = n == 3 ? v[2] : 0;
        return Geom::Affine(c, s, -s, c, x - c * x + s * y, y - s * x - c * y);
    }
    return std::nullopt;
}

}  // namespace

std::optional<Geom::Affine> read_svg_transform(std::string_view text) {
    // The first of a list is the outermost: its axes are the ones that the next is told in.
    Geom::Affine whole;
    for (text = svg_trimmed(text); !text.empty();) {
        const std::size_t open = text.find('('), close = text.find(')');
        if (open == text.npos || close == text.npos || close < open) return std::nullopt;
        const auto numbers = read_svg_numbers(text.substr(open + 1, close - open - 1));
        if (!numbers) return std::nullopt;
        const auto one = one_transform(svg_trimmed(text.substr(0, open)), *numbers);
        if (!one) return std::nullopt;
        whole = *one * whole;
        text = svg_trimmed(text.substr(close + 1));
        if (text.starts_with(',')) text = svg_trimmed(text.substr(1));
    }
    return whole;
}

std::optional<Geom::Rect> read_svg_view_box(std::string_view text) {
    const auto v = read_svg_numbers(text);
    if (!v || v->size() != 4 || !((*v)[2] > 0) || !((*v)[3] > 0)) return std::nullopt;
    return Geom::Rect::from_xywh((*v)[0], (*v)[1], (*v)[2], (*v)[3]);
}

Geom::Affine fit_view_box(const Geom::Rect& view_box, const Geom::Rect& viewport, std::string_view preserve) {
    double sx = viewport.width() / view_box.width(), sy = viewport.height() / view_box.height();
    double share_x = 0.5, share_y = 0.5;  // of the room left over that comes before the picture
    preserve = svg_trimmed(preserve);
    if (preserve.starts_with("defer")) preserve = svg_trimmed(preserve.substr(5));
    const std::string_view align = preserve.substr(0, preserve.find(' '));
    const bool slice =
        preserve.size() > align.size() && svg_trimmed(preserve.substr(align.size())) == "slice";
    if (align == "none")
        return Geom::Affine(sx, 0, 0, sy, viewport.left() - sx * view_box.left(),
                            viewport.top() - sy * view_box.top());
    if (align.size() == 8 && align[0] == 'x' && align[4] == 'Y') {
        const auto share = [](std::string_view where) {
            return where == "Min" ? 0.0 : where == "Max" ? 1.0 : 0.5;
        };
        share_x = share(align.substr(1, 3));
        share_y = share(align.substr(5, 3));
    }
    sx = sy = slice ? std::max(sx, sy) : std::min(sx, sy);
    const double x = viewport.left() + share_x * (viewport.width() - sx * view_box.width());
    const double y = viewport.top() + share_y * (viewport.height() - sy * view_box.height());
    return Geom::Affine(sx, 0, 0, sy, x - sx * view_box.left(), y - sy * view_box.top());
}

}  // namespace rakelight
