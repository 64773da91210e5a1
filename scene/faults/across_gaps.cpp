#include "scene/faults/across_gaps.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "scene/faults/fault_parts.h"
#include "scene/geometry/stroke.h"
#include "scene/model/half_joint.h"
#include "scene/model/layout.h"
#include "scene/model/panel_spans.h"

namespace rakelight {

namespace {

constexpr double kInside_mm = 1;    // lines are looked for so far inside the edge
constexpr double kLevel = 0.5;      // cosine of 60 degrees: steeper lines run along the gap
constexpr double kSameWay = 0.643;  // cosine of 50 degrees, as for rows that turn
constexpr double kJointAtMost = 3;  // joints: wider is a hole, not a joint
constexpr double kAlongRow = 0.8;   // cosine of 37 degrees, from a piece's side to its row
constexpr double kRowsBeside = 2.5;
constexpr double kBeside = 0.55;  // of a row: nearer than this a line of the same rows is met
constexpr double kFlatness_mm = 0.05;

glm::dvec2 rightwards(const glm::dvec2& along) {
    return along.x < 0 ? -along : along;
}

// What a piece takes of an upright line.
struct Taken {
    double low = 1e300, high = -1e300;
    glm::dvec2 foot{1, 0}, head{1, 0};  // directions of its lower and its upper side there
    const Piece* piece = nullptr;
};

std::vector<Taken> along_line(const Laying& laying, double x_mm) {
    std::vector<Taken> taken;
    for (const Piece& piece : laying.pieces) {
        Taken of;
        of.piece = &piece;
        for (const auto& [a, b] : edges(piece.outline_mm)) {
            if ((a.x < x_mm) == (b.x < x_mm)) continue;
            const double y = a.y + (b.y - a.y) * (x_mm - a.x) / (b.x - a.x);
            if (y < of.low) of.low = y, of.foot = rightwards(glm::normalize(b - a));
            if (y > of.high) of.high = y, of.head = rightwards(glm::normalize(b - a));
        }
        if (of.low < of.high) taken.push_back(of);
    }
    std::ranges::sort(taken, {}, [](const Taken& t) { return t.low; });
    return taken;
}

// A line of the laying at the edge of a panel.
struct Line {
    double y_mm;
    glm::dvec2 along;            // towards the right
    std::uint32_t below, above;  // fields
    double joint_mm;
};

// The direction in which an outline of either field crosses the line, nearest to a place.
std::optional<glm::dvec2> drawn_along(const Layout& layout, std::uint32_t a, std::uint32_t b,
                                      const glm::dvec2& at) {
    double nearest = std::max(layout.fields[a].piece_width_mm, layout.fields[b].piece_width_mm);
    std::optional<glm::dvec2> along;
    const auto look_at = [&](const Stroke& stroke) {
        for (const auto& [p, q] : edges(flatten(stroke, kFlatness_mm))) {
            if ((p.x < at.x) == (q.x < at.x)) continue;
            const double y = p.y + (q.y - p.y) * (at.x - p.x) / (q.x - p.x);
            if (std::abs(y - at.y) >= nearest) continue;
            nearest = std::abs(y - at.y);
            along = rightwards(glm::normalize(q - p));
        }
    };
    for (const std::uint32_t f : {a, b}) {
        look_at(layout.fields[f].outline);
        for (const Stroke& ring : layout.fields[f].more_rings) look_at(ring);
    }
    return along;
}

// The joints that cross an upright line a little inside an edge, carried on to the edge.
std::vector<Line> lines_at(const Layout& layout, const std::vector<Taken>& taken, double x_mm,
                           double edge_mm) {
    std::vector<Line> lines;
    for (std::size_t i = 0; i + 1 < taken.size(); ++i) {
        const Piece &below = *taken[i].piece, &above = *taken[i + 1].piece;
        const Field &field = layout.fields[below.field], &other = layout.fields[above.field];
        const double joint = (field.joint_mm + other.joint_mm) / 2;
        const double y = (taken[i].high + taken[i + 1].low) / 2;
        if (taken[i + 1].low - taken[i].high > kJointAtMost * joint) continue;
        std::optional<glm::dvec2> along;
        if (below.field != above.field) {
            along = drawn_along(layout, below.field, above.field, {x_mm, y});
        } else if (has_rows(field)) {
            const glm::dvec2 a = rightwards(below.along), b = rightwards(above.along);
            // Not a head joint, which runs across its row.
            const auto runs_along = [&](const glm::dvec2& side) { return glm::dot(side, a) > kAlongRow; };
            if (glm::dot(a, b) > kSameWay && runs_along(taken[i].head) && runs_along(taken[i + 1].foot))
                along = glm::normalize(a + b);
        }
        if (!along || along->x < kLevel) continue;
        lines.push_back({y, *along, below.field, above.field, joint});
    }
    // One piece is turned by the hand: a row runs as it and two rows to each side do.
    std::vector<Line> even = lines;
    for (Line& line : even) {
        const Field& field = layout.fields[line.below];
        glm::dvec2 sum(0);
        for (const Line& other : lines)
            if (other.below == line.below && other.above == line.above &&
                std::abs(other.y_mm - line.y_mm) < kRowsBeside * (field.piece_width_mm + field.joint_mm))
                sum += other.along;
        if (line.below == line.above) line.along = glm::normalize(sum);
        line.y_mm += (edge_mm - x_mm) * line.along.y / line.along.x;
    }
    return even;
}

void carry_on(const Layout& layout, const std::vector<Line>& left, const std::vector<Line>& right,
              AcrossGap& gap) {
    for (const Line& line : left) {
        const bool row = line.below == line.above;
        const Field& field = layout.fields[line.below];
        const double y = line.y_mm + (gap.to_mm - gap.from_mm) * line.along.y / line.along.x;
        // A row has one to meet where its field still lies; an outline has its own, wherever that is.
        double nearest = row ? kBeside * (field.piece_width_mm + field.joint_mm) / line.along.x : 1e300;
        bool met = false;
        for (const Line& other : right)
            if (other.below == line.below && other.above == line.above &&
                std::abs(other.y_mm - y) < nearest) {
                nearest = std::abs(other.y_mm - y);
                met = true;
            }
        if (!met) continue;
        CarriedOn& carried = row ? gap.rows : gap.outlines;
        const double offset = nearest * line.along.x;
        ++carried.lines;
        carried.meet += offset <= half_joint_mm(line.joint_mm);
        if (offset < carried.worst_mm) continue;
        carried.worst_mm = offset;
        carried.worst_at = {gap.from_mm, line.y_mm};
        carried.worst_in = row ? field.name : field.name + " and " + layout.fields[line.above].name;
    }
}

// The pieces along one of the cuts, and the widest bare place between them.
void look_along(const Layout& layout, const Laying& laying, const std::vector<Taken>& taken, double x_mm,
                AcrossGap& gap) {
    for (std::size_t i = 0; i < taken.size(); ++i) {
        const Ring& ring = taken[i].piece->outline_mm;
        ++gap.pieces;
        gap.slender +=
            4 * area_mm2(ring) / perimeter_mm(ring) < narrow_mm(layout.fields[taken[i].piece->field]) / 2;
        if (i == 0) continue;
        const double bare = taken[i].low - taken[i - 1].high;
        const glm::dvec2 middle(x_mm, (taken[i].low + taken[i - 1].high) / 2);
        const bool stone = std::ranges::any_of(
            laying.stones, [&](const SetStone& set) { return contains(set.footprint_mm, middle); });
        if (bare <= gap.widest_joint_mm || stone) continue;
        gap.widest_joint_mm = bare;
        gap.widest_at = middle;
    }
}

std::string tenths(double mm, Units units) {
    return shown_length(units == Units::metric ? std::round(10 * mm) / 10 : mm, units);
}

std::string carried_in_words(const CarriedOn& carried, const std::string& what, Units units) {
    if (carried.lines == 0) return fmt::format("no {} carry on", what);
    return fmt::format("{} of {} {} meet within half a joint, the worst {} off in '{}' at [{:.0f}, {:.0f}]",
                       carried.meet, carried.lines, what, tenths(carried.worst_mm, units), carried.worst_in,
                       carried.worst_at.x, carried.worst_at.y);
}

}  // namespace

std::vector<AcrossGap> across_gaps(const Layout& layout, const Laying& laying) {
    const std::vector<PanelSpan> spans = panel_spans(layout.panel);
    std::vector<AcrossGap> gaps;
    for (std::size_t s = 0; s + 1 < spans.size(); ++s) {
        AcrossGap gap;
        gap.left = spans[s].name;
        gap.right = spans[s + 1].name;
        gap.from_mm = spans[s].right_mm;
        gap.to_mm = spans[s + 1].left_mm;
        const double left_x = gap.from_mm - kInside_mm, right_x = gap.to_mm + kInside_mm;
        const std::vector<Taken> left = along_line(laying, left_x), right = along_line(laying, right_x);
        carry_on(layout, lines_at(layout, left, left_x, gap.from_mm),
                 lines_at(layout, right, right_x, gap.to_mm), gap);
        look_along(layout, laying, left, left_x, gap);
        look_along(layout, laying, right, right_x, gap);
        gaps.push_back(std::move(gap));
    }
    return gaps;
}

std::string in_words(const AcrossGap& gap, Units units) {
    return fmt::format(
        "across the gap from {} to {}, {} from work to work, lines carried straight on: {}; {}; of {} pieces "
        "at its edges {} are under half their width; the widest joint there is {} at [{:.0f}, {:.0f}]",
        gap.left, gap.right, shown_length(gap.to_mm - gap.from_mm, units),
        carried_in_words(gap.rows, "rows", units), carried_in_words(gap.outlines, "outlines", units),
        gap.pieces, gap.slender, tenths(gap.widest_joint_mm, units), gap.widest_at.x, gap.widest_at.y);
}

}  // namespace rakelight
