// Small layouts built by hand for the tests of laying.
#pragma once

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "materials/maths/hash.h"
#include "scene/flow/keystone.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/opus/opera.h"

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

/// A material of the layout's stock.
inline const Material& stuff_called(const Layout& layout, const std::string& name) {
    for (const Material& m : layout.stock)
        if (m.name == name) return m;
    throw std::invalid_argument("no material " + name);
}

/// Indices in the stock and the tints of `sample_layout`.
enum SampleStock : std::uint32_t { kGlass, kSlate, kPumice, kSlag };
enum SampleTint : std::uint32_t { kGrout, kBed, kOther };

/// Adds a material or tint to a list. \return its index there.
inline std::uint32_t add_material(std::vector<Material>& list, Material material) {
    list.push_back(std::move(material));
    return static_cast<std::uint32_t>(list.size() - 1);
}

/// A panel of 600 by 400 mm with one field that covers it: glass, one grout, one bed.
inline Layout sample_layout(Opus opus, double length_mm, double width_mm, double joint_mm) {
    Layout layout;
    layout.panel.width_mm = 600;
    layout.panel.height_mm = 400;
    layout.panel.seed = 7;
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
    field.mix = {{kGlass, 1}};
    field.bed = kBed;
    field.grout = kGrout;
    if (opus == Opus::musivum)
        field.guides = {smooth_stroke({{-10, 60}, {150, 120}, {300, 60}, {450, 120}, {620, 80}}, false),
                        smooth_stroke({{-10, 250}, {120, 330}, {260, 230}, {420, 300}, {620, 200}}, false)};
    layout.fields = {field};
    return layout;
}

/// The drawing of a sectile field, edge to edge: bricks of these sides in courses that step by half a brick.
/// Whole columns of them are to fit `size_mm`; the joints are drawn in from their edges.
inline std::vector<DrawnShape> drawn_bricks(const glm::dvec2& size_mm, double length_mm, double width_mm) {
    std::vector<DrawnShape> shapes;
    int course = 0;
    for (double y = 0; y < size_mm.y - 1e-6; y += width_mm, ++course)
        for (double x = course % 2 ? -length_mm / 2 : 0; x < size_mm.x - 1e-6; x += length_mm) {
            DrawnShape brick;
            const double right = std::min(x + length_mm, size_mm.x), left = std::max(x, 0.0),
                         top = std::min(y + width_mm, size_mm.y);
            brick.outline.points_mm = {{left, y}, {right, y}, {right, top}, {left, top}};
            brick.outline.closed = true;
            shapes.push_back(std::move(brick));
        }
    return shapes;
}

/// What the reader asks of a field beside its opus (scene/reading/field/opus.cpp): the halo of classicum,
/// arcs that a piece can be wedged for, a drawing.
inline void give_what_opus_needs(Field& field, const glm::dvec2& panel_mm) {
    const OpusRule& rule = rule_of(field.opus);
    if (!rule.no_halo_is.empty()) field.halo_rows = std::max(field.halo_rows, 1);
    field.halo_at_panel_edge = rule.usual_halo > 0;
    if (!rule.takes_halo) field.halo_rows = 0;
    if (field.opus == Opus::fans)
        field.fan_radius_mm = std::max(10 * field.piece_width_mm, (field.piece_length_mm + field.joint_mm) /
                                                                      glm::radians(kMostWedge_deg));
    if (rule.drawn)
        field.shapes = drawn_bricks(panel_mm, field.piece_length_mm + field.joint_mm,
                                    field.piece_width_mm + field.joint_mm);
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
