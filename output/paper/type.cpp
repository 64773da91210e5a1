#include "output/paper/type.h"

#include <cairo.h>
#include <fmt/format.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <memory>
#include <span>

#include "output/paper/ink.h"

namespace rakelight {

namespace {

constexpr const char* kFamily =
    "DejaVu Sans";  // wide cover of scripts, figures of one width, in every Debian

template <auto release>
struct Freed {
    template <class T>
    void operator()(T* it) const {
        release(it);
    }
};
template <class T>
using Object = std::unique_ptr<T, Freed<g_object_unref>>;

double in_em(int pango_units) {
    return pango_units / (PANGO_SCALE * kOutlineEm);
}

// A paragraph set at kOutlineEm, so that Pango's whole units are a millionth of the em.
Object<PangoLayout> layout_of(const PageText& text) {
    // The font map is the thread's own: Pango's are not for several threads at once.
    const Object<PangoContext> context(pango_font_map_create_context(pango_cairo_font_map_get_default()));
    const std::unique_ptr<cairo_font_options_t, Freed<cairo_font_options_destroy>> options(
        cairo_font_options_create());
    cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    pango_cairo_context_set_font_options(context.get(), options.get());
    pango_context_set_round_glyph_positions(context.get(), FALSE);
    pango_context_set_language(context.get(), pango_language_from_string("en"));  // else the environment's
    const std::unique_ptr<PangoFontDescription, Freed<pango_font_description_free>> font(
        pango_font_description_new());
    pango_font_description_set_family_static(font.get(), kFamily);
    pango_font_description_set_weight(font.get(), text.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_font_description_set_absolute_size(font.get(), kOutlineEm * PANGO_SCALE);
    Object<PangoLayout> layout(pango_layout_new(context.get()));
    pango_layout_set_font_description(layout.get(), font.get());
    pango_layout_set_single_paragraph_mode(layout.get(), TRUE);
    const std::string line = sound(text.text);
    pango_layout_set_text(layout.get(), line.data(), static_cast<int>(line.size()));
    return layout;
}

// The same, no wider than the room.
Object<PangoLayout> layout_within(const PageText& text, double room_mm) {
    Object<PangoLayout> layout = layout_of(text);
    const double room = std::max(0.0, room_mm) / text.size_mm * kOutlineEm * PANGO_SCALE;
    pango_layout_set_width(layout.get(), static_cast<int>(std::ceil(std::min(room, 1e9))));
    return layout;
}

PangoLayoutLine* first_line(const Object<PangoLayout>& layout) {
    return pango_layout_get_line_readonly(layout.get(), 0);
}

double width_em(const Object<PangoLayout>& layout) {
    PangoRectangle logical{};
    pango_layout_line_get_extents(first_line(layout), nullptr, &logical);
    return in_em(logical.width);
}

glm::dvec2 left_end(const PageText& text, const Object<PangoLayout>& layout) {
    const double share = text.align == Align::left ? 0 : text.align == Align::centre ? 0.5 : 1;
    return text.baseline_mm - glm::dvec2(share * text.size_mm * width_em(layout), 0);
}

std::string without_end_blanks(std::string text) {
    text.erase(text.find_last_not_of(' ') + 1);
    return text;
}

// Millimetres of the page to units of outlines.
void go_to(cairo_t* c, const PageText& text, const Object<PangoLayout>& layout) {
    const glm::dvec2 at = left_end(text, layout);
    cairo_translate(c, at.x, at.y);
    cairo_scale(c, text.size_mm / kOutlineEm, text.size_mm / kOutlineEm);
}

using Path = std::unique_ptr<cairo_path_t, Freed<cairo_path_destroy>>;

std::string path_data(const Path& path) {
    std::string data;
    auto out = std::back_inserter(data);
    for (int i = 0; i < path->num_data; i += path->data[i].header.length) {
        const cairo_path_data_t* part = &path->data[i];
        // A move after the last close is where the next letter would start.
        if (part->header.type == CAIRO_PATH_MOVE_TO && i + part->header.length >= path->num_data) break;
        data += "MLCZ"[part->header.type];
        for (int k = 1; k < part->header.length; ++k)
            fmt::format_to(out, "{}{} {}", k > 1 ? " " : "", std::lround(part[k].point.x),
                           std::lround(part[k].point.y));
    }
    return data;
}

// Calls `set(at, path)` for each glyph: where its origin stands from the line's left end, and its outline,
// both in units of kOutlineEm to the em. One by one and large: no hinting bends such shapes, and cairo drops
// glyphs that are far from the surface.
template <class Set>
void each_glyph(const Object<PangoLayout>& layout, Set&& set) {
    const std::unique_ptr<cairo_surface_t, Freed<cairo_surface_destroy>> surface(
        cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1));
    const std::unique_ptr<cairo_t, Freed<cairo_destroy>> context(cairo_create(surface.get()));
    const std::unique_ptr<PangoGlyphString, Freed<pango_glyph_string_free>> one(pango_glyph_string_new());
    pango_glyph_string_set_size(one.get(), 1);
    glm::dvec2 pen(0);
    for (const GSList* run = first_line(layout)->runs; run; run = run->next) {
        const auto* item = static_cast<const PangoGlyphItem*>(run->data);
        for (const PangoGlyphInfo& glyph : std::span(
                 item->glyphs->glyphs, static_cast<std::size_t>(std::max(0, item->glyphs->num_glyphs)))) {
            one->glyphs[0] = glyph;
            one->glyphs[0].geometry.x_offset = one->glyphs[0].geometry.y_offset = 0;
            cairo_new_path(context.get());
            pango_cairo_glyph_string_path(context.get(), item->item->analysis.font, one.get());
            set(pen + glm::dvec2(glyph.geometry.x_offset, glyph.geometry.y_offset) / double(PANGO_SCALE),
                Path(cairo_copy_path(context.get())));
            pen.x += glyph.geometry.width / double(PANGO_SCALE);
        }
    }
}

}  // namespace

std::string sound(std::string_view text) {
    std::string s(text.substr(0, text.find('\0')));
    const char* bad = s.c_str();
    while (!g_utf8_validate(bad, -1, &bad)) s[static_cast<std::size_t>(bad - s.c_str())] = '?';
    std::replace_if(
        s.begin(), s.end(), [](unsigned char c) { return c < 0x20 || c == 0x7f; }, ' ');
    return s;
}

double width_mm(const PageText& text) {
    return text.size_mm * width_em(layout_of(text));
}

int missing_glyphs(const PageText& text) {
    return pango_layout_get_unknown_glyphs_count(layout_of(text).get());
}

std::vector<std::string> wrapped(const PageText& text, double room_mm) {
    const Object<PangoLayout> layout = layout_within(text, room_mm);
    pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
    const std::unique_ptr<PangoAttrList, Freed<pango_attr_list_unref>> no_hyphens(pango_attr_list_new());
    pango_attr_list_insert(no_hyphens.get(), pango_attr_insert_hyphens_new(FALSE));
    pango_layout_set_attributes(layout.get(), no_hyphens.get());
    const std::string_view all = pango_layout_get_text(layout.get());
    std::vector<std::string> lines;
    for (int i = 0; i < pango_layout_get_line_count(layout.get()); ++i) {
        const PangoLayoutLine* line = pango_layout_get_line_readonly(layout.get(), i);
        lines.push_back(without_end_blanks(std::string(all.substr(static_cast<std::size_t>(line->start_index),
                                                                  static_cast<std::size_t>(line->length)))));
    }
    return lines;
}

PageText cut(PageText text, double room_mm) {
    const Object<PangoLayout> layout = layout_within(text, room_mm);
    pango_layout_set_ellipsize(layout.get(), PANGO_ELLIPSIZE_END);
    for (const GSList* run = first_line(layout)->runs; run; run = run->next) {
        const PangoItem* item = static_cast<const PangoGlyphItem*>(run->data)->item;
        if (!(item->analysis.flags & PANGO_ANALYSIS_FLAG_IS_ELLIPSIS)) continue;
        const std::string_view all = pango_layout_get_text(layout.get());
        const auto kept = static_cast<std::size_t>(item->offset);
        text.text = without_end_blanks(std::string(all.substr(0, kept))) + "\u2026";
    }
    return text;
}

PageText fitted(PageText text, double room_mm) {
    const double wide_mm = width_mm(text);
    if (wide_mm <= room_mm) return text;
    text.size_mm *= std::max(0.5, room_mm / wide_mm);
    return 0.5 * wide_mm <= room_mm ? text : cut(std::move(text), room_mm);
}

glm::dvec2 left_end_mm(const PageText& text) {
    return left_end(text, layout_of(text));
}

std::pair<glm::dvec2, glm::dvec2> inked_mm(const PageText& text) {
    const Object<PangoLayout> layout = layout_of(text);
    PangoRectangle ink{};
    pango_layout_line_get_extents(first_line(layout), &ink, nullptr);
    const glm::dvec2 low = left_end(text, layout) + text.size_mm * glm::dvec2(in_em(ink.x), in_em(ink.y));
    return {low, low + text.size_mm * glm::dvec2(in_em(ink.width), in_em(ink.height))};
}

void show_text(cairo_t* context, const PageText& text) {
    cairo_new_path(context);
    if (cairo_surface_get_type(cairo_get_target(context)) == CAIRO_SURFACE_TYPE_IMAGE) {
        add_outline(context, text);
        cairo_fill(context);
        return;
    }
    const Object<PangoLayout> layout = layout_of(text);
    cairo_save(context);
    go_to(context, text, layout);
    pango_cairo_update_layout(context, layout.get());
    cairo_move_to(context, 0, 0);
    pango_cairo_show_layout_line(context, first_line(layout));
    cairo_new_path(context);
    cairo_restore(context);
}

void add_outline(cairo_t* context, const PageText& text) {
    const Object<PangoLayout> layout = layout_of(text);
    cairo_save(context);
    go_to(context, text, layout);
    each_glyph(layout, [&](const glm::dvec2& at, const Path& path) {
        cairo_translate(context, at.x, at.y);
        cairo_append_path(context, path.get());
        cairo_translate(context, -at.x, -at.y);
    });
    cairo_restore(context);
}

std::vector<SetGlyph> glyphs_of(const PageText& text) {
    std::vector<SetGlyph> set;
    each_glyph(layout_of(text), [&](const glm::dvec2& at, const Path& path) {
        SetGlyph placed{at / kOutlineEm, path_data(path)};
        if (!placed.outline.empty()) set.push_back(std::move(placed));
    });
    return set;
}

namespace sheet {

PageText plain(std::string text, const glm::dvec2& baseline_mm, Align align) {
    return {std::move(text), baseline_mm, kText_mm, false, align, kInk};
}

PageText caption(std::string text, const glm::dvec2& baseline_mm, Align align) {
    return {std::move(text), baseline_mm, kCaption_mm, false, align, kInk};
}

std::string number(double value, int decimals) {
    std::string text = fmt::format("{:.{}f}", value, decimals);
    if (text.find_first_not_of("-0.") == std::string::npos && text[0] == '-') text.erase(0, 1);
    if (text[0] == '-') text.replace(0, 1, "\u2212");
    return text;
}

}  // namespace sheet

}  // namespace rakelight
