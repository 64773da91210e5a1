// The drawing of the whole panel at 1:1, to lay by.
#include <fmt/format.h>

#include "output/paper/sheet_furniture.h"
#include "output/take_off/template_marks.h"
#include "output/take_off/zone_templates.h"
#include "scene/geometry/stroke.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

using namespace furniture;
using namespace marks;

constexpr Rgb8 kStone{225, 225, 225};
constexpr double kFlatness_mm = 0.05;

}  // namespace

TiledDrawing laying_cartoon(const Layout& layout, const Laying& laying, const LayingReport& report,
                            const TakeOff& t, bool from_behind) {
    const OnSheet place{{0, 0}, layout.panel.height_mm, 1};
    TiledDrawing drawing;
    auto& layers = drawing.whole.layers;
    TracedLayer pieces{"pieces", {{}, kBlack, 0.13, {}}, {}, {}, {}};
    for (const Piece& piece : laying.pieces) pieces.shapes.push_back(shape_of(piece.outline_mm, place));
    layers.push_back(std::move(pieces));
    TracedLayer stones{"stones", {kStone, kBlack, 0.3, {}}, {}, {}, {}};
    for (std::size_t s = 0; s < laying.stones.size(); ++s) {
        stones.shapes.push_back(shape_of(laying.stones[s].footprint_mm, place));
        stones.texts.push_back(word(fmt::format("stone {}", s + 1),
                                    place(centroid(laying.stones[s].footprint_mm)) + glm::dvec2(0, 0.8), 2.2,
                                    true, Align::centre));
    }
    layers.push_back(std::move(stones));
    TracedLayer guides{"guides",
                       {{}, kRed, 0.35, {}},
                       {},
                       {},
                       PageBox{{0, 0}, {layout.panel.width_mm, layout.panel.height_mm}, {}}};
    for (const Field& field : layout.fields)
        for (const Stroke& stroke : field.guides) {
            TracedShape shape = shape_of(flatten(stroke, kFlatness_mm), place);
            shape.closed = stroke.closed;
            guides.shapes.push_back(std::move(shape));
        }
    layers.push_back(std::move(guides));
    TracedLayer edges = inked("grout zones", {{}, kBlue, 0.45, {}});
    for (std::size_t z = 0; z < t.zones.size(); ++z)
        edges.shapes.push_back(inner_edges(tidy(t.zones[z].region), layout.panel, place));
    layers.push_back(std::move(edges));
    TracedLayer names{"zones", {}, {}, {}, {}};
    names.halo_mm = 0.7;
    for (std::size_t z = 0; z < t.zones.size(); ++z)
        for (const Region& part : islands(clear_of_stones(t.zones[z], laying)))
            add_name(names, part, fmt::format("{} {}", t.step_of(z), t.zones[z].name), 3, 7, place, kBlue);
    layers.push_back(std::move(names));
    layers.push_back(panel_edge(layout.panel, place));
    layers.push_back(origin_mark(place));
    drawing.what_counts = {"pieces", "stones"};
    drawing.part_mm = {glm::dvec2(-3), glm::dvec2(layout.panel.width_mm, layout.panel.height_mm) + 3.0};
    drawing.title =
        cut(word(layout.panel.name.empty() ? "Cartoon" : layout.panel.name, {}, 7, true), 120).text;
    drawing.notes = {
        "Cartoon, 1:1. Black: pieces and stones. Red: guides. Blue: grout zones, "
        "each with its step.",
        fmt::format("{:g} x {:g} mm, {} pieces, {} stones. Join sheets on the crosses.",
                    layout.panel.width_mm, layout.panel.height_mm, laying.pieces.size(),
                    laying.stones.size())};
    return finished(std::move(drawing), layout, report, from_behind);
}

}  // namespace rakelight
