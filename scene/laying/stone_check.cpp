#include "scene/laying/stone_check.h"

#include <fmt/format.h>

#include <algorithm>

#include "scene/geometry/region.h"
#include "scene/geometry/stroke.h"
#include "scene/model/layout.h"
#include "scene/model/panel_spans.h"

namespace rakelight {

namespace {

constexpr int kLevel = 3;

struct Solid {
    StoneShape shape;
    std::vector<glm::vec3> points;
    glm::vec3 low{1e30f};
    glm::vec3 high{-1e30f};
};

Solid solid_of(const StoneShape& shape) {
    Solid solid{shape, {}, {}, {}};
    solid.points = solid.shape.mesh(kLevel).positions_mm;
    solid.low = solid.high = solid.points[0];
    for (const auto& p : solid.points) {
        solid.low = glm::min(solid.low, p);
        solid.high = glm::max(solid.high, p);
    }
    return solid;
}

double overlap_mm(const Solid& a, const Solid& b) {
    const glm::vec3 low = glm::max(a.low, b.low), high = glm::min(a.high, b.high);
    if (glm::any(glm::greaterThanEqual(low, high))) return 0;
    const auto deepest = [&](const Solid& from, const Solid& in) {
        double most = 0;
        for (const auto& p : from.points)
            if (glm::all(glm::greaterThanEqual(p, low)) && glm::all(glm::lessThanEqual(p, high)))
                most = std::max(most, in.shape.depth_mm(p));
        return most;
    };
    return std::max(deepest(a, b), deepest(b, a));
}

// How far a stone reaches over the panel's edge.
double overhang_mm(const SetStone& stone, const Panel& panel) {
    const Box box = bounds(stone.footprint_mm);
    return std::max({-box.low.x, -box.low.y, box.high.x - panel.width_mm, box.high.y - panel.height_mm});
}

// How far a stone that stands on one panel of a divided work reaches over a cut, and where that is.
std::pair<double, double> over_cut_mm(const SetStone& stone, const Panel& panel) {
    const std::vector<PanelSpan> spans = panel_spans(panel);
    const PanelSpan& span = spans[span_at(spans, stone.stone.at_mm.x)];
    const Box box = bounds(stone.footprint_mm);
    const double left = span.left_mm > 0 ? span.left_mm - box.low.x : -1;
    const double right = span.right_mm < panel.width_mm ? box.high.x - span.right_mm : -1;
    return left > right ? std::pair(left, span.left_mm) : std::pair(right, span.right_mm);
}

// The recess of the field that the stone stands in.
double recess_at_mm(const std::vector<Field>& fields, const glm::dvec2& p) {
    for (const auto& field : fields)
        if (contains(flatten(field.outline, 0.5), p)) return field.recess_mm;
    return fields.empty() ? 0 : fields.back().recess_mm;
}

}  // namespace

double overlap_mm(const SetStone& a, const Material& a_material, const SetStone& b,
                  const Material& b_material) {
    return overlap_mm(solid_of(StoneShape(a, a_material)), solid_of(StoneShape(b, b_material)));
}

std::vector<Problem> check_stones(const Layout& layout, const std::vector<SetStone>& stones,
                                  const std::vector<StoneShape>& shapes) {
    std::vector<Problem> problems;
    std::vector<Solid> solids;
    for (const StoneShape& shape : shapes) solids.push_back(solid_of(shape));
    for (std::size_t s = 0; s < stones.size(); ++s) {
        const SetStone& set = stones[s];
        const auto name = [&](std::size_t k) {
            return k < layout.stones.size() ? fmt::format("stones[{}]", k + 1) : "a boulder";
        };
        const auto at = [&](const char* key) {
            return s < layout.stones.size() ? fmt::format("stones[{}].{}", s + 1, key) : "boulders";
        };
        const double seat =
            set.stone.size_mm.z - set.stone.proud_mm - recess_at_mm(layout.fields, set.stone.at_mm);
        if (seat < kLeastSeat_mm)
            problems.push_back(
                {set.stone.place, at("proud"),
                 fmt::format(
                     "found {:g} mm of a stone {:g} mm high, expected at most {:g} mm: it would not sit "
                     "in its bed",
                     set.stone.proud_mm, set.stone.size_mm.z,
                     std::max(set.stone.proud_mm + seat - kLeastSeat_mm, 0.0))});
        if (layout.panel.frame)
            if (const double over = overhang_mm(set, layout.panel) - layout.panel.frame->gap_mm;
                over > kRub_mm)
                problems.push_back(
                    {set.stone.place, at("at"),
                     fmt::format("found a stone that stands {:.1f} mm in the frame, expected it "
                                 "within the panel and the gap round it",
                                 over)});
        if (layout.panel.divided)
            if (const auto [over, x] = over_cut_mm(set, layout.panel); over > kRub_mm)
                problems.push_back(
                    {set.stone.place, at("at"),
                     fmt::format("found a stone that reaches {:.1f} mm over the cut at x = {:g} mm, expected "
                                 "it whole on one panel: no stone is sawn there unseen",
                                 over, x)});
        for (std::size_t o = 0; o < s; ++o)
            if (const double deep = overlap_mm(solids[s], solids[o]); deep > kRub_mm)
                problems.push_back(
                    {set.stone.place, at("at"),
                     fmt::format("found a stone that stands {:.1f} mm in {} at [{:g}, {:g}], "
                                 "expected the two apart",
                                 deep, name(o), stones[o].stone.at_mm.x, stones[o].stone.at_mm.y)});
    }
    return problems;
}

}  // namespace rakelight
