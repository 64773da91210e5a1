#include "scene/drawing/svg/reader.h"

#include <fmt/format.h>

#include <fstream>
#include <iterator>
#include <unordered_map>
#include <utility>

#include "scene/drawing/svg/document.h"
#include "scene/drawing/svg/leftovers.h"
#include "scene/drawing/svg/names.h"
#include "scene/drawing/svg/number.h"
#include "scene/drawing/svg/shapes.h"
#include "scene/drawing/svg/viewport.h"
#include "scene/text/diagnostics.h"
#include "scene/text/units.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {
namespace {

using pugi::xml_node;

/// What an element has from those round it.
struct Setting {
    Geom::Affine to_panel;
    Geom::Point viewport_px;  ///< size that a percentage would be of
    bool visible = true;
    bool even_odd = false;
    bool filled = false;    ///< somebody said so: the standard's own black fill does not count
    bool unfilled = false;  ///< somebody said so
    int group = -1;
    int depth = 0;
};

class Reader {
  public:
    Reader(std::string_view text, const std::string& file, const SvgOptions& options)
        : document_(text, file), options_(options), problems_(file) {
        drawing_.file = file;
        struct Index : pugi::xml_tree_walker {
            std::unordered_map<std::string_view, xml_node>& ids;
            explicit Index(std::unordered_map<std::string_view, xml_node>& to) : ids(to) {}
            bool for_each(xml_node& node) override {
                if (const auto id = node.attribute("id")) ids.emplace(id.value(), node);
                return true;
            }
        } index(by_id_);
        document_.root().traverse(index);
    }

    Drawing read() {
        const xml_node root = document_.root();
        Setting page;
        inherit(root, page);
        page.to_panel = page_transform(root, page.viewport_px);
        visit_children(root, page);
        problems_.throw_if_any();
        drawing_.warnings = leftovers_.told();
        return std::move(drawing_);
    }

  private:
    [[noreturn]] void refuse(const xml_node& node, std::string why) {
        throw LayoutError(document_.place_of(node), std::string(document_.svg_name(node)), std::move(why));
    }

    std::optional<double> length_px(const xml_node& node, const char* name) {
        const std::string_view value = svg_trimmed(node.attribute(name).value());
        if (value.empty() || value == "auto" || value == "100%") return std::nullopt;
        const auto px = read_svg_length_px(value);
        if (!px)
            leftovers_.add(document_.place_of(node), fmt::format("{}=\"{}\"", name, printable(value)),
                           "only px, mm, cm, in, pt and pc are lengths here");
        return px;
    }

    std::optional<Geom::Rect> view_box(const xml_node& node) {
        const pugi::xml_attribute given = node.attribute("viewBox");
        const auto box = read_svg_view_box(given.value());
        if (given && !box)
            problems_.add(
                document_.place_of(node), std::string(document_.svg_name(node)),
                "found viewBox=" + quoted(given.value()) + ", expected four numbers, the last two above 0");
        return box;
    }

    // 7.2 and 7.7; a page without a size of its own is as large as its viewBox.
    Geom::Affine page_transform(const xml_node& root, Geom::Point& viewport_px) {
        auto width = length_px(root, "width"), height = length_px(root, "height");
        const auto box = view_box(root);
        if (!width && !height && box) width = box->width();
        if (box && !width) width = *height * box->width() / box->height();
        if (box && !height) height = *width * box->height() / box->width();
        if (!width || !height) refuse(root, "found no size, expected width and height, or a viewBox");
        if (!(*width > 0) || !(*height > 0))
            refuse(root, "found a page without area, expected width and height above 0");
        const double mm_per_px = options_.width_mm > 0 ? options_.width_mm / *width : kMmPerPx;
        drawing_.size_mm = mm_per_px * glm::dvec2(*width, *height);
        viewport_px = box ? box->dimensions() : Geom::Point(*width, *height);
        const Geom::Affine up(mm_per_px, 0, 0, -mm_per_px, 0, drawing_.size_mm.y);
        if (!box) return up;
        return fit_view_box(*box, Geom::Rect::from_xywh(0, 0, *width, *height),
                            root.attribute("preserveAspectRatio").value()) *
               up;
    }

    /// The viewport of a nested svg or a used symbol; `use` may give its size.
    void enter_viewport(const xml_node& node, const xml_node& use, Setting& setting) {
        const bool placed = document_.svg_name(node) == "svg";
        const double x = placed ? length_px(node, "x").value_or(0) : 0;
        const double y = placed ? length_px(node, "y").value_or(0) : 0;
        const auto size = [&](const char* name, double whole) {
            if (use)
                if (const auto px = length_px(use, name)) return *px;
            return length_px(node, name).value_or(whole);
        };
        const double width = size("width", setting.viewport_px.x());
        const double height = size("height", setting.viewport_px.y());
        const auto box = view_box(node);
        const auto viewport = Geom::Rect::from_xywh(x, y, width, height);
        setting.to_panel = (box && width > 0 && height > 0
                                ? fit_view_box(*box, viewport, node.attribute("preserveAspectRatio").value())
                                : Geom::Affine(1, 0, 0, 1, x, y)) *
                           setting.to_panel;
        setting.viewport_px = box ? box->dimensions() : Geom::Point(width, height);
    }

    void inherit(const xml_node& node, Setting& setting) {
        if (const auto value = svg_property(node, "visibility"); !value.empty() && value != "inherit")
            setting.visible = value == "visible";
        if (const auto value = svg_property(node, "fill-rule"); !value.empty() && value != "inherit")
            setting.even_odd = value == "evenodd";
        if (const auto value = svg_property(node, "fill"); !value.empty() && value != "inherit")
            setting.filled = value != "none", setting.unfilled = !setting.filled;
        for (const char* name : {"clip-path", "mask", "filter"})
            if (const auto value = svg_property(node, name); !value.empty() && value != "none")
                leftovers_.add(document_.place_of(node), name, "shapes are read whole");
        const std::string_view transform = node.attribute("transform").value();
        if (transform.empty()) return;
        if (const auto affine = read_svg_transform(transform))
            setting.to_panel = *affine * setting.to_panel;
        else
            problems_.add(
                document_.place_of(node), std::string(document_.svg_name(node)),
                "found transform=" + quoted(transform) +
                    ", expected matrix, translate, scale, rotate, skewX or skewY with their numbers");
    }

    void visit_children(const xml_node& parent, const Setting& setting) {
        for (const xml_node& child : parent.children())
            if (child.type() == pugi::node_element) visit(child, setting);
    }

    void visit(const xml_node& node, Setting setting) {
        const std::string_view name = document_.svg_name(node);
        if (name.empty()) return;  // another vocabulary's, which the standard says is not drawn
        if (++elements_ > kMostDrawnElements)
            refuse(node, fmt::format("found more than {} elements up to here, expected a simpler drawing",
                                     kMostDrawnElements));
        if (++setting.depth > kMostDrawnDepth)
            refuse(node,
                   fmt::format("found elements more than {} deep, or one that uses itself", kMostDrawnDepth));
        const bool container =
            name == "g" || name == "a" || name == "svg" || name == "switch" || name == "use";
        if (!container && !is_svg_shape(name)) {
            if (const auto why = why_element_is_left_out(name); !why.empty())
                leftovers_.add(document_.place_of(node), std::string(printable(name)), why);
            return;
        }
        if (svg_property(node, "display") == "none") {
            leftovers_.add(document_.place_of(node), "what is hidden", "its display is none");
            return;
        }
        inherit(node, setting);
        if (is_svg_shape(name)) return draw(node, name, setting);
        drawing_.groups.push_back({svg_name_of(node), setting.group, document_.place_of(node)});
        setting.group = static_cast<int>(drawing_.groups.size()) - 1;
        if (name == "use") return visit_used(node, setting);
        if (name == "svg") enter_viewport(node, {}, setting);
        if (name == "switch") return visit_first(node, setting);
        visit_children(node, setting);
    }

    // 5.8.2: the first child that asks for nothing special.
    void visit_first(const xml_node& node, const Setting& setting) {
        for (const xml_node& child : node.children())
            if (child.type() == pugi::node_element && !document_.svg_name(child).empty() &&
                !child.attribute("requiredExtensions") && !child.attribute("systemLanguage") &&
                document_.svg_name(child) != "foreignObject")
                return visit(child, setting);
    }

    // 5.6
    void visit_used(const xml_node& use, Setting& setting) {
        std::string_view href = svg_href_of(use);
        if (!href.starts_with('#')) {
            leftovers_.add(document_.place_of(use), "use of another file",
                           "only what is in the drawing is read");
            return;
        }
        const auto found = by_id_.find(href.substr(1));
        if (found == by_id_.end()) {
            problems_.add(document_.place_of(use), "use",
                          "found " + quoted(href) + ", expected the id of an element");
            return;
        }
        setting.to_panel =
            Geom::Affine(1, 0, 0, 1, length_px(use, "x").value_or(0), length_px(use, "y").value_or(0)) *
            setting.to_panel;
        const xml_node target = found->second;
        const std::string_view name = document_.svg_name(target);
        if (name != "symbol" && name != "svg") return visit(target, setting);
        if (++setting.depth > kMostDrawnDepth)
            refuse(use,
                   fmt::format("found elements more than {} deep, or one that uses itself", kMostDrawnDepth));
        inherit(target, setting);
        enter_viewport(target, use, setting);
        visit_children(target, setting);
    }

    void draw(const xml_node& node, std::string_view name, const Setting& setting) {
        if (!setting.visible) {
            leftovers_.add(document_.place_of(node), "what is hidden", "its visibility is hidden");
            return;
        }
        DrawnPath path{svg_name_of(node),       setting.group, setting.even_odd, setting.unfilled, {},
                       document_.place_of(node)};
        const std::string& shown = path.name.shown();
        const std::string key = shown.empty() ? std::string(name) : printable(shown);
        Pen pen(setting.to_panel, options_.tolerance_mm, kMostDrawnPoints - points_);
        std::string problem;
        try {
            problem = draw_svg_shape(node, name, pen);
            path.lines = pen.take_lines();
        } catch (const PenError& error) {
            problem = std::string("found ") + error.what();
            if (points_ + pen.points_made() > kMostDrawnPoints) refuse(node, problem);
        }
        points_ += pen.points_made();
        if (!problem.empty()) problems_.add(path.place, key, problem);
        for (const DrawnLine& line : path.lines)
            if (!line.closed && setting.filled && line.points_mm.size() > 2)
                leftovers_.add(path.place, "the fill of an open path",
                               "only closed paths are outlines; close the path to make it one");
        if (!path.lines.empty()) drawing_.paths.push_back(std::move(path));
    }

    SvgDocument document_;
    SvgOptions options_;
    ProblemList problems_;
    Drawing drawing_;
    Leftovers leftovers_;
    std::unordered_map<std::string_view, xml_node> by_id_;  // looked up only, never walked
    std::size_t elements_ = 0, points_ = 0;
};

}  // namespace

Drawing read_svg_text(std::string_view text, std::string file, const SvgOptions& options) {
    return Reader(text, file, options).read();
}

Drawing read_svg(const std::filesystem::path& path, const SvgOptions& options) {
    const std::string file = path.string();
    const auto refuse = [&](std::string why) { throw LayoutError({file, 0, 0}, "", std::move(why)); };
    std::error_code error;
    if (!std::filesystem::is_regular_file(path, error)) refuse("found no such file, expected a drawing");
    if (std::filesystem::file_size(path, error) > kMostDrawingBytes || error)
        refuse("found a drawing over 64 MiB, expected a smaller one");
    std::ifstream stream(path, std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
    if (!stream.is_open() || stream.bad()) refuse("cannot be read");
    return read_svg_text(text, file, options);
}

}  // namespace rakelight
