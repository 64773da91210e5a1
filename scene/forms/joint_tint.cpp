#include "scene/forms/joint_tint.h"

#include <algorithm>
#include <cmath>
#include <deque>

namespace rakelight {

namespace {

// The seam lies this far under the pieces beyond the joint, whose arrises are not quite straight.
constexpr double kUnder_mm = 0.4;

}  // namespace

void NearFields::note(std::uint32_t f, float mm) {
    std::size_t slot = 0;
    for (std::size_t i = 0; i < field.size(); ++i) {
        if (field[i] == f) {
            away_mm[i] = std::min(away_mm[i], mm);
            return;
        }
        if (away_mm[i] > away_mm[slot]) slot = i;
    }
    if (mm >= away_mm[slot]) return;
    field[slot] = f;
    away_mm[slot] = mm;
}

float NearFields::distance_mm(std::uint32_t f) const {
    for (std::size_t i = 0; i < field.size(); ++i)
        if (field[i] == f) return away_mm[i];
    return 1e30f;
}

float reach_mm(const Field& first, const Field& later) {
    const double joint = (first.joint_mm + later.joint_mm) / 2;
    return static_cast<float>(joint + std::max(0.25 * joint, kUnder_mm));
}

float farthest_reach_mm(const std::vector<Field>& fields, const Field& field) {
    float most = 0;
    for (const auto& other : fields) most = std::max(most, reach_mm(field, other));
    return most;
}

void settle_owners(const std::vector<Field>& fields, const Lattice& lattice, std::span<NearFields> nodes) {
    std::deque<std::size_t> open;
    for (std::size_t n = 0; n < nodes.size(); ++n) {
        NearFields& node = nodes[n];
        const auto nearest = static_cast<std::size_t>(
            std::min_element(node.away_mm.begin(), node.away_mm.end()) - node.away_mm.begin());
        const std::uint32_t near = node.field[nearest];
        if (near == kNoField) continue;
        node.owner = near;
        for (std::size_t i = 0; i < node.field.size(); ++i)
            if (node.field[i] < node.owner && node.away_mm[i] < reach_mm(fields[node.field[i]], fields[near]))
                node.owner = node.field[i];
        open.push_back(n);
    }
    const auto columns = static_cast<std::size_t>(lattice.columns);
    while (!open.empty()) {
        const std::size_t n = open.front();
        open.pop_front();
        const std::size_t x = n % columns;
        const auto offer = [&](std::size_t m) {
            if (nodes[m].owner != kNoField) return;
            nodes[m].owner = nodes[n].owner;
            open.push_back(m);
        };
        if (x > 0) offer(n - 1);
        if (x + 1 < columns) offer(n + 1);
        if (n >= columns) offer(n - columns);
        if (n + columns < nodes.size()) offer(n + columns);
    }
}

float seam_between(const std::vector<Field>& fields, const NearFields& a, const NearFields& b) {
    const bool a_first = a.owner < b.owner;
    const std::uint32_t first = a_first ? a.owner : b.owner, later = a_first ? b.owner : a.owner;
    const float reach = reach_mm(fields[first], fields[later]);
    const float inside = (a_first ? a : b).distance_mm(first) - reach;
    const float outside = (a_first ? b : a).distance_mm(first) - reach;
    // Far from all pieces, or where three fields meet, the nodes' owners alone tell: halfway.
    const float t = inside < 0 && outside > 0 ? std::clamp(inside / (inside - outside), 0.02f, 0.98f) : 0.5f;
    return a_first ? t : 1 - t;
}

}  // namespace rakelight
