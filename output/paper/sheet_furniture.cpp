#include "output/paper/sheet_furniture.h"

#include <cmath>
#include <numbers>

#include "output/paper/tiled_drawing.h"

namespace rakelight::furniture {

PageText word(std::string text, const glm::dvec2& baseline_mm, double size_mm, bool bold, Align align,
              const Rgb8& colour) {
    return {std::move(text), baseline_mm, size_mm, bold, align, from_bytes(colour)};
}

TracedShape line_shape(std::vector<glm::dvec2> points_mm) {
    return {{std::move(points_mm)}, false, {}, ""};
}

TracedShape box_shape(const Box& box) {
    return {{{box.low, {box.high.x, box.low.y}, box.high, {box.low.x, box.high.y}}}, true, {}, ""};
}

TracedShape circle_shape(const glm::dvec2& middle_mm, double radius_mm) {
    constexpr int kSides = 32;
    std::vector<glm::dvec2> ring;
    for (int i = 0; i < kSides; ++i) {
        const double turn = 2 * std::numbers::pi * i / kSides;
        ring.push_back(middle_mm + radius_mm * glm::dvec2(std::cos(turn), std::sin(turn)));
    }
    return {{std::move(ring)}, true, {}, ""};
}

TracedLayer inked(std::string name, const DrawnPen& pen, std::vector<TracedShape> shapes) {
    TracedLayer layer;
    layer.name = std::move(name);
    layer.pen = pen;
    layer.shapes = std::move(shapes);
    return layer;
}

TracedLayer bar_across(const glm::dvec2& at_mm) {
    TracedLayer layer{"check bar across", {{}, kBlack, 0.15, {}}, {}, {}, {}};
    layer.shapes.push_back(line_shape({at_mm, at_mm + glm::dvec2(kCheckBar_mm, 0)}));
    for (int k = 0; k <= 10; ++k) {
        const double x = at_mm.x + kCheckBar_mm * k / 10, tall = k % 10 == 0 ? 3 : k == 5 ? 2 : 1.2;
        layer.shapes.push_back(line_shape({{x, at_mm.y - tall}, {x, at_mm.y}}));
    }
    layer.texts.push_back(
        word("100 mm across: hold a ruler to it; off by more than 0.5 mm, print again at 100 %",
             {at_mm.x, at_mm.y + 3}, 2.1));
    return layer;
}

TracedLayer bar_upright(const glm::dvec2& at_mm) {
    TracedLayer layer{"check bar upright", {{}, kBlack, 0.15, {}}, {}, {}, {}};
    layer.shapes.push_back(line_shape({at_mm, at_mm + glm::dvec2(0, kCheckBar_mm)}));
    for (int k = 0; k <= 10; ++k) {
        const double y = at_mm.y + kCheckBar_mm * k / 10, wide = k % 10 == 0 ? 3 : k == 5 ? 2 : 1.2;
        layer.shapes.push_back(line_shape({{at_mm.x - wide, y}, {at_mm.x, y}}));
    }
    layer.texts.push_back(
        word("100 mm", {at_mm.x + 1, at_mm.y + kCheckBar_mm + 3.4}, 2.1, false, Align::centre));
    return layer;
}

TracedLayer arrow_up(const glm::dvec2& tip_mm) {
    TracedLayer layer{"up", {kBlack, kBlack, 0.3, {}}, {}, {}, {}};
    const glm::dvec2 t = tip_mm;
    layer.shapes.push_back({{{t, t + glm::dvec2(2.2, 5), t + glm::dvec2(0.6, 5), t + glm::dvec2(0.6, 13),
                              t + glm::dvec2(-0.6, 13), t + glm::dvec2(-0.6, 5), t + glm::dvec2(-2.2, 5)}},
                            true,
                            {},
                            ""});
    layer.texts.push_back(word("UP", t + glm::dvec2(0, 16.6), 3, true, Align::centre));
    return layer;
}

}  // namespace rakelight::furniture
