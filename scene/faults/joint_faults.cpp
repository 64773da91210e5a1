// Joints as the eye sees them: lakes of grout, four pieces at one place, gaps beside stones.
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "scene/faults/fault_parts.h"
#include "scene/geometry/edge_index.h"
#include "scene/geometry/point_grid.h"
#include "scene/model/layout.h"
#include "scene/model/panel_spans.h"
#include "scene/opus/opera.h"

namespace rakelight {

namespace {

constexpr double kWide = 1.5;   // times the joint; where three straight joints meet a disc of 1.25 fits
constexpr double kApart = 1.3;  // joints, from a stone to the nearest piece; at a head joint it is 1.12
constexpr double kTile_mm = 60;

Region square(const Box& box) {
    return {{{box.low, {box.high.x, box.low.y}, box.high, {box.low.x, box.high.y}}}};
}

// The diameter of the largest disc in a region, by halving.
double widest_mm(const Region& region, double least_mm) {
    double low = least_mm, high = std::max(bounds(region).size().x, bounds(region).size().y);
    for (int round = 0; round < 8; ++round) {
        const double middle = (low + high) / 2;
        (grow(region, -middle / 2, Corner::round).empty() ? high : low) = middle;
    }
    return low;
}

// Where discs of 1.5 joints find room between pieces: the morphological opening of the gap.
struct Lakes {
    std::vector<Fault> faults;
    double area_mm2 = 0;
};

Lakes lakes_in(const SeenPanel& seen, const std::vector<Box>& boxes, const Box& tile, double joint_mm,
               const std::vector<char>& of_this_joint) {
    const double margin = 1.5 * seen.coarsest_mm;
    const Box wide{
        glm::max(tile.low - margin, glm::dvec2(0)),
        glm::min(tile.high + margin, glm::dvec2(seen.layout.panel.width_mm, seen.layout.panel.height_mm))};
    Region solid;
    const auto take = [&](const Ring& ring, const Box& box) {
        if (box.low.x < wide.high.x && wide.low.x < box.high.x && box.low.y < wide.high.y &&
            wide.low.y < box.high.y)
            solid.rings.push_back(ring);
    };
    for (std::size_t i = 0; i < boxes.size(); ++i) take(seen.laying.pieces[i].outline_mm, boxes[i]);
    for (const SetStone& set : seen.laying.stones)
        take(region_of(set.footprint_mm).rings.at(0), bounds(set.footprint_mm));
    const std::vector<PanelSpan> spans = panel_spans(seen.layout.panel);
    for (std::size_t s = 0; s + 1 < spans.size(); ++s) {
        const Box gap{{spans[s].right_mm, wide.low.y}, {spans[s + 1].left_mm, wide.high.y}};
        take(square(gap).rings[0], gap);
    }
    const double radius = kWide / 2 * joint_mm;
    const Region open =
        grow(grow(subtract(square(wide), solid), -radius, Corner::round), radius, Corner::round);
    Lakes lakes;
    for (const Region& lake : islands(open)) {
        const glm::dvec2 at = centroid(lake.rings[0]);
        if (at.x < tile.low.x || at.x >= tile.high.x || at.y < tile.low.y || at.y >= tile.high.y) continue;
        const auto near = seen.edges.nearest(at);
        if (!near || !of_this_joint[seen.laying.pieces[near->piece].field]) continue;
        // Between two fields the coarser says how wide the joint may be, and beside whole pieces nothing
        // does.
        double allowed = joint_mm;
        bool whole = false;
        for (std::size_t f = 0; f < seen.ground.size(); ++f) {
            const Field& field = seen.layout.fields[f];
            if (field.joint_mm <= allowed && !is_of_whole_pieces(field.opus)) continue;
            if (intersect(grow(lake, 0.7 * field.joint_mm), seen.ground[f]).empty()) continue;
            allowed = std::max(allowed, field.joint_mm);
            whole = whole || is_of_whole_pieces(field.opus);
        }
        if (whole) continue;
        const double width = widest_mm(lake, kWide * joint_mm);
        if (width < kWide * allowed) continue;
        lakes.area_mm2 += area_mm2(lake);
        lakes.faults.push_back({FaultKind::wide_joint,
                                at,
                                seen.laying.pieces[near->piece].field,
                                {},
                                width,
                                kWide * allowed,
                                width / (kWide * allowed)});
    }
    return lakes;
}

double add_lakes(const SeenPanel& seen, std::vector<Fault>& faults) {
    std::vector<Box> boxes;
    for (const Piece& piece : seen.laying.pieces) boxes.push_back(bounds(piece.outline_mm));
    std::set<double> joints;
    for (const Field& field : seen.layout.fields)
        if (!is_of_whole_pieces(field.opus)) joints.insert(field.joint_mm);
    const int columns = static_cast<int>(std::ceil(seen.layout.panel.width_mm / kTile_mm));
    const int rows = static_cast<int>(std::ceil(seen.layout.panel.height_mm / kTile_mm));
    double area = 0;
    for (const double joint : joints) {
        std::vector<char> mine;
        for (const Field& field : seen.layout.fields)
            mine.push_back(field.joint_mm == joint && !is_of_whole_pieces(field.opus));
        std::vector<Lakes> found(static_cast<std::size_t>(columns * rows));
        std::vector<char> asked(found.size(), 0);  // tiles in which such a joint lies
        for (std::size_t i = 0; i < boxes.size(); ++i) {
            if (!mine[seen.laying.pieces[i].field]) continue;
            const glm::ivec2 low(glm::floor((boxes[i].low - seen.coarsest_mm) / kTile_mm));
            const glm::ivec2 high(glm::floor((boxes[i].high + seen.coarsest_mm) / kTile_mm));
            for (int y = std::max(low.y, 0); y <= std::min(high.y, rows - 1); ++y)
                for (int x = std::max(low.x, 0); x <= std::min(high.x, columns - 1); ++x)
                    asked[static_cast<std::size_t>(y * columns + x)] = 1;
        }
        tbb::parallel_for(0, columns * rows, [&](int t) {
            if (!asked[static_cast<std::size_t>(t)]) return;
            const glm::dvec2 low = kTile_mm * glm::dvec2(t % columns, t / columns);
            found[static_cast<std::size_t>(t)] = lakes_in(seen, boxes, {low, low + kTile_mm}, joint, mine);
        });
        for (const Lakes& lakes : found) {
            faults.insert(faults.end(), lakes.faults.begin(), lakes.faults.end());
            area += lakes.area_mm2;
        }
    }
    return area;
}

// Corners of four pieces within a joint and a half of one another.
void add_crossings(const SeenPanel& seen, std::vector<Fault>& faults) {
    struct Corner {
        glm::dvec2 at;
        std::uint32_t piece;
    };
    PointGrid<Corner> corners(4);
    for (std::uint32_t i = 0; i < seen.laying.pieces.size(); ++i)
        for (const auto& p : seen.laying.pieces[i].outline_mm) corners.add(p, {p, i});
    std::set<std::vector<std::uint32_t>> told;
    for (std::uint32_t i = 0; i < seen.laying.pieces.size(); ++i) {
        const Piece& piece = seen.laying.pieces[i];
        const Field& field = seen.layout.fields[piece.field];
        if (!has_rows(field) || field.opus == Opus::regulatum) continue;
        for (const auto& p : piece.outline_mm) {
            std::vector<std::uint32_t> meet{i};
            glm::dvec2 sum = p;
            const double reach = 1.6 * field.joint_mm;
            corners.each_near(p, static_cast<int>(std::ceil(reach / 4)), [&](const Corner& c) {
                if (glm::distance(c.at, p) > reach || seen.laying.pieces[c.piece].field != piece.field ||
                    std::find(meet.begin(), meet.end(), c.piece) != meet.end())
                    return;
                meet.push_back(c.piece);
                sum += c.at;
            });
            if (meet.size() < 4) continue;
            const glm::dvec2 at = sum / static_cast<double>(meet.size());
            std::sort(meet.begin(), meet.end());
            if (told.insert(meet).second)
                faults.push_back({FaultKind::crossing, at, piece.field, {}, 0, 0, 1});
        }
    }
}

void add_stone_gaps(const SeenPanel& seen, std::vector<Fault>& faults) {
    const auto& stones = seen.laying.stones;
    const std::vector<PanelSpan> spans = panel_spans(seen.layout.panel);
    std::vector<EdgeIndex> edge;
    for (const SetStone& set : stones) edge.emplace_back(region_of(set.footprint_mm), seen.coarsest_mm);
    for (std::size_t s = 0; s < stones.size(); ++s) {
        const PanelSpan& span = spans[span_at(spans, stones[s].stone.at_mm.x)];
        const Box panel{{span.left_mm, 0}, {span.right_mm, seen.layout.panel.height_mm}};
        Fault gap;
        const auto tell = [&] {
            if (gap.value > 0) faults.push_back(gap);
            gap = {};
        };
        for (const auto& [a, b] : edges(stones[s].footprint_mm)) {
            const int steps = std::max(1, static_cast<int>(glm::distance(a, b) / 0.5));
            for (int k = 0; k < steps; ++k) {
                const glm::dvec2 p = glm::mix(a, b, (k + 0.5) / steps);
                const auto near = seen.edges.nearest(p);
                const double far = near ? near->distance_mm : seen.coarsest_mm;
                bool excused = p.x < panel.low.x + far || p.y < panel.low.y + far ||
                               p.x > panel.high.x - far || p.y > panel.high.y - far || !near;
                for (std::size_t other = 0; other < stones.size() && !excused; ++other)
                    excused = other != s && edge[other].distance_mm(p) < far;
                const std::uint32_t field = near ? seen.laying.pieces[near->piece].field : 0;
                const double limit = kApart * seen.layout.fields[field].joint_mm;
                if (excused || far <= limit) {
                    tell();
                } else if (far > gap.value) {
                    gap = {FaultKind::stone_gap, p, field, {}, far, limit, far / limit};
                }
            }
        }
        tell();
    }
}

}  // namespace

double add_joint_faults(const SeenPanel& seen, std::vector<Fault>& faults) {
    add_crossings(seen, faults);
    add_stone_gaps(seen, faults);
    return add_lakes(seen, faults);
}

}  // namespace rakelight
