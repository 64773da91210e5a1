#include "output/paper/tracing_cairo.h"

#include "output/paper/lettering_cairo.h"

namespace rakelight {

namespace {

constexpr Rgb8 kPaper{255, 255, 255};

void take(cairo_t* c, const Rgb8& colour) {
    cairo_set_source_rgb(c, colour[0] / 255.0, colour[1] / 255.0, colour[2] / 255.0);
}

void draw(cairo_t* c, const TracedShape& shape, const Pen& pen) {
    for (const auto& line : shape.lines_mm) {
        cairo_new_sub_path(c);
        for (const auto& p : line) cairo_line_to(c, p.x, p.y);
        if (shape.closed) cairo_close_path(c);
    }
    if (const auto& fill = shape.fill ? shape.fill : pen.fill) {
        take(c, *fill);
        cairo_fill_preserve(c);
    }
    if (pen.line) {
        take(c, *pen.line);
        cairo_stroke_preserve(c);
    }
    cairo_new_path(c);
}

void draw(cairo_t* c, const PageText& text, double halo_mm) {
    const std::string line = sound(text.text);
    choose(c, {text.size_mm, text.bold, text.align, text.colour});
    cairo_text_extents_t extents{};
    cairo_text_extents(c, line.c_str(), &extents);
    const double back = text.align == Align::left     ? 0
                        : text.align == Align::centre ? extents.x_advance / 2
                                                      : extents.x_advance;
    if (halo_mm > 0) {
        cairo_move_to(c, text.baseline_mm.x - back, text.baseline_mm.y);
        cairo_text_path(c, line.c_str());
        take(c, kPaper);
        cairo_set_line_width(c, 2 * halo_mm);
        cairo_stroke(c);
    }
    take(c, to_bytes(text.colour));
    cairo_move_to(c, text.baseline_mm.x - back, text.baseline_mm.y);
    cairo_show_text(c, line.c_str());
}

}  // namespace

void draw_layer(cairo_t* c, const TracedLayer& layer) {
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
    for (const TracedShape& shape : layer.shapes) draw(c, shape, layer.pen);
    cairo_restore(c);
    cairo_set_line_join(c, CAIRO_LINE_JOIN_ROUND);
    for (const PageText& text : layer.texts) draw(c, text, layer.halo_mm);
}

}  // namespace rakelight
