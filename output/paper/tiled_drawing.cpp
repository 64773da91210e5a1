#include "output/paper/tiled_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "output/paper/sheet_furniture.h"
#include "output/paper/tile_furniture.h"

namespace rakelight {

namespace {

using namespace furniture;
using namespace tile;

Box window_of(const glm::dvec2& paper) {
    return {{kEdge_mm + kSide_mm, kEdge_mm + kHead_mm}, {paper.x - kEdge_mm, paper.y - kEdge_mm - kFoot_mm}};
}

int sheets(double length_mm, double window_mm, double overlap_mm) {
    if (length_mm <= window_mm) return 1;
    return static_cast<int>(std::ceil((length_mm - overlap_mm) / (window_mm - overlap_mm) - 1e-9));
}

bool meets(const Box& a, const Box& b) {
    return a.low.x <= b.high.x && b.low.x <= a.high.x && a.low.y <= b.high.y && b.low.y <= a.high.y;
}

Box bounds_of(const TracedShape& shape) {
    Box box;
    for (const auto& line : shape.lines_mm)
        for (const glm::dvec2& p : line) box.add(p);
    return box;
}

// The part of a layer that lies in a window, moved by `shift`.
TracedLayer cut(const TracedLayer& layer, const Box& window, const glm::dvec2& shift) {
    TracedLayer out = layer;
    out.shapes.clear();
    out.texts.clear();
    Box open = window;
    if (layer.window) {
        open.low = glm::max(open.low, layer.window->at_mm);
        open.high = glm::min(open.high, layer.window->at_mm + layer.window->size_mm);
    }
    out.window = PageBox{open.low + shift, glm::max(open.size(), glm::dvec2(0)), {}};
    for (const TracedShape& shape : layer.shapes) {
        const Box box = bounds_of(shape);
        if (!meets({box.low - layer.pen.width_mm, box.high + layer.pen.width_mm}, window)) continue;
        out.shapes.push_back(shape);
        for (auto& line : out.shapes.back().lines_mm)
            for (glm::dvec2& p : line) p += shift;
    }
    for (PageText text : layer.texts) {
        const double half = width_mm(text) / 2;
        const double middle = text.baseline_mm.x + (text.align == Align::left    ? half
                                                    : text.align == Align::right ? -half
                                                                                 : 0);
        // A word that would run out of the window is on the next sheet.
        if (middle - half < window.low.x || middle + half > window.high.x ||
            text.baseline_mm.y - text.size_mm < window.low.y || text.baseline_mm.y > window.high.y)
            continue;
        text.baseline_mm += shift;
        out.texts.push_back(std::move(text));
    }
    return out;
}

// Does any line of the layer run through the window?
bool runs_through(const TracedLayer& layer, const Box& window) {
    const Region open = region_of(
        Ring{window.low, {window.high.x, window.low.y}, window.high, {window.low.x, window.high.y}});
    for (const TracedShape& shape : layer.shapes)
        for (const auto& line : shape.lines_mm)
            if (reaches(line, shape.closed, open)) return true;
    return false;
}

bool wanted(const TiledDrawing& drawing, const TracedLayer& layer) {
    return drawing.what_counts.empty() || std::find(drawing.what_counts.begin(), drawing.what_counts.end(),
                                                    layer.name) != drawing.what_counts.end();
}

}  // namespace

SheetPlan plan_sheets(const Box& part, const PaperSize& paper, double overlap_mm) {
    const auto turned = [&](bool wide) {
        SheetPlan plan;
        plan.paper = paper;
        if (wide == (paper.size_mm.x < paper.size_mm.y))
            std::swap(plan.paper.size_mm.x, plan.paper.size_mm.y);
        SheetGrid& g = plan.grid;
        g.window_mm = window_of(plan.paper.size_mm).size();
        g.step_mm = g.window_mm - overlap_mm;
        const glm::dvec2 size = part.size();
        g.across = sheets(size.x, g.window_mm.x, overlap_mm);
        g.down = sheets(size.y, g.window_mm.y, overlap_mm);
        const glm::dvec2 covered = g.window_mm + g.step_mm * glm::dvec2(g.across - 1, g.down - 1);
        g.first_mm = (part.low + part.high - covered) / 2.0;
        return plan;
    };
    const SheetPlan upright = turned(false), wide = turned(true);
    const auto count = [](const SheetPlan& p) { return p.grid.across * p.grid.down; };
    return count(wide) < count(upright) ? wide : upright;
}

std::vector<Tracing> tiled_pages(const TiledDrawing& drawing, const PaperSize& paper, double overlap_mm) {
    const SheetPlan plan = plan_sheets(drawing.part_mm, paper, overlap_mm);
    const SheetGrid& grid = plan.grid;
    const Box window = window_of(plan.paper.size_mm);
    std::vector<Tracing> pages;
    std::vector<glm::ivec2> cells;
    for (int row = 0; row < grid.down; ++row)
        for (int column = 0; column < grid.across; ++column) {
            const Box part = grid.window(column, row);
            const auto& all = drawing.whole.layers;
            if (std::none_of(all.begin(), all.end(), [&](const TracedLayer& layer) {
                    return wanted(drawing, layer) && runs_through(layer, part);
                }))
                continue;
            const glm::dvec2 shift = window.low - part.low;
            Tracing page;
            page.title = drawing.title;
            page.note = drawing.source;
            page.size_mm = plan.paper.size_mm;
            if (drawing.mirrored) page.layers.push_back(watermark(window));
            for (const TracedLayer& layer : drawing.whole.layers)
                page.layers.push_back(cut(layer, part, shift));
            page.layers.push_back(crosses(drawing, part, overlap_mm, shift));
            page.layers.push_back({"window", {{}, kGrey, 0.12, {}}, {box_shape(window)}, {}, {}});
            pages.push_back(std::move(page));
            cells.emplace_back(column, row);
        }
    for (std::size_t i = 0; i < pages.size(); ++i) {
        if (grid.across * grid.down > 1)
            pages[i].layers.push_back(
                sheet_plan(grid, cells[i].x, cells[i].y, {window.high.x, window.low.y - kHead_mm}));
        add_furniture(
            pages[i], drawing, window,
            fmt::format("sheet {} of {}, {}, print at 100 %", i + 1, pages.size(), plan.paper.name));
    }
    return pages;
}

Tracing one_sheet(const TiledDrawing& drawing) {
    Tracing page;
    page.title = drawing.title;
    page.note = drawing.source;
    glm::dvec2 size = drawing.part_mm.size();
    size = glm::max(size, glm::dvec2(170, 130));  // room for the bars and the words
    const Box window{{kEdge_mm + kSide_mm, kEdge_mm + kHead_mm},
                     glm::dvec2(kEdge_mm + kSide_mm, kEdge_mm + kHead_mm) + size};
    page.size_mm = window.high + glm::dvec2(kEdge_mm, kEdge_mm + kFoot_mm);
    if (drawing.mirrored) page.layers.push_back(watermark(window));
    const glm::dvec2 middle = (drawing.part_mm.low + drawing.part_mm.high) / 2.0;
    const Box part{middle - size / 2.0, middle + size / 2.0};
    for (const TracedLayer& layer : drawing.whole.layers)
        page.layers.push_back(cut(layer, part, window.low - part.low));
    page.layers.push_back({"window", {{}, kGrey, 0.12, {}}, {box_shape(window)}, {}, {}});
    add_furniture(page, drawing, window, "one sheet, print at 100 %");
    return page;
}

Tracing mirrored(Tracing drawing, double width) {
    for (TracedLayer& layer : drawing.layers) {
        for (TracedShape& shape : layer.shapes)
            for (auto& line : shape.lines_mm)
                for (glm::dvec2& p : line) p.x = width - p.x;
        for (PageText& text : layer.texts) {
            text.baseline_mm.x = width - text.baseline_mm.x;
            if (text.align != Align::centre)
                text.align = text.align == Align::left ? Align::right : Align::left;
        }
        if (layer.window) layer.window->at_mm.x = width - layer.window->at_mm.x - layer.window->size_mm.x;
    }
    return drawing;
}

}  // namespace rakelight
