#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cmath>
#include <iterator>
#include <map>
#include <pugixml.hpp>
#include <set>

#include "output/paper/tracing.h"

namespace rakelight {

namespace {

std::string hex(const Rgb8& c) {
    return fmt::format("#{:02x}{:02x}{:02x}", c[0], c[1], c[2]);
}

double tidy(double mm) {
    return std::round(mm * 1e4) / 1e4 + 0.0;
}

std::string number(double mm) {
    return fmt::format("{}", tidy(mm));
}

void put(pugi::xml_node node, const char* name, const std::string& value) {
    node.append_attribute(name).set_value(value.c_str());
}

void put_words(pugi::xml_node node, const char* name, std::string_view words) {
    node.append_child(name).text().set(sound(words).c_str());
}

/// Puts a drawing together layer by layer.
class Svg {
  public:
    std::string whole(const Tracing& drawing) {
        const std::string wide = number(drawing.size_mm.x), high = number(drawing.size_mm.y);
        pugi::xml_node declaration = file_.append_child(pugi::node_declaration);
        put(declaration, "version", "1.0");
        put(declaration, "encoding", "UTF-8");
        svg_ = file_.append_child("svg");
        put(svg_, "xmlns", "http://www.w3.org/2000/svg");
        put(svg_, "xmlns:xlink", "http://www.w3.org/1999/xlink");
        put(svg_, "version", "1.1");
        put(svg_, "width", wide + "mm");
        put(svg_, "height", high + "mm");
        put(svg_, "viewBox", fmt::format("0 0 {} {}", wide, high));
        put_words(svg_, "title", drawing.title);
        put_words(svg_, "desc", drawing.note);
        definitions_ = svg_.append_child("defs");
        for (const TracedLayer& layer : drawing.layers) add(layer);
        if (!definitions_.first_child()) svg_.remove_child(definitions_);
        Bytes bytes;
        file_.save(bytes, "");
        return std::move(bytes.text);
    }

  private:
    struct Bytes : pugi::xml_writer {
        std::string text;
        void write(const void* data, std::size_t size) override {
            text.append(static_cast<const char*>(data), size);
        }
    };

    void add(const TracedLayer& layer) {
        std::string id = xml_id(layer.name);
        for (int n = 2; !ids_.insert(id).second; ++n) id = fmt::format("{}_{}", xml_id(layer.name), n);
        pugi::xml_node group = svg_.append_child("g");
        put(group, "id", id);
        put(group, "fill", layer.pen.fill ? hex(*layer.pen.fill) : "none");
        if (layer.pen.line) {
            put(group, "stroke", hex(*layer.pen.line));
            put(group, "stroke-width", number(layer.pen.width_mm));
            put(group, "stroke-linejoin", "round");
            put(group, "stroke-linecap", "round");
        }
        if (!layer.pen.dash_mm.empty())
            put(group, "stroke-dasharray", fmt::format("{}", fmt::join(layer.pen.dash_mm, " ")));
        if (layer.window) put(group, "clip-path", window(*layer.window, id));
        put_words(group, "title", layer.name);
        for (const TracedShape& shape : layer.shapes) add(group, shape, id);
        if (layer.texts.empty()) return;
        pugi::xml_node words = svg_.append_child("g");
        for (const PageText& text : layer.texts) add(words, text, layer.halo_mm);
    }

    std::string window(const PageBox& box, const std::string& layer_id) {
        pugi::xml_node clip = definitions_.append_child("clipPath");
        put(clip, "id", layer_id + ".window");
        pugi::xml_node rect = clip.append_child("rect");
        put(rect, "x", number(box.at_mm.x));
        put(rect, "y", number(box.at_mm.y));
        put(rect, "width", number(box.size_mm.x));
        put(rect, "height", number(box.size_mm.y));
        return fmt::format("url(#{}.window)", layer_id);
    }

    static void add(pugi::xml_node group, const TracedShape& shape, const std::string& layer_id) {
        pugi::xml_node path = group.append_child("path");
        if (!shape.id.empty()) put(path, "id", xml_id(layer_id + '.' + shape.id));
        if (shape.fill) put(path, "fill", hex(*shape.fill));
        std::string data;
        for (const auto& line : shape.lines_mm) {
            for (std::size_t i = 0; i < line.size(); ++i)
                fmt::format_to(std::back_inserter(data), "{}{} {}", i ? 'L' : 'M', tidy(line[i].x),
                               tidy(line[i].y));
            if (shape.closed) data += 'Z';
        }
        put(path, "d", data);
    }

    void add(pugi::xml_node words, const PageText& text, double halo_mm) {
        const std::vector<SetGlyph> glyphs = glyphs_of(text);
        // A halo is the same letters with a wide pen, below them all. Its width is in units of the letters.
        if (halo_mm > 0) {
            pugi::xml_node halo = words.append_child("g");
            put(halo, "fill", "none");
            put(halo, "stroke", "#ffffff");
            put(halo, "stroke-width", fmt::format("{:.4g}", 2 * halo_mm * kOutlineEm / text.size_mm));
            put(halo, "stroke-linejoin", "round");
            set(halo, text, glyphs);
        }
        pugi::xml_node line = words.append_child("g");
        put(line, "fill", hex(to_bytes(text.colour)));
        set(line, text, glyphs);
    }

    void set(pugi::xml_node group, const PageText& text, const std::vector<SetGlyph>& glyphs) {
        const glm::dvec2 left_mm = left_end_mm(text);
        for (const SetGlyph& glyph : glyphs) {
            const glm::dvec2 at = left_mm + text.size_mm * glyph.at_em;
            pugi::xml_node use = group.append_child("use");
            put(use, "xlink:href", '#' + id_of(glyph.outline));
            put(use, "transform",
                fmt::format("translate({} {}) scale({:.6g})", tidy(at.x), tidy(at.y),
                            text.size_mm / kOutlineEm));
        }
    }

    const std::string& id_of(const std::string& outline) {
        const auto [it, fresh] = letters_.try_emplace(outline);
        if (fresh) {
            it->second = fmt::format("letter.{}", letters_.size());
            pugi::xml_node path = definitions_.append_child("path");
            put(path, "id", it->second);
            put(path, "d", outline);
        }
        return it->second;
    }

    pugi::xml_document file_;
    pugi::xml_node svg_, definitions_;
    std::set<std::string> ids_;
    std::map<std::string, std::string> letters_;  // by outline
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
