#include "output/cut/shapes.h"

#include <fmt/format.h>

#include <algorithm>

#include "scene/model/layout.h"

namespace rakelight {

Region path_round(const Region& piece, double kerf_mm) {
    return kerf_mm > 0 ? grow(piece, kerf_mm / 2, Corner::round) : piece;
}

double left_in_corners_mm2(const Region& piece, double kerf_mm) {
    if (!(kerf_mm > 0)) return 0;
    const Region reached = grow(path_round(piece, kerf_mm), -kerf_mm / 2, Corner::round);
    return std::max(area_mm2(subtract(reached, piece)), 0.0);
}

std::vector<CutShape> cut_shapes(const Layout& layout, const Laying& laying, double kerf_mm) {
    std::vector<CutShape> shapes;
    for (const Piece& piece : laying.pieces) {
        if (layout.fields[piece.field].opus != Opus::sectile) continue;
        CutShape shape;
        shape.name = fmt::format("{}.{}", piece.field + 1, piece.number);
        shape.field = piece.field;
        shape.number = piece.number;
        shape.material = piece.material;
        shape.thickness_mm = piece.thickness_mm;
        shape.piece = region_of(piece.outline_mm);
        shape.path = path_round(shape.piece, kerf_mm);
        for (const Ring& ring : shape.path.rings) shape.length_mm += perimeter_mm(ring);
        shape.corners_mm2 = left_in_corners_mm2(shape.piece, kerf_mm);
        shapes.push_back(std::move(shape));
    }
    return shapes;
}

}  // namespace rakelight
