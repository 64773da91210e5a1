#include "scene/drawing/svg/shapes.h"

#include <2geom/svg-path-parser.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <exception>
#include <vector>

#include "scene/drawing/svg/number.h"
#include "scene/text/units.h"

namespace rakelight {
namespace {

/// Lengths of one shape; remembers the first that could not be read.
class Lengths {
  public:
    explicit Lengths(const pugi::xml_node& element) : element_(element) {}

    double operator()(const char* name, double missing = 0) {
        const pugi::xml_attribute attribute = element_.attribute(name);
        if (!attribute) return missing;
        if (const auto px = read_svg_length_px(attribute.value())) return *px;
        if (problem.empty())
            problem = fmt::format("found {}={}, expected a number with px, mm, cm, in, pt, pc or no unit",
                                  name, quoted(attribute.value()));
        return missing;
    }
    bool has(const char* name) const {
        const std::string_view value = element_.attribute(name).value();
        return !value.empty() && value != "auto";
    }

    std::string problem;

  private:
    const pugi::xml_node& element_;
};

std::string negative(double value, std::string_view name) {
    return value < 0 ? fmt::format("found {}=\"{:g}\", expected no negative length", name, value) : "";
}

// The order of points and arcs is that of 9.2.
std::string draw_rect(const pugi::xml_node& element, Pen& pen) {
    Lengths length(element);
    const double x = length("x"), y = length("y"), w = length("width"), h = length("height");
    double rx = length.has("rx") ? length("rx") : length.has("ry") ? length("ry") : 0;
    double ry = length.has("ry") ? length("ry") : rx;
    for (const auto& [value, name] : {std::pair{w, "width"}, {h, "height"}, {rx, "rx"}, {ry, "ry"}})
        if (length.problem.empty()) length.problem = negative(value, name);
    if (!length.problem.empty() || w == 0 || h == 0) return length.problem;
    rx = std::min(rx, w / 2);
    ry = std::min(ry, h / 2);
    pen.moveTo({x + rx, y});
    pen.lineTo({x + w - rx, y});
    if (rx > 0 && ry > 0) pen.arcTo(rx, ry, 0, false, true, {x + w, y + ry});
    pen.lineTo({x + w, y + h - ry});
    if (rx > 0 && ry > 0) pen.arcTo(rx, ry, 0, false, true, {x + w - rx, y + h});
    pen.lineTo({x + rx, y + h});
    if (rx > 0 && ry > 0) pen.arcTo(rx, ry, 0, false, true, {x, y + h - ry});
    pen.lineTo({x, y + ry});
    if (rx > 0 && ry > 0) pen.arcTo(rx, ry, 0, false, true, {x + rx, y});
    pen.closePath();
    return "";
}

std::string draw_ellipse(const pugi::xml_node& element, bool circle, Pen& pen) {
    Lengths length(element);
    const double x = length("cx"), y = length("cy");
    const double rx = length(circle ? "r" : "rx"), ry = circle ? rx : length("ry");
    for (const auto& [value, name] : {std::pair{rx, circle ? "r" : "rx"}, {ry, "ry"}})
        if (length.problem.empty()) length.problem = negative(value, name);
    if (!length.problem.empty() || rx == 0 || ry == 0) return length.problem;
    const std::array<Geom::Point, 4> quarters{Geom::Point{x, y + ry}, {x - rx, y}, {x, y - ry}, {x + rx, y}};
    pen.moveTo(quarters[3]);
    for (const Geom::Point& p : quarters) pen.arcTo(rx, ry, 0, false, true, p);
    pen.closePath();
    return "";
}

std::string draw_line(const pugi::xml_node& element, Pen& pen) {
    Lengths length(element);
    const Geom::Point from(length("x1"), length("y1")), to(length("x2"), length("y2"));
    if (!length.problem.empty()) return length.problem;
    pen.moveTo(from);
    pen.lineTo(to);
    return "";
}

std::string draw_points(const pugi::xml_node& element, bool closed, Pen& pen) {
    std::string_view points = element.attribute("points").value();
    std::size_t count = 0;
    for (points = svg_trimmed(points); !points.empty(); ++count) {
        const auto x = take_svg_number(points), y = x ? take_svg_number(points) : std::nullopt;
        if (!y) return fmt::format("found points that break off after the {}., expected pairs x,y", count);
        if (count == 0)
            pen.moveTo({*x, *y});
        else
            pen.lineTo({*x, *y});
    }
    if (closed) pen.closePath();
    return "";
}

std::string draw_path(const pugi::xml_node& element, Pen& pen) {
    const std::string_view data = svg_trimmed(element.attribute("d").value());
    if (data.empty() || data == "none") return "";
    const std::size_t before = pen.commands();
    try {
        Geom::SVGPathParser(pen).parse(data.data(), static_cast<int>(data.size()));
    } catch (const std::exception&) {  // of the library: of a kind that its headers keep to themselves
        return fmt::format(
            "found path data that break off near command {}, expected M, L, C, Q, A, Z ... with "
            "their numbers",
            pen.commands() - before + 1);
    }
    return "";
}

}  // namespace

bool is_svg_shape(std::string_view name) {
    constexpr std::string_view kShapes[] = {"path", "rect",     "circle", "ellipse",
                                            "line", "polyline", "polygon"};
    return std::find(std::begin(kShapes), std::end(kShapes), name) != std::end(kShapes);
}

std::string draw_svg_shape(const pugi::xml_node& element, std::string_view name, Pen& pen) {
    if (name == "path") return draw_path(element, pen);
    if (name == "rect") return draw_rect(element, pen);
    if (name == "circle" || name == "ellipse") return draw_ellipse(element, name == "circle", pen);
    if (name == "line") return draw_line(element, pen);
    return draw_points(element, name == "polygon", pen);
}

}  // namespace rakelight
