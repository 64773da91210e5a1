// Pieces that a hand would not have cut: too small, with a side too short, hollow.
#include <algorithm>
#include <cmath>

#include "scene/faults/fault_parts.h"
#include "scene/model/layout.h"
#include "scene/opus/cutting.h"
#include "scene/opus/opera.h"

namespace rakelight {

namespace {

constexpr double kHollow_deg = 190;  // of an interior angle; straight is 180, the hand takes the rest
constexpr double kFull = 0.97;       // share of its hull below which a piece is seen to be hollow

void add_short_side(const Piece& piece, std::uint32_t index, double limit, std::vector<Fault>& faults) {
    Edge shortest;
    double least = limit;
    for (const auto& [a, b] : edges(piece.outline_mm))
        if (const double length = glm::distance(a, b); length < least) {
            least = length;
            shortest = {a, b};
        }
    if (least < limit)
        faults.push_back({FaultKind::short_side, (shortest.a + shortest.b) / 2.0, piece.field, index, least,
                          limit, limit / std::max(least, 0.1)});
}

void add_hollow(const Piece& piece, std::uint32_t index, std::vector<Fault>& faults) {
    const Ring& ring = piece.outline_mm;
    if (area_mm2(ring) > kFull * area_mm2(convex_hull(ring))) return;
    std::size_t deepest = 0;
    double most = kHollow_deg;
    for (std::size_t i = 0; i < ring.size(); ++i)
        if (const double angle = interior_angle_deg(ring, i); angle > most) {
            most = angle;
            deepest = i;
        }
    if (most > kHollow_deg)
        faults.push_back(
            {FaultKind::hollow, ring[deepest], piece.field, index, most, kHollow_deg, most / kHollow_deg});
}

}  // namespace

void add_piece_faults(const SeenPanel& seen, std::vector<Fault>& faults) {
    for (std::uint32_t i = 0; i < seen.laying.pieces.size(); ++i) {
        const Piece& piece = seen.laying.pieces[i];
        const Field& field = seen.layout.fields[piece.field];
        if (is_of_whole_pieces(field.opus) || field.opus == Opus::sectile) continue;  // as found, as drawn
        const bool of_sizes = field.sizes_mm.x > 0;
        const double third =
            (of_sizes ? field.sizes_mm.x * field.sizes_mm.x : seen.mean_mm2[piece.field]) / 3;
        if (const double area = area_mm2(piece.outline_mm); area < third)
            faults.push_back({FaultKind::small_piece, centroid(piece.outline_mm), piece.field, i, area, third,
                              third / area});
        add_short_side(piece, i, narrow_mm(field) / 3, faults);
        add_hollow(piece, i, faults);
    }
}

}  // namespace rakelight
