#include "output/take_off/template_marks.h"

#include <algorithm>
#include <cmath>

#include "output/paper/name_spot.h"
#include "output/paper/sheet_furniture.h"
#include "scene/model/layout.h"
#include "scene/model/panel_spans.h"

namespace rakelight::marks {

namespace {

using namespace furniture;

constexpr double kAllowed_mm = 0.03;  // a knife does not follow closer
constexpr double kPaperSwells_mm = 600;

// Along an edge of the panel, or of one of its panels where it is divided.
bool on_edge(const glm::dvec2& a, const glm::dvec2& b, const Panel& panel) {
    constexpr double kNear_mm = 0.2;
    const auto along = [&](int axis, double edge) {
        return std::abs(a[axis] - edge) < kNear_mm && std::abs(b[axis] - edge) < kNear_mm;
    };
    if (along(1, 0) || along(1, panel.height_mm)) return true;
    return std::ranges::any_of(panel_spans(panel), [&](const PanelSpan& span) {
        return along(0, span.left_mm) || along(0, span.right_mm);
    });
}

}  // namespace

Region tidy(const Region& region) {
    Region out = grow(grow(region, -0.05), 0.05);
    for (Ring& ring : out.rings) ring = simplified(ring, kAllowed_mm);
    std::erase_if(out.rings, [](const Ring& ring) { return ring.size() < 3; });
    return out;
}

TracedShape inner_edges(const Region& region, const Panel& panel, const OnSheet& place) {
    TracedShape shape;
    shape.closed = false;
    for (const Ring& ring : region.rings) {
        const std::size_t n = ring.size();
        // Starts after an edge that is left out, so that no line is broken where the ring begins.
        std::size_t start = 0;
        for (std::size_t i = 0; i < n; ++i)
            if (on_edge(ring[i], ring[(i + 1) % n], panel)) start = i + 1;
        std::vector<glm::dvec2> line;
        const auto end = [&] {
            if (line.size() > 1) shape.lines_mm.push_back(std::move(line));
            line.clear();
        };
        for (std::size_t k = 0; k < n; ++k) {
            const glm::dvec2 a = ring[(start + k) % n], b = ring[(start + k + 1) % n];
            if (on_edge(a, b, panel)) {
                end();
                continue;
            }
            if (line.empty()) line.push_back(place(a));
            line.push_back(place(b));
        }
        end();
    }
    return shape;
}

TracedLayer origin_mark(const OnSheet& place) {
    TracedLayer layer{"origin", {{}, kBlack, 0.5, {}}, {}, {}, {}};
    layer.shapes.push_back({{place(Ring{{0, 12}, {0, 0}, {12, 0}})}, false, {}, ""});
    layer.texts.push_back(word("panel origin 0, 0", place({2, 3}), 2.2, true));
    layer.halo_mm = 0.4;
    return layer;
}

TracedLayer panel_edge(const Panel& panel, const OnSheet& place) {
    TracedLayer layer = inked("edge of the panel", {{}, kBlack, 0.15, {4, 1, 0.8, 1}});
    const std::vector<PanelSpan> spans = panel_spans(panel);
    for (const PanelSpan& span : spans) {
        const double l = span.left_mm, r = span.right_mm, h = panel.height_mm;
        layer.shapes.push_back(shape_of(Ring{{l, 0}, {r, 0}, {r, h}, {l, h}}, place));
        if (spans.size() > 1)
            layer.texts.push_back(
                word(span.name, place({(l + r) / 2, h}) - glm::dvec2(0, 1.2), 4, true, Align::centre));
    }
    return layer;
}

void add_name(TracedLayer& layer, const Region& region, const std::string& name, double least_mm,
              double most_mm, const OnSheet& place, const Rgb8& colour) {
    const NameSpot spot = name_spot(region, name);
    if (spot.em_mm < least_mm) return;
    const double em = std::min(0.8 * spot.em_mm, most_mm), step = kLineStep_em * em;
    const double first = 0.365 * em - step * static_cast<double>(spot.lines.size() - 1) / 2;
    for (std::size_t i = 0; i < spot.lines.size(); ++i)
        layer.texts.push_back(word(spot.lines[i],
                                   place(spot.at_mm) + glm::dvec2(0, first + step * static_cast<double>(i)),
                                   em, true, Align::centre, colour));
}

TiledDrawing finished(TiledDrawing drawing, const Layout& layout, const LayingReport& report,
                      bool from_behind) {
    drawing.panel_mm = {layout.panel.width_mm, layout.panel.height_mm};
    drawing.source = sheet_source(layout, report);
    drawing.mirrored = from_behind;
    drawing.whole.title = drawing.title;
    const glm::dvec2 size = drawing.part_mm.size();
    if (std::max(size.x, size.y) > kPaperSwells_mm)
        drawing.notes.emplace_back(
            "Paper swells by up to 0.5 % in damp air: over 600 mm, print on drafting film, or measure the "
            "joined "
            "sheets.");
    if (!from_behind) return drawing;
    drawing.whole = mirrored(std::move(drawing.whole), layout.panel.width_mm);
    const Box part = drawing.part_mm;
    drawing.part_mm.low.x = layout.panel.width_mm - part.high.x;
    drawing.part_mm.high.x = layout.panel.width_mm - part.low.x;
    return drawing;
}

}  // namespace rakelight::marks
