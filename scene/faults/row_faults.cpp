// Rows as the eye follows them: from head to head, and where they end.
#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>

#include "scene/faults/fault_parts.h"
#include "scene/flow/keystone.h"
#include "scene/geometry/edge_index.h"
#include "scene/geometry/region.h"
#include "scene/laying/contours.h"
#include "scene/model/layout.h"
#include "scene/opus/seams.h"

namespace rakelight {

namespace {

constexpr std::uint32_t kNone = 0xffffffffu;
constexpr double kSameWay = 0.643;       // cosine of 50 degrees: rows that turn more are mitred
constexpr double kAtEdge = 0.75;         // of the width: an end so near the field's edge ends there
constexpr std::size_t kShortestRow = 6;  // pieces

// What a head of a piece faces.
struct Facing {
    std::uint32_t piece = kNone;  // of the same field, the most of it
    bool same_way = false;
    glm::dvec2 at_mm{};  // middle of the head
};

// The place where the outline is left, on the way from `from` along `along`.
std::optional<glm::dvec2> way_out(const Ring& ring, const glm::dvec2& from, const glm::dvec2& along) {
    double farthest = -1;
    for (const auto& [a, b] : edges(ring)) {
        const double da = cross(along, a - from), db = cross(along, b - from);
        if ((da > 0) == (db > 0)) continue;
        farthest = std::max(farthest, glm::dot(glm::mix(a, b, da / (da - db)) - from, along));
    }
    return farthest < 0 ? std::nullopt : std::optional(from + farthest * along);
}

Facing facing(const SeenPanel& seen, std::uint32_t index, double way) {
    const Piece& piece = seen.laying.pieces[index];
    const Field& field = seen.layout.fields[piece.field];
    const glm::dvec2 along = way * piece.along, across(-along.y, along.x);
    const glm::dvec2 heart = centroid(piece.outline_mm);
    const double reach = std::max(2.5 * field.joint_mm, 0.35 * field.piece_width_mm);
    constexpr std::array kOff{0.0, 0.12, -0.12, 0.24, -0.24};  // of the width
    std::array<std::uint32_t, kOff.size()> met;
    met.fill(kNone);
    Facing out;
    out.at_mm = heart;
    for (std::size_t k = 0; k < kOff.size(); ++k) {
        const auto end = way_out(piece.outline_mm, heart + kOff[k] * field.piece_width_mm * across, along);
        if (!end) continue;
        if (k == 0) out.at_mm = *end;
        const auto hit = seen.edges.ahead(*end, along, reach, index);
        if (hit && seen.laying.pieces[*hit].field == piece.field) met[k] = *hit;
    }
    std::ptrdiff_t most = 1;
    for (const auto candidate : met)
        if (const auto votes = std::count(met.begin(), met.end(), candidate);
            candidate != kNone && votes > most) {
            most = votes;
            out.piece = candidate;
        }
    if (out.piece != kNone)
        out.same_way = std::abs(glm::dot(seen.laying.pieces[out.piece].along, piece.along)) > kSameWay;
    return out;
}

// Whether an end is excused: at the field's edge, at a stone, at its own halo, at a break or a seam.
class FieldEdges {
  public:
    explicit FieldEdges(const SeenPanel& seen) {
        std::vector<Ring> footprints;
        for (const SetStone& set : seen.laying.stones) footprints.push_back(set.footprint_mm);
        const auto contours = plan_contours(seen.layout, seen.ground, footprints);
        for (std::size_t f = 0; f < seen.ground.size(); ++f) {
            const Field& field = seen.layout.fields[f];
            reach_.push_back(kAtEdge * field.piece_width_mm + field.joint_mm);
            index_.push_back(std::make_unique<EdgeIndex>(within_halo(field, seen.ground[f], contours[f].halo),
                                                         reach_.back()));
            breaks_.emplace_back();
            for (Row& line : breaks_of(field, seen.ground[f])) {
                if (line.closed) line.line_mm.push_back(line.line_mm.front());
                breaks_.back().push_back(std::move(line.line_mm));
            }
        }
    }
    bool near(std::uint32_t field, const glm::dvec2& p) const {
        if (index_[field]->distance_mm(p) < reach_[field] || !index_[field]->contains(p)) return true;
        for (const Ring& line : breaks_[field])
            for (std::size_t i = 1; i < line.size(); ++i)
                if (distance_mm(p, line[i - 1], line[i]) < reach_[field]) return true;
        return false;
    }

  private:
    // The ground that halo rows leave; `halo`: what they follow the edge of, or empty for all edges.
    static Region within_halo(const Field& field, const Region& ground, const Region& halo) {
        if (field.halo_rows == 0) return ground;
        const double width_mm = field.halo_rows * (field.piece_width_mm + field.joint_mm);
        return intersect(ground, grow(halo.empty() ? ground : halo, -width_mm));
    }

    std::vector<double> reach_;
    std::vector<std::unique_ptr<EdgeIndex>> index_;
    std::vector<std::vector<Ring>> breaks_;
};

// The angle between the two heads of a piece, degrees.
double wedge_deg(const Piece& piece) {
    Edge heads[2];
    double longest[2] = {0, 0};
    for (const auto& [a, b] : edges(piece.outline_mm)) {
        const glm::dvec2 side = b - a;
        const double length = glm::length(side);
        if (!(length > 0) || std::abs(glm::dot(side, piece.along)) > 0.7 * length) continue;
        const int which = cross(piece.along, side) > 0 ? 1 : 0;  // counter-clockwise: the front runs left
        if (length <= longest[which]) continue;
        longest[which] = length;
        heads[which] = {a, b};
    }
    if (longest[0] == 0 || longest[1] == 0) return 0;
    const glm::dvec2 front = heads[1].b - heads[1].a, back = heads[0].a - heads[0].b;
    return std::abs(glm::degrees(std::atan2(cross(front, back), glm::dot(front, back))));
}

}  // namespace

double add_row_faults(const SeenPanel& seen, std::vector<Fault>& faults) {
    const auto& pieces = seen.laying.pieces;
    std::vector<std::array<Facing, 2>> faces(pieces.size());
    tbb::parallel_for(std::size_t{0}, pieces.size(), [&](std::size_t i) {
        if (!has_rows(seen.layout.fields[pieces[i].field])) return;
        for (int k = 0; k < 2; ++k)
            faces[i][static_cast<std::size_t>(k)] = facing(seen, static_cast<std::uint32_t>(i), k ? 1 : -1);
    });
    // A row goes on where two heads face one another.
    const auto goes_on = [&](std::uint32_t i, std::size_t k) {
        const Facing& face = faces[i][k];
        if (face.piece == kNone || !face.same_way) return false;
        const bool turned = glm::dot(pieces[i].along, pieces[face.piece].along) < 0;
        return faces[face.piece][turned ? k : 1 - k].piece == i;
    };
    const FieldEdges bounds_of(seen);
    double tightest = 0;
    enum class End : std::uint8_t { none, edge, mitre, field };
    std::vector<std::array<End, 2>> ends(pieces.size(), {End::none, End::none});
    for (std::uint32_t i = 0; i < pieces.size(); ++i) {
        if (!has_rows(seen.layout.fields[pieces[i].field])) continue;
        bool inner = true;
        for (std::size_t k = 0; k < 2; ++k) {
            if (goes_on(i, k)) continue;
            inner = false;
            const Facing& face = faces[i][k];
            // Arcs of fans end where their bays meet.
            if (seen.layout.fields[pieces[i].field].opus == Opus::fans ||
                bounds_of.near(pieces[i].field, face.at_mm))
                ends[i][k] = End::edge;
            else if (face.piece != kNone && !face.same_way)
                ends[i][k] = End::mitre;
            else
                ends[i][k] = End::field;
            if (ends[i][k] == End::field)
                faults.push_back({FaultKind::row_end, face.at_mm, pieces[i].field, i, 0, 0, 1});
        }
        if (!inner) continue;
        const double wedge = wedge_deg(pieces[i]);
        tightest = std::max(tightest, wedge);
        if (wedge > kMostWedge_deg)
            faults.push_back({FaultKind::wedge, centroid(pieces[i].outline_mm), pieces[i].field, i, wedge,
                              kMostWedge_deg, wedge / kMostWedge_deg});
    }
    // Rows from the ends that are not excused.
    for (std::uint32_t i = 0; i < pieces.size(); ++i)
        for (std::size_t k = 0; k < 2; ++k) {
            if (ends[i][k] != End::field && ends[i][k] != End::mitre) continue;
            std::uint32_t at = i;
            std::size_t way = 1 - k, length = 1;
            while (length < kShortestRow && goes_on(at, way)) {
                const std::uint32_t next = faces[at][way].piece;
                if (glm::dot(pieces[at].along, pieces[next].along) < 0) way = 1 - way;
                at = next;
                ++length;
            }
            // Told once, by the end that comes first.
            if (length >= kShortestRow) continue;
            if ((ends[at][way] == End::field || ends[at][way] == End::mitre) &&
                (at < i || (at == i && way < k)))
                continue;
            faults.push_back({FaultKind::short_row, centroid(pieces[i].outline_mm), pieces[i].field, i,
                              static_cast<double>(length), static_cast<double>(kShortestRow),
                              static_cast<double>(kShortestRow) / static_cast<double>(length)});
        }
    return tightest;
}

}  // namespace rakelight
