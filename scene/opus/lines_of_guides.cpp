// Rows on their middle lines: straight ones of tessellatum, flowing ones of musivum and vermiculatum.
#include <algorithm>
#include <cmath>
#include <limits>

#include "materials/maths/hash.h"
#include "scene/flow/breaks.h"
#include "scene/flow/flow.h"
#include "scene/flow/rows_of_flow.h"
#include "scene/geometry/edge_index.h"
#include "scene/geometry/stroke.h"
#include "scene/opus/close_up.h"
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
    for (const auto& ring : ground.rings) {
        if (!alone && area_mm2(ring) < 0)  // rows part round what stands in their way, as water does
            guides.push_back({{ring, true}, 3.5 * across});
    }
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

void lay_tessellatum(const OpusTask& task, std::vector<Piece>& pieces) {
    const auto [rows, pitch] = straight_rows(task.field, task.ground, task.hand.pitch);
    FieldHand fitted = task.hand;
    fitted.pitch = pitch;
    lay_rows(rows, task.ground, fitted, task.heads, task.seed, pieces);
}

namespace {

// Rows as they flow, and what they leave open at stones and seams closed.
void lay_flowing(const OpusTask& task, bool follow_outline, std::vector<Piece>& pieces) {
    const auto ends =
        lay_rows(flowing_rows(task, follow_outline), task.ground, task.hand, task.heads, task.seed, pieces);
    close_up(pieces, task.ground, task.hand.rules, 1.6 * task.hand.rules.nominal_mm2,
             hash_combine(task.seed, 5), ends);
}

}  // namespace

void lay_musivum(const OpusTask& task, std::vector<Piece>& pieces) {
    lay_flowing(task, false, pieces);
}

void lay_vermiculatum(const OpusTask& task, std::vector<Piece>& pieces) {
    lay_flowing(task, true, pieces);
}

}  // namespace rakelight
