#include "output/board/test_piece.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "scene/model/layout.h"

namespace rakelight {

namespace {

glm::dvec2 middle_of(const Stroke& outline) {
    glm::dvec2 low(1e300), high(-1e300);
    for (const glm::dvec2& p : outline.points_mm) low = glm::min(low, p), high = glm::max(high, p);
    return (low + high) / 2.0;
}

void move(Stroke& stroke, const glm::dvec2& by) {
    for (glm::dvec2& p : stroke.points_mm) p += by;
}

}  // namespace

Layout test_piece_of(const Layout& layout, const std::string& name, const glm::dvec2& size_mm) {
    const auto own = std::find_if(layout.fields.begin(), layout.fields.end(),
                                  [&](const Field& f) { return f.name == name; });
    if (own == layout.fields.end()) throw std::invalid_argument("no field is called " + name);
    Layout test_piece = layout;
    Field field = *own;
    const glm::dvec2 by = size_mm / 2.0 - middle_of(field.outline);
    for (Stroke& guide : field.guides) move(guide, by);
    for (Stroke& line : field.breaks) move(line, by);
    if (field.shift) {
        move(field.shift->line, by);
        for (Stroke& line : field.shift->more_lines) move(line, by);
    }
    if (field.picture) field.picture->at_mm += by;
    field.outline.points_mm = {{0, 0}, {size_mm.x, 0}, size_mm, {0, size_mm.y}};
    field.outline.smooth = false;
    field.outline.closed = true;
    field.more_rings.clear();
    field.boulders = {};
    const double part = size_mm.x * size_mm.y / (layout.panel.width_mm * layout.panel.height_mm);
    for (Accent& accent : field.accents)
        accent.count = std::max(1, static_cast<int>(std::lround(accent.count * std::min(part, 1.0))));
    test_piece.fields = {field};
    test_piece.panel.width_mm = size_mm.x;
    test_piece.panel.height_mm = size_mm.y;
    test_piece.stones.clear();
    test_piece.pieces_file.clear();
    test_piece.piece_rows.clear();
    test_piece.panel.frame.reset();
    test_piece.panel.divided.reset();
    test_piece.beside.reset();
    return test_piece;
}

}  // namespace rakelight
