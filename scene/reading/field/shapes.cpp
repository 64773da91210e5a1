#include "scene/reading/field/shapes.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "scene/geometry/region.h"
#include "scene/geometry/stroke.h"
#include "scene/keys/keys.h"
#include "scene/model/layout.h"
#include "scene/model/levels.h"
#include "scene/model/panel_spans.h"
#include "scene/opus/star_parts.h"
#include "scene/reading/field/strokes.h"

namespace rakelight {
namespace {

using Shape = YamlValue::Shape;

constexpr size_t kMostShapes = 2000;
constexpr double kSawRadius_mm = 2.5;  // of a hand saw's inside turn; common practice, no published source
constexpr double kAllowed_mm = 0.1;    // lines drawn twice need not agree any better

std::string at_mm(const glm::dvec2& p) {
    return fmt::format("[{:.1f}, {:.1f}] mm", p.x, p.y);
}

/// The middle of the largest part, when there is any.
std::optional<glm::dvec2> where(const Region& region, double least_mm2) {
    const Ring* largest = nullptr;
    for (const auto& ring : region.rings)
        if (!largest || area_mm2(ring) > area_mm2(*largest)) largest = &ring;
    if (!largest || area_mm2(*largest) < least_mm2) return std::nullopt;
    return centroid(*largest);
}

/// A part of the ground wider than lines that miss each other by a hair.
std::optional<glm::dvec2> real_part(const Region& region) {
    return where(grow(region, -kAllowed_mm / 2), 1e-3);
}

std::optional<DrawnShape> read_shape(const YamlValue& item, const std::string& key,
                                     const glm::dvec2& panel_mm, Section& in, Layout& layout,
                                     const Shelf& stock) {
    DrawnShape shape;
    const YamlValue* line = &item;
    std::string line_key = key;
    const bool whole = item.shape == Shape::mapping &&
                       std::any_of(item.members.begin(), item.members.end(), [](const YamlMember& m) {
                           return m.key.text == "outline" || m.key.text == "material";
                       });
    if (whole) {
        Section own(item, key, keys::shape, in.problems());
        line = own.require("outline", "a list of points, or {smooth: [...]}");
        line_key = own.path("outline");
        if (own.has("material")) shape.material = set_material(own, "material", "", stock, layout.stock);
        own.finish();
    }
    if (!line) return std::nullopt;
    auto outline = read_stroke(*line, line_key, true, keys::curve, in.problems());
    if (!outline) return std::nullopt;
    shape.outline = std::move(*outline);
    if (!check_outline(shape.outline, panel_mm, line_key, in.problems())) return std::nullopt;
    return shape;
}

/// What cannot be cut as it is drawn is said, with its place; it is parted all the same.
void check_cutting(const Region& region, const Field& field, const DrawnShape& shape, const std::string& key,
                   double thickness_mm, Layout& layout) {
    const auto warn = [&](const std::string& text) {
        layout.warnings.push_back(to_string(Problem{shape.outline.place, key, text}));
    };
    const Region piece = grow(region, -field.joint_mm / 2);
    const Region filled =
        subtract(grow(grow(piece, kSawRadius_mm, Corner::round), -kSawRadius_mm, Corner::round), piece);
    if (const auto at = where(filled, 0.25))
        warn(fmt::format("found an inside turn under {:g} mm radius near {}, too tight for a hand saw",
                         kSawRadius_mm, at_mm(*at)));
    if (const auto parts = star_parts(piece, std::max(field.joint_mm, 0.05), 1).size(); parts > 1)
        warn(fmt::format("found a shape too hollow to cut in one piece; it is laid in {} parts", parts));
    const double half = thickness_mm / 2;
    const Region tabs = subtract(piece, grow(grow(piece, -half), half + 1e-3));
    if (const auto at = where(tabs, 0.5 * thickness_mm * thickness_mm))
        warn(fmt::format("found a tab narrower than the {:.6g} mm that it is thick near {}; it will break",
                         thickness_mm, at_mm(*at)));
}

double thickness_of(const Field& field, const DrawnShape& shape, const std::vector<Material>& stock) {
    if (shape.material) return piece_thickness_mm(field, stock[*shape.material]);
    double thickest = 0;
    for (const MixPart& part : field.mix)
        thickest = std::max(thickest, piece_thickness_mm(field, stock[part.material]));
    return thickest;
}

// The edge of a gap of a divided work that a shape reaches across.
std::optional<double> across_cut_mm(const Box& box, const Panel& panel) {
    const std::vector<PanelSpan> spans = panel_spans(panel);
    const PanelSpan& span = spans[span_at(spans, (box.low.x + box.high.x) / 2)];
    if (span.left_mm > 0 && box.low.x < span.left_mm - kOutlineTolerance_mm) return span.left_mm;
    if (span.right_mm < panel.width_mm && box.high.x > span.right_mm + kOutlineTolerance_mm)
        return span.right_mm;
    return std::nullopt;
}

}  // namespace

void read_shapes(Section& in, Field& field, Layout& layout, const Shelf& stock) {
    const YamlValue* list = in.find("shapes");
    if (list->shape != Shape::list || list->items.empty()) {
        in.problem("shapes", "found " + found(*list) + ", expected a list of outlines");
        return;
    }
    if (list->items.size() > kMostShapes) {
        in.problem("shapes", fmt::format("found {}, expected at most {}", found(*list), kMostShapes));
        return;
    }
    const glm::dvec2 panel{layout.panel.width_mm, layout.panel.height_mm};
    const Region field_ground = region_of(flatten(field.outline, kOutlineTolerance_mm));
    struct Drawn {
        Region region;
        Box box;
        size_t number;
    };
    std::vector<Drawn> before;
    for (size_t i = 0; i < list->items.size(); ++i) {
        const std::string key = fmt::format("{}[{}]", in.path("shapes"), i + 1);
        auto shape = read_shape(list->items[i], key, panel, in, layout, stock);
        if (!shape) continue;
        const Region region = region_of(flatten(shape->outline, kOutlineTolerance_mm));
        const Box box = bounds(region);
        for (const Drawn& other : before) {
            if (glm::any(glm::greaterThan(box.low, other.box.high)) ||
                glm::any(glm::greaterThan(other.box.low, box.high)))
                continue;
            if (const auto at = real_part(intersect(region, other.region)))
                in.problems().add(
                    shape->outline.place, key,
                    fmt::format("found a shape over shapes[{}] near {}, expected shapes that do "
                                "not overlap",
                                other.number, at_mm(*at)));
        }
        if (const auto at = real_part(subtract(region, field_ground)))
            in.problems().add(shape->outline.place, key,
                              fmt::format("found a shape that leaves its field near {}, expected it within "
                                          "the field's outline",
                                          at_mm(*at)));
        if (const auto x = across_cut_mm(box, layout.panel))
            in.problems().add(shape->outline.place, key,
                              fmt::format("found a shape across the cut at x = {:g} mm, expected it on one "
                                          "panel: draw a shape for each",
                                          *x));
        check_cutting(region, field, *shape, key, thickness_of(field, *shape, layout.stock), layout);
        before.push_back({region, box, i + 1});
        field.shapes.push_back(std::move(*shape));
    }
    if (field.joint_mm < 0.2 || field.joint_mm > 1)
        layout.warnings.push_back(to_string(Problem{
            in.place(), in.path("joint"),
            fmt::format("found {:.6g} mm in a field of sectile; 0.2 to 1 mm is usual", field.joint_mm)}));
}

}  // namespace rakelight
