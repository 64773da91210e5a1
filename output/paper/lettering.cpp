#include "output/paper/lettering.h"

#include <string>

#include "output/paper/ink.h"
#include "output/paper/lettering_cairo.h"

namespace rakelight {

namespace {

constexpr const char* kFamily =
    "DejaVu Sans";  // wide cover of scripts, figures of one width, in every Debian

}  // namespace

std::string sound(std::string_view text) {
    std::string s(text.substr(0, text.find('\0')));
    std::size_t i = 0;
    const auto byte = [&](std::size_t k) { return static_cast<unsigned char>(s[k]); };
    while (i < s.size()) {
        const unsigned char lead = byte(i);
        const std::size_t more = lead < 0x80         ? 0
                                 : (lead >> 5) == 6  ? 1
                                 : (lead >> 4) == 14 ? 2
                                 : (lead >> 3) == 30 ? 3
                                                     : 4;
        bool good = more < 4 && i + more < s.size();
        for (std::size_t k = 1; good && k <= more; ++k) good = (byte(i + k) >> 6) == 2;
        if (!good) s[i] = '?';
        i += good ? more + 1 : 1;
    }
    return s;
}

void choose(cairo_t* context, const Lettering& how) {
    cairo_select_font_face(context, kFamily, CAIRO_FONT_SLANT_NORMAL,
                           how.bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(context, how.size_px);
    const std::unique_ptr<cairo_font_options_t, decltype(&cairo_font_options_destroy)> options(
        cairo_font_options_create(), cairo_font_options_destroy);
    cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);  // the same shapes at every size
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    cairo_set_font_options(context, options.get());
}

namespace {

cairo_text_extents_t extents(const std::string& text, const Lettering& how) {
    const std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> surface(
        cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1), cairo_surface_destroy);
    const std::unique_ptr<cairo_t, decltype(&cairo_destroy)> context(cairo_create(surface.get()),
                                                                     cairo_destroy);
    choose(context.get(), how);
    cairo_text_extents_t e{};
    cairo_text_extents(context.get(), text.c_str(), &e);
    return e;
}

}  // namespace

double text_width_px(std::string_view text, const Lettering& how) {
    return extents(sound(text), how).x_advance;
}

void write_text(Print& print, std::string_view text, const glm::dvec2& baseline_px, const Lettering& how) {
    const std::string line = sound(text);
    const cairo_text_extents_t e = extents(line, how);
    const double back = how.align == Align::left     ? 0
                        : how.align == Align::centre ? e.x_advance / 2
                                                     : e.x_advance;
    const glm::dvec2 start(baseline_px.x - back, baseline_px.y);
    const glm::dvec2 low = start + glm::dvec2(e.x_bearing, e.y_bearing) - 2.0;
    ink(print, low, low + glm::dvec2(e.width, e.height) + 4.0, how.colour, [&](cairo_t* context) {
        choose(context, how);
        cairo_move_to(context, start.x, start.y);
        cairo_show_text(context, line.c_str());
    });
}

}  // namespace rakelight
