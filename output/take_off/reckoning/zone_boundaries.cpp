// Where grout zones meet, measured along the middle of the joint between them.
#include <algorithm>
#include <cmath>
#include <map>

#include "output/take_off/reckoning/grout_zones.h"
#include "scene/geometry/edge_index.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

constexpr double kStep_mm = 1;
constexpr double kTouch_mm = 0.15;
constexpr double kLeastLength_mm = 5;  // a corner that just meets another is no boundary
constexpr double kFar_mm = 15;

struct Meeting {
    double length_mm = 0;
    std::vector<double> width_mm;
    double later_owner_mm = 0;  // length on which the second zone of the pair owns the joint
};

double at_share(std::vector<double> values, double share) {
    const auto k = static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1));
    std::nth_element(values.begin(), values.begin() + k, values.end());
    return values[static_cast<std::size_t>(k)];
}

template <class Visit>
void walk(const Region& region, Visit&& visit) {
    for (const Ring& ring : region.rings)
        for (const auto& [a, b] : edges(ring)) {
            const double length = glm::distance(a, b);
            const int steps = std::max(1, static_cast<int>(std::ceil(length / kStep_mm)));
            for (int s = 0; s < steps; ++s) visit(glm::mix(a, b, (s + 0.5) / steps), length / steps);
        }
}

}  // namespace

std::vector<ZoneBoundary> zone_boundaries(const Layout& layout, const Laying& laying,
                                          const std::vector<Region>& ground,
                                          const std::vector<GroutZone>& zones) {
    const std::size_t fields = layout.fields.size();
    std::vector<std::size_t> zone_of(fields, zones.size());
    for (std::size_t z = 0; z < zones.size(); ++z)
        for (const std::uint32_t f : zones[z].fields) zone_of[f] = z;
    std::vector<Region> pieces(fields);
    for (const Piece& piece : laying.pieces) pieces[piece.field].rings.push_back(piece.outline_mm);
    std::vector<EdgeIndex> to_ground, to_pieces;
    for (std::size_t f = 0; f < fields; ++f) {
        to_ground.emplace_back(ground[f], 1.0);
        to_pieces.emplace_back(pieces[f], kFar_mm);
    }
    std::map<std::pair<std::size_t, std::size_t>, Meeting> meetings;
    for (std::size_t f = 0; f < fields; ++f)
        walk(ground[f], [&](const glm::dvec2& p, double length_mm) {
            for (std::size_t g = f + 1; g < fields; ++g) {
                if (zone_of[f] == zone_of[g] || zone_of[f] == zones.size() || zone_of[g] == zones.size() ||
                    to_ground[g].distance_mm(p) > kTouch_mm)
                    continue;
                const bool first_owns = zone_of[f] < zone_of[g];
                Meeting& meeting = meetings[std::minmax(zone_of[f], zone_of[g])];
                meeting.length_mm += length_mm;
                if (!first_owns) meeting.later_owner_mm += length_mm;
                // Where a piece is missing at the edge there is no joint to measure.
                const double width = to_pieces[f].distance_mm(p) + to_pieces[g].distance_mm(p);
                if (width < kFar_mm) meeting.width_mm.push_back(width);
                break;
            }
        });
    std::vector<ZoneBoundary> out;
    for (const auto& [pair, meeting] : meetings) {
        if (meeting.length_mm < kLeastLength_mm || meeting.width_mm.empty()) continue;
        const bool second = meeting.later_owner_mm > meeting.length_mm / 2;
        ZoneBoundary b{second ? pair.second : pair.first, second ? pair.first : pair.second};
        b.length_mm = meeting.length_mm;
        b.narrow_mm = at_share(meeting.width_mm, 0.1);
        b.usual_mm = at_share(meeting.width_mm, 0.5);
        b.too_narrow = static_cast<double>(std::count_if(meeting.width_mm.begin(), meeting.width_mm.end(),
                                                         [](double w) { return w < kCleanCut_mm; })) /
                       static_cast<double>(meeting.width_mm.size());
        out.push_back(b);
    }
    return out;
}

}  // namespace rakelight
