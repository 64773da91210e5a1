#include "output/cut/drawing.h"

#include <algorithm>

#include "output/lay/drawing.h"
#include "output/paper/name_spot.h"

namespace rakelight {

namespace {

constexpr double kLeastName_mm = 1.5, kMostName_mm = 8;
constexpr double kHair_mm = 0.1;
constexpr double kMiddle_em = 0.36;  // half a capital's height
const Rgb8 kRed{200, 0, 0}, kGrey{150, 150, 150}, kGreen{0, 120, 60};

}  // namespace

NameOnPiece name_on(const CutShape& shape) {
    const NameSpot spot = name_spot(shape.piece, shape.name);
    const double height_mm = std::min(0.7 * spot.em_mm, kMostName_mm);
    return {spot.at_mm, height_mm < kLeastName_mm ? 0 : height_mm};
}

Tracing slab_drawing(const CutSlab& slab, const std::vector<CutShape>& shapes, const glm::dvec2& slab_mm,
                     const std::string& title) {
    Tracing drawing;
    drawing.title = title;
    drawing.note = "at 1:1; cut along the red lines, the middle of the kerf";
    drawing.size_mm = slab_mm;
    TracedLayer edge{"slab", {{}, kGrey, kHair_mm, {}}, {}, {}, {}};
    TracedLayer cut{"cut", {{}, kRed, kHair_mm, {}}, {}, {}, {}};
    TracedLayer names{"names", {}, {}, {}, {}};
    edge.shapes.push_back({{{{0, 0}, {slab_mm.x, 0}, slab_mm, {0, slab_mm.y}}}, true, {}, ""});
    for (const PlacedShape& placed : slab.shapes) {
        const CutShape& shape = shapes[placed.shape];
        const OnSheet place{glm::dvec2(placed.shift_mm.x, -placed.shift_mm.y), slab_mm.y, 1};
        cut.shapes.push_back(shape_of(shape.path, place));
        cut.shapes.back().id = shape.name;
        const NameOnPiece word = name_on(shape);
        if (word.height_mm > 0)
            names.texts.push_back({shape.name,
                                   place(word.at_mm) + glm::dvec2(0, kMiddle_em * word.height_mm / 0.7),
                                   word.height_mm / 0.7, false, Align::centre, from_bytes(kGreen)});
    }
    drawing.layers = {std::move(edge), std::move(cut), std::move(names)};
    return drawing;
}

}  // namespace rakelight
