#include <fmt/format.h>

#include <cmath>
#include <iterator>
#include <map>
#include <set>

#include "output/paper/letter_shapes.h"
#include "output/paper/tracing.h"

namespace rakelight {

namespace {

std::string escaped(std::string_view text) {
    std::string out;
    for (const std::string& letter : letters_of(text)) {
        if (letter == "&")
            out += "&amp;";
        else if (letter == "<")
            out += "&lt;";
        else if (letter == ">")
            out += "&gt;";
        else if (letter == "\"")
            out += "&quot;";
        else
            out += static_cast<unsigned char>(letter[0]) < 0x20 ? " " : letter;
    }
    return out;
}

std::string hex(const Rgb8& c) {
    return fmt::format("#{:02x}{:02x}{:02x}", c[0], c[1], c[2]);
}

double tidy(double mm) {
    return std::round(mm * 1e4) / 1e4 + 0.0;
}

/// Puts a drawing together piece by piece.
class Svg {
  public:
    std::string whole(const Tracing& drawing) {
        for (const TracedLayer& layer : drawing.layers) add(layer);
        std::string out = fmt::format(
            "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
            "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" "
            "version=\"1.1\" "
            "width=\"{0}mm\" height=\"{1}mm\" viewBox=\"0 0 {0} "
            "{1}\">\n<title>{2}</title>\n<desc>{3}</desc>\n",
            tidy(drawing.size_mm.x), tidy(drawing.size_mm.y), escaped(drawing.title), escaped(drawing.note));
        if (!definitions_.empty()) out += "<defs>\n" + definitions_ + "</defs>\n";
        return out + body_ + "</svg>\n";
    }

  private:
    void add(const TracedLayer& layer) {
        auto out = std::back_inserter(body_);
        std::string id = xml_id(layer.name);
        for (int n = 2; !ids_.insert(id).second; ++n) id = fmt::format("{}_{}", xml_id(layer.name), n);
        if (layer.window) {
            fmt::format_to(std::back_inserter(definitions_),
                           "<clipPath id=\"{}.window\"><rect x=\"{}\" y=\"{}\" width=\"{}\" "
                           "height=\"{}\"/></clipPath>\n",
                           id, tidy(layer.window->at_mm.x), tidy(layer.window->at_mm.y),
                           tidy(layer.window->size_mm.x), tidy(layer.window->size_mm.y));
        }
        fmt::format_to(out, "<g id=\"{}\" fill=\"{}\"", id, layer.pen.fill ? hex(*layer.pen.fill) : "none");
        if (layer.pen.line)
            fmt::format_to(
                out, " stroke=\"{}\" stroke-width=\"{}\" stroke-linejoin=\"round\" stroke-linecap=\"round\"",
                hex(*layer.pen.line), tidy(layer.pen.width_mm));
        if (!layer.pen.dash_mm.empty())
            fmt::format_to(out, " stroke-dasharray=\"{}\"", fmt::join(layer.pen.dash_mm, " "));
        if (layer.window) fmt::format_to(out, " clip-path=\"url(#{}.window)\"", id);
        fmt::format_to(out, ">\n<title>{}</title>\n", escaped(layer.name));
        for (const TracedShape& shape : layer.shapes) add(shape, id);
        body_ += "</g>\n";
        if (layer.texts.empty()) return;
        body_ += "<g>\n";
        for (const PageText& text : layer.texts) add(text, layer.halo_mm);
        body_ += "</g>\n";
    }

    void add(const TracedShape& shape, const std::string& layer_id) {
        auto out = std::back_inserter(body_);
        body_ += "<path";
        if (!shape.id.empty()) fmt::format_to(out, " id=\"{}\"", xml_id(layer_id + '.' + shape.id));
        if (shape.fill) fmt::format_to(out, " fill=\"{}\"", hex(*shape.fill));
        body_ += " d=\"";
        for (const auto& line : shape.lines_mm) {
            for (std::size_t i = 0; i < line.size(); ++i)
                fmt::format_to(out, "{}{} {}", i ? 'L' : 'M', tidy(line[i].x), tidy(line[i].y));
            if (shape.closed) body_ += 'Z';
        }
        body_ += "\"/>\n";
    }

    void add(const PageText& text, double halo_mm) {
        const std::vector<std::string> letters = letters_of(text.text);
        const double scale = text.size_mm / kLetterEm;
        double width = 0;
        for (const std::string& letter : letters) width += shape_of(letter, text.bold).advance * scale;
        const double x = text.baseline_mm.x - (text.align == Align::left     ? 0
                                               : text.align == Align::centre ? width / 2
                                                                             : width);
        // A halo is the same letters with a wide pen, below them all. Its width is in units of the letters.
        if (halo_mm > 0)
            set(letters, text, x, scale,
                fmt::format(
                    "fill=\"none\" stroke=\"#ffffff\" stroke-width=\"{:.4g}\" stroke-linejoin=\"round\"",
                    2 * halo_mm / scale));
        set(letters, text, x, scale, fmt::format("fill=\"{}\"", hex(to_bytes(text.colour))));
    }

    void set(const std::vector<std::string>& letters, const PageText& text, double x, double scale,
             const std::string& pen) {
        fmt::format_to(std::back_inserter(body_), "<g {}>", pen);
        for (const std::string& letter : letters) {
            const Known& known = shape_of(letter, text.bold);
            if (!known.id.empty())
                fmt::format_to(std::back_inserter(body_),
                               "<use xlink:href=\"#{}\" transform=\"translate({} {}) scale({:.6g})\"/>",
                               known.id, tidy(x), tidy(text.baseline_mm.y), scale);
            x += known.advance * scale;
        }
        body_ += "</g>\n";
    }

    struct Known {
        std::string id;
        double advance = 0;
    };
    const Known& shape_of(const std::string& letter, bool bold) {
        const auto [it, fresh] = letters_.try_emplace({letter, bold});
        if (fresh) {
            const LetterShape shape = letter_shape(letter, bold);
            it->second.advance = shape.advance;
            if (!shape.path.empty()) {
                it->second.id = fmt::format("letter.{}", letters_.size());
                fmt::format_to(std::back_inserter(definitions_), "<path id=\"{}\" d=\"{}\"/>\n",
                               it->second.id, shape.path);
            }
        }
        return it->second;
    }

    std::string definitions_;
    std::string body_;
    std::set<std::string> ids_;
    std::map<std::pair<std::string, bool>, Known> letters_;
};

}  // namespace

std::string xml_id(std::string_view name) {
    std::string id;
    for (const char c : name) {
        const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
        const bool inner = (c >= '0' && c <= '9') || c == '-' || c == '.';
        if (id.empty() && inner) id += '_';
        id += letter || inner ? c : '_';
    }
    if (id.empty()) id += '_';
    return id;
}

std::string tracing_svg(const Tracing& drawing) {
    return Svg().whole(drawing);
}

}  // namespace rakelight
