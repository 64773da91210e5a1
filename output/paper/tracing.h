// A line drawing before it is put on paper: layers of shapes and words on a sheet, in millimetres from the
// top left corner, y down. One drawing makes an SVG file at 1:1 and a PNG of any fineness.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "output/paper/page.h"

namespace rakelight {

using Rgb8 = std::array<std::uint8_t, 3>;  ///< encoded sRGB

struct DrawnPen {
    std::optional<Rgb8> fill;
    std::optional<Rgb8> line;
    double width_mm = 0.2;
    std::vector<double> dash_mm;  ///< empty = unbroken
};

/// Closed rings (holes run the other way round) or open lines.
struct TracedShape {
    std::vector<std::vector<glm::dvec2>> lines_mm;
    bool closed = true;
    std::optional<Rgb8> fill;  ///< instead of the layer's
    std::string id;            ///< in SVG; empty = none
};

/// Shapes drawn with one pen, in order, then words. `window`: what shapes draw outside is cut off.
struct TracedLayer {
    std::string name;
    DrawnPen pen;
    std::vector<TracedShape> shapes;
    std::vector<PageText> texts;
    std::optional<PageBox> window;
    double halo_mm = 0;  ///< width of the paper left clear round the words
};

struct Tracing {
    std::string title;
    std::string note;
    glm::dvec2 size_mm{210, 297};
    std::vector<TracedLayer> layers;  ///< the later above
};

/// SVG 1.1, a user unit a millimetre. A layer is a group, its name the group's title and, as far as XML
/// allows, its id. Words are outlines, so that they look the same anywhere.
std::string tracing_svg(const Tracing& drawing);

/// The drawing in pixels on white paper.
Print print_tracing(const Tracing& drawing, double px_per_mm);

/// A name as an XML id: letters, digits, '-', '_' and '.' stay, all else becomes '_'.
std::string xml_id(std::string_view name);

}  // namespace rakelight
