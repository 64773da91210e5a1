#include "output/paper/tile_furniture.h"

#include <fmt/format.h>

#include <algorithm>

#include "output/paper/sheet_furniture.h"

namespace rakelight::tile {

using namespace furniture;

TracedLayer crosses(const TiledDrawing& drawing, const Box& window, double overlap_mm,
                    const glm::dvec2& shift) {
    TracedLayer layer{"register crosses", {{}, kBlack, 0.2, {}}, {}, {}, {}};
    constexpr double kArm_mm = 4;
    for (const double x : {window.low.x + overlap_mm / 2, window.high.x - overlap_mm / 2})
        for (const double y : {window.low.y + overlap_mm / 2, window.high.y - overlap_mm / 2}) {
            const glm::dvec2 at = glm::dvec2(x, y) + shift;
            layer.shapes.push_back(line_shape({at - glm::dvec2(kArm_mm, 0), at + glm::dvec2(kArm_mm, 0)}));
            layer.shapes.push_back(line_shape({at - glm::dvec2(0, kArm_mm), at + glm::dvec2(0, kArm_mm)}));
            layer.shapes.push_back(circle_shape(at, 1.6));
            const double panel_x = drawing.mirrored ? drawing.panel_mm.x - x : x;
            const bool last = x > window.low.x + overlap_mm / 2;
            layer.texts.push_back(word(fmt::format("x {:.0f}  y {:.0f}", panel_x, drawing.panel_mm.y - y),
                                       {at.x + (last ? -2.2 : 2.2), at.y - 1.4}, 1.8, false,
                                       last ? Align::right : Align::left, kGrey));
        }
    layer.halo_mm = 0.4;
    return layer;
}

TracedLayer sheet_plan(const SheetGrid& grid, int column, int row, const glm::dvec2& right_mm) {
    TracedLayer layer{"plan of the sheets", {kWhite, kBlack, 0.15, {}}, {}, {}, {}};
    const double cell = std::min({4.0, 34.0 / grid.across, 13.0 / grid.down});
    const glm::dvec2 size(cell, cell * std::min(1.3, 13.0 / grid.down / cell));
    for (int y = 0; y < grid.down; ++y)
        for (int x = 0; x < grid.across; ++x) {
            const glm::dvec2 low(right_mm.x - (grid.across - x) * size.x, right_mm.y + y * size.y);
            TracedShape shape = box_shape({low, low + size});
            if (x == column && y == row) shape.fill = kBlack;
            layer.shapes.push_back(std::move(shape));
        }
    return layer;
}

void add_furniture(Tracing& page, const TiledDrawing& drawing, const Box& window, const std::string& which) {
    TracedLayer words{"words", {}, {}, {}, {}};
    double x = window.low.x;
    const double top = window.low.y - kHead_mm;
    if (!drawing.badge.empty()) {
        PageText badge = word(drawing.badge, {x + 7, top + 13}, 12, true, Align::centre, kWhite);
        TracedLayer box{"badge", {kBlack, {}, 0, {}}, {box_shape({{x, top}, {x + 14, top + 17}})}, {}, {}};
        page.layers.push_back(std::move(box));
        words.texts.push_back(std::move(badge));
        x += 18;
    }
    PageText title = word(drawing.title, {x, top + 7.5}, 7, true);
    words.texts.push_back(title);
    words.texts.push_back(word(drawing.mirrored ? "MIRRORED" : "FACE UP", {x, top + 16.5}, 8, true,
                               Align::left, drawing.mirrored ? kRed : kBlack));
    const double after = x + width_mm(words.texts.back()) + 4;
    words.texts.push_back(word(
        drawing.mirrored ? "seen from behind, for the reverse method" : "as the panel is seen from the front",
        {after, top + 16.5}, 2.6));
    words.texts.push_back(word(which, {after, top + 12.8}, 2.6, true));
    // Below.
    const double foot = window.high.y;
    page.layers.push_back(bar_across({window.low.x, foot + 6}));
    page.layers.push_back(bar_upright({window.low.x - 5.5, window.low.y + 24}));
    page.layers.push_back(arrow_up({window.low.x - 5.5, window.low.y + 2}));
    for (std::size_t i = 0; i < drawing.notes.size(); ++i)
        words.texts.push_back(
            word(drawing.notes[i], {window.low.x, foot + 15 + 3.3 * static_cast<double>(i)}, 2.3));
    words.texts.push_back(word(drawing.source, {window.high.x, foot + 4}, 1.7, false, Align::right, kGrey));
    page.layers.push_back(std::move(words));
}

TracedLayer watermark(const Box& window) {
    PageText text = word("MIRRORED", (window.low + window.high) / 2.0, 10, true, Align::centre, kPale);
    text.size_mm *= 0.88 * window.size().x / width_mm(text);
    text.baseline_mm.y += 0.36 * text.size_mm;
    return {"mirrored", {}, {}, {text}, {}};
}

}  // namespace rakelight::tile
