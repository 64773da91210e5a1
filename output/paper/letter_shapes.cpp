#include "output/paper/letter_shapes.h"

#include <fmt/format.h>

#include <cmath>
#include <iterator>
#include <memory>

#include "output/paper/lettering_cairo.h"

namespace rakelight {

LetterShape letter_shape(std::string_view letter, bool bold) {
    const std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> surface(
        cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1), cairo_surface_destroy);
    const std::unique_ptr<cairo_t, decltype(&cairo_destroy)> context(cairo_create(surface.get()),
                                                                     cairo_destroy);
    choose(context.get(), {.size_px = kLetterEm, .bold = bold, .align = Align::left, .colour = {}});
    const std::string text = sound(letter);
    cairo_text_extents_t extents{};
    cairo_text_extents(context.get(), text.c_str(), &extents);
    cairo_text_path(context.get(), text.c_str());
    const std::unique_ptr<cairo_path_t, decltype(&cairo_path_destroy)> path(cairo_copy_path(context.get()),
                                                                            cairo_path_destroy);
    LetterShape shape;
    shape.advance = extents.x_advance;
    auto out = std::back_inserter(shape.path);
    for (int i = 0; i < path->num_data; i += path->data[i].header.length) {
        const cairo_path_data_t* data = &path->data[i];
        if (data->header.type == CAIRO_PATH_CLOSE_PATH) {
            shape.path += 'Z';
            continue;
        }
        // A move after the last close is where the next letter would start.
        if (data->header.type == CAIRO_PATH_MOVE_TO && i + data->header.length >= path->num_data) break;
        shape.path += data->header.type == CAIRO_PATH_MOVE_TO   ? 'M'
                      : data->header.type == CAIRO_PATH_LINE_TO ? 'L'
                                                                : 'C';
        for (int k = 1; k < data->header.length; ++k)
            fmt::format_to(out, "{}{} {}", k > 1 ? " " : "", std::lround(data[k].point.x),
                           std::lround(data[k].point.y));
    }
    return shape;
}

std::vector<std::string> letters_of(std::string_view text) {
    std::vector<std::string> letters;
    for (const char c : sound(text)) {
        const bool follows = (static_cast<unsigned char>(c) & 0xc0) == 0x80;
        if (!follows || letters.empty()) letters.emplace_back();
        letters.back() += c;
    }
    return letters;
}

}  // namespace rakelight
