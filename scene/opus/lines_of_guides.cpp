// Rows on their middle lines: straight ones of tessellatum, flowing ones of musivum and vermiculatum.
#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "materials/maths/hash.h"
#include "scene/flow/breaks.h"
#include "scene/flow/flow.h"
#include "scene/flow/rows_of_flow.h"
#include "scene/geometry/edge_index.h"
#include "scene/geometry/stroke.h"
#include "scene/model/half_joint.h"
#include "scene/opus/close_up.h"
#include "scene/opus/eyes.h"
#include "scene/opus/opus.h"

namespace rakelight {

StraightRows straight_rows(const Field& field, const Region& ground, const Pitch& wanted) {
    const double turn = glm::radians(field.angle_deg);
    const glm::dvec2 along(std::cos(turn), std::sin(turn));
    const glm::dvec2 across(-along.y, along.x);
    Box box;  // of the ground, turned
    for (const auto& ring : ground.rings)
        for (const auto& p : ring) box.add({glm::dot(p, along), glm::dot(p, across)});
    // The change of pitch is spread over all rows, so that none is a remnant.
    const int count = std::max(1, static_cast<int>(std::lround(box.size().y / wanted.across_mm)));
    StraightRows straight{{}, {wanted.along_mm, box.size().y / count}};
    for (int k = 0; k < count; ++k) {
        const double t = box.low.y + (k + 0.5) * straight.pitch.across_mm;
        const auto end = [&](double s) { return s * along + t * across; };
        straight.rows.push_back({{end(box.low.x - 1), end(box.high.x + 1)}, false});
    }
    return straight;
}

namespace {

// Cosines: rows within 45 degrees of a stone's edge part round it, and within 20 degrees of the edge of a
// long figure run along it.
constexpr double kRoundStone = 0.7, kAlongFigure = 0.94;
constexpr double kCompact = 0.55;  // 4 pi area over the perimeter squared: rounder is a stone

// The direction of rows at a place as the guides alone have it, weighed by distance as in flow.h.
glm::dvec2 led_there(const std::vector<Guide>& guides, const glm::dvec2& p, double row_mm) {
    glm::dvec2 doubled{0};
    for (const Guide& guide : guides) {
        const auto& line = guide.row.line_mm;
        for (std::size_t i = 1; i < line.size(); ++i) {
            const glm::dvec2 v = line[i] - line[i - 1], r = p - (line[i] + line[i - 1]) / 2.0;
            const double length = glm::length(v), soft = glm::dot(r, r) + 0.3 * row_mm * row_mm;
            if (!(length > 0)) continue;
            const glm::dvec2 twice = glm::dvec2(v.x * v.x - v.y * v.y, 2 * v.x * v.y) / length;
            doubled += (guide.across ? -twice : twice) / (soft * soft);
        }
    }
    const double turn = 0.5 * std::atan2(doubled.y, doubled.x);
    return {std::cos(turn), std::sin(turn)};
}

double compactness(const Ring& ring) {
    double round = 0;
    for (const auto& [a, b] : edges(ring)) round += glm::distance(a, b);
    return 4 * std::numbers::pi * std::abs(area_mm2(ring)) / (round * round);
}

// The flanks of a stone or figure that stands in a stream of rows: along them rows run past it. At its other
// sides rows come up to it and are cut to it; led round it they would leave rings of wedges, and rows that
// end on those. Common practice, no published source.
std::vector<Row> flanks(const Ring& ring, const std::vector<Guide>& guides, double row_mm) {
    auto line = resampled({ring, true}, row_mm / 4);
    line.pop_back();
    const std::size_t n = line.size();
    const double least = compactness(ring) > kCompact ? kRoundStone : kAlongFigure;
    std::vector<char> follows(n);
    for (std::size_t i = 0; i < n; ++i) {
        const glm::dvec2 side = line[(i + 2) % n] - line[(i + n - 2) % n];
        const glm::dvec2 along = led_there(guides, line[i], row_mm);
        follows[i] = std::abs(glm::dot(side, along)) > least * glm::length(side);
    }
    const auto first = std::find(follows.begin(), follows.end(), 0);
    if (first == follows.end()) return {{ring, true}};
    std::rotate(line.begin(), line.begin() + (first - follows.begin()), line.end());
    std::rotate(follows.begin(), first, follows.end());
    std::vector<Row> out;
    Row now;
    for (std::size_t i = 0; i <= n; ++i) {
        if (i < n && follows[i]) {
            now.line_mm.push_back(line[i]);
            continue;
        }
        if (now.line_mm.size() > 3) out.push_back(now);
        now.line_mm.clear();
    }
    return out;
}

// Guides in stretches about as long as a row is wide, to be weighed one by one.
std::vector<Guide> in_stretches(std::vector<Guide> guides, double row_mm) {
    for (Guide& guide : guides) guide.row = {resampled(guide.row, row_mm), false};
    return guides;
}

}  // namespace

std::vector<Row> flowing_rows(const OpusTask& task, bool follow_outline) {
    const auto& [field, ground, outline, breaks, hand, heads, seed] = task;
    const double across = hand.pitch.across_mm;
    const EdgeIndex near_ground(ground, 3 * across);
    constexpr double everywhere = std::numeric_limits<double>::infinity();
    std::vector<Guide> guides;
    for (const auto& stroke : field.guides)
        guides.push_back(
            {{flatten(stroke, 0.1), stroke.closed}, everywhere, field.rows_across, follow_outline});
    std::erase_if(guides, [](const Guide& g) { return g.row.line_mm.size() < 2; });
    const bool alone = guides.empty() || follow_outline;
    if (!alone)
        for (const std::vector<Guide> drawn = in_stretches(guides, across); const auto& ring : ground.rings)
            if (area_mm2(ring) < 0)
                for (Row& flank : flanks(ring, drawn, across))
                    guides.push_back({std::move(flank), 3.5 * across});
    // What is far past the panel closes the outline and leads nothing.
    if (alone && outline.rings == ground.rings)
        for (const auto& ring : ground.rings) guides.push_back({{ring, true}, everywhere, field.rows_across});
    else if (alone)
        for (const auto& ring : outline.rings)
            for (Row& part : stretches({ring, true}, 0.25 * across, [&](const glm::dvec2& p) {
                     return near_ground.inside_mm(p) > -2 * across;
                 }))
                guides.push_back({std::move(part), everywhere, field.rows_across});
    const Lattice lattice = lattice_over(bounds(ground), across / 4.5);
    return rows_of_flow(flow_from(guides, lattice, across, breaks, &ground), lattice, across,
                        cut_links(breaks, lattice));
}

namespace {

// Rows, and what they leave open at stones, figures and seams closed.
void lay_closed_up(const std::vector<Row>& rows, const OpusTask& task, const FieldHand& hand,
                   std::vector<Piece>& pieces, std::span<const Eye> drops = {}) {
    const auto ends = lay_rows(rows, task.ground, hand, task.heads, task.seed, pieces, drops);
    close_up(pieces, task.ground, hand.rules, 1.6 * hand.rules.nominal_mm2, hash_combine(task.seed, 5), ends);
}

void lay_flowing(const OpusTask& task, bool follow_outline, std::vector<Piece>& pieces) {
    const auto rows = flowing_rows(task, follow_outline);
    auto eyes = eyes_of(rows, task.ground, task.hand.pitch.across_mm);
    std::vector<Eye> drops;
    for (const Eye& eye : eyes)
        if (eye.drop) drops.push_back(eye);
    std::erase_if(eyes, [](const Eye& eye) { return eye.drop; });
    Region beside_eyes = task.ground;
    for (const Eye& eye : eyes) beside_eyes = subtract(beside_eyes, {{outline_of(eye, 0)}});
    lay_closed_up(rows,
                  {task.field, beside_eyes, task.outline, task.breaks, task.hand, task.heads, task.seed},
                  task.hand, pieces, drops);
    for (std::size_t i = 0; i < eyes.size(); ++i) {
        Piece piece;
        piece.outline_mm = outline_of(eyes[i], kDrawnIn * task.hand.rules.joint_mm);
        piece.along = eyes[i].along;
        piece.seed = hash_combine(hash_combine(task.seed, 6), i);
        pieces.push_back(std::move(piece));
    }
}

}  // namespace

void lay_tessellatum(const OpusTask& task, std::vector<Piece>& pieces) {
    const auto [rows, pitch] = straight_rows(task.field, task.ground, task.hand.pitch);
    FieldHand fitted = task.hand;
    fitted.pitch = pitch;
    lay_closed_up(rows, task, fitted, pieces);
}

void lay_musivum(const OpusTask& task, std::vector<Piece>& pieces) {
    lay_flowing(task, false, pieces);
}

void lay_vermiculatum(const OpusTask& task, std::vector<Piece>& pieces) {
    lay_flowing(task, true, pieces);
}

}  // namespace rakelight
