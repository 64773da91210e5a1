#include "output/paper/painter.h"

namespace rakelight {

namespace {

constexpr EncodedSrgb kWhite{1, 1, 1};

void take(cairo_t* c, const EncodedSrgb& colour) {
    cairo_set_source_rgb(c, colour.r, colour.g, colour.b);
}

void paint(cairo_t* c, const TracedShape& shape, const DrawnPen& pen) {
    for (const auto& line : shape.lines_mm) {
        cairo_new_sub_path(c);
        for (const auto& p : line) cairo_line_to(c, p.x, p.y);
        if (shape.closed) cairo_close_path(c);
    }
    if (const auto& fill = shape.fill ? shape.fill : pen.fill) {
        take(c, from_bytes(*fill));
        cairo_fill_preserve(c);
    }
    if (pen.line) {
        take(c, from_bytes(*pen.line));
        cairo_stroke_preserve(c);
    }
    cairo_new_path(c);
}

}  // namespace

void paint(cairo_t* c, const PageBox& box) {
    take(c, box.colour);
    cairo_rectangle(c, box.at_mm.x, box.at_mm.y, box.size_mm.x, box.size_mm.y);
    cairo_fill(c);
}

void paint(cairo_t* c, const PageLine& line) {
    take(c, line.colour);
    cairo_set_line_width(c, line.width_mm);
    cairo_set_line_join(c, CAIRO_LINE_JOIN_ROUND);
    for (const glm::dvec2& p : line.points_mm) cairo_line_to(c, p.x, p.y);
    cairo_stroke(c);
}

void paint(cairo_t* c, const PageText& text, double halo_mm) {
    if (halo_mm > 0) {
        add_outline(c, text);
        take(c, kWhite);
        cairo_set_line_width(c, 2 * halo_mm);
        cairo_set_line_join(c, CAIRO_LINE_JOIN_ROUND);
        cairo_stroke(c);
    }
    take(c, text.colour);
    show_text(c, text);
}

void paint(cairo_t* c, const Page& page) {
    for (const PageBox& box : page.boxes) paint(c, box);
    for (const PageLine& line : page.lines) paint(c, line);
    for (const PageText& text : page.texts) paint(c, text);
}

void paint(cairo_t* c, const TracedLayer& layer) {
    cairo_save(c);
    if (layer.window) {
        cairo_rectangle(c, layer.window->at_mm.x, layer.window->at_mm.y, layer.window->size_mm.x,
                        layer.window->size_mm.y);
        cairo_clip(c);
    }
    cairo_set_line_width(c, layer.pen.width_mm);
    cairo_set_line_join(c, CAIRO_LINE_JOIN_ROUND);
    cairo_set_line_cap(c, CAIRO_LINE_CAP_ROUND);
    cairo_set_dash(c, layer.pen.dash_mm.data(), static_cast<int>(layer.pen.dash_mm.size()), 0);
    for (const TracedShape& shape : layer.shapes) paint(c, shape, layer.pen);
    cairo_restore(c);
    for (const PageText& text : layer.texts) paint(c, text, layer.halo_mm);
}

}  // namespace rakelight
