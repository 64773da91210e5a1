// Small layouts built by hand for the tests of laying.
#pragma once

#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "scene/hash.h"
#include "scene/laying.h"
#include "scene/layout.h"
#include "scene/opera.h"

namespace rakelight {

inline Stroke smooth_stroke(std::vector<glm::dvec2> points, bool closed) {
    Stroke s;
    s.points_mm = std::move(points);
    s.smooth = true;
    s.closed = closed;
    return s;
}

/// A bean of about 500 by 300 mm with bulges and a hollow.
inline Stroke bean() {
    return smooth_stroke(
        {{80, 80}, {300, 40}, {520, 90}, {550, 260}, {420, 360}, {250, 300}, {120, 340}, {50, 200}}, true);
}

inline Material sample_material(const std::string& name, Kind kind, float thickness_mm, float density) {
    Material m;
    m.name = name;
    m.kind = kind;
    m.thickness_mm = thickness_mm;
    m.density_g_per_cm3 = density;
    if (kind == Kind::glass) {
        m.index = 1.52f;
        m.ripple_deg = 1.4f;
    }
    return m;
}

/// A panel of 600 by 400 mm with one field that covers it: glass, one grout, one bed.
inline Layout sample_layout(Opus opus, double length_mm, double width_mm, double joint_mm) {
    Layout layout;
    layout.width_mm = 600;
    layout.height_mm = 400;
    layout.seed = 7;
    layout.stock = {
        sample_material("glass", Kind::glass, 6, 2.5f), sample_material("slate", Kind::stone, 8, 2.75f),
        sample_material("pumice", Kind::stone, 12, 0.6f), sample_material("slag", Kind::slag, 14, 2.4f)};
    layout.stock[1].grain.band_ratio = 5;
    layout.tints = {sample_material("grout", Kind::cement, 2, 1.9f),
                    sample_material("bed", Kind::epoxy, 2, 1.1f),
                    sample_material("other", Kind::cement, 2, 1.9f)};
    Field field;
    field.name = "whole";
    field.opus = opus;
    field.piece_length_mm = length_mm;
    field.piece_width_mm = width_mm;
    field.joint_mm = joint_mm;
    field.mix = {{"glass", 1}};
    field.bed = "bed";
    field.grout = "grout";
    if (opus == Opus::musivum)
        field.guides = {smooth_stroke({{-10, 60}, {150, 120}, {300, 60}, {450, 120}, {620, 80}}, false),
                        smooth_stroke({{-10, 250}, {120, 330}, {260, 230}, {420, 300}, {620, 200}}, false)};
    layout.fields = {field};
    return layout;
}

/// Gives the field what its opus cannot be laid without, by chance within the panel: drawn shapes, which may
/// overlap.
inline void draw_if_drawn(Field& field, const Layout& layout, Chance& chance) {
    if (!rule_of(field.opus).drawn) return;
    for (int s = 0; s < 4; ++s) {
        const glm::dvec2 middle(chance.within(0, layout.width_mm), chance.within(0, layout.height_mm));
        DrawnShape shape;
        shape.outline.closed = true;
        for (int k = 0; k < 6; ++k)
            shape.outline.points_mm.push_back(
                middle + chance.within(15, 50) * glm::dvec2(std::cos(k * 1.05), std::sin(k * 1.05)));
        field.shapes.push_back(shape);
    }
}

/// Puts a field of its own outline before the first, which else it is like.
inline Field& add_figure(Layout& layout, Stroke outline) {
    Field figure = layout.fields[0];
    figure.name = "figure";
    figure.outline = std::move(outline);
    return *layout.fields.insert(layout.fields.begin(), std::move(figure));
}

/// Squares of 10 mm on a lattice, 1.5 mm apart, row by row from the lower left corner.
inline std::vector<Piece> square_pieces(int columns, int rows) {
    std::vector<Piece> pieces;
    for (int y = 0; y < rows; ++y)
        for (int x = 0; x < columns; ++x) {
            Piece p;
            const glm::dvec2 o(x * 11.5, y * 11.5);
            p.outline_mm = {o, o + glm::dvec2(10, 0), o + glm::dvec2(10, 10), o + glm::dvec2(0, 10)};
            pieces.push_back(p);
        }
    return pieces;
}

}  // namespace rakelight
