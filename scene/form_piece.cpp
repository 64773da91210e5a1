// A piece as rings: one round its back, one round the top of its side, a few over the rounded edge, and
// shrinking ones over the face to its centre. Every ring point moves only along the ray from the centre, so
// no ring can fold.
#include <algorithm>
#include <cmath>

#include "scene/forms.h"
#include "scene/hash.h"
#include "scene/piece_form.h"
#include "scene/region.h"
#include "scene/relief.h"
#include "scene/rim.h"
#include "scene/ring_mesh.h"

namespace rakelight {

namespace {

// Shells broken off the arris: their middles lie on the outline, more often near corners.
std::vector<Chip> chips_of(const Piece& piece, const FormRule& rule, const glm::dvec2& centre,
                           float half_size_mm) {
    Chance chance(hash_combine(piece.seed, 41));
    std::vector<Chip> chips;
    const Ring& outline = piece.outline_mm;
    const auto mean = static_cast<double>(rule.chips);
    // Mean 0.25 of each of four blows keeps the count at most four.
    for (int blow = 0; blow < 4; ++blow) {
        const bool falls = chance.unit() < mean / 4;
        const auto side = static_cast<std::size_t>(chance.unit() * static_cast<double>(outline.size()));
        const double toward = chance.unit();
        const auto wanted = static_cast<float>(chance.within(rule.chip_mm.low, rule.chip_mm.high));
        if (!falls) continue;
        const glm::dvec2 at = glm::mix(outline[side], outline[(side + 1) % outline.size()], toward * toward);
        const float radius = std::min(wanted, 0.5f * half_size_mm);
        chips.push_back({glm::vec2(at - centre), radius,
                         std::min({0.3f * radius, 0.3f * static_cast<float>(piece.thickness_mm), 0.6f})});
    }
    return chips;
}

constexpr double kLarge_mm = 15;  // from the centre to the farthest corner
constexpr int kMostRings = 200;

Mesh form_slab(const Piece& piece, const Material& material) {
    FormRule rule = form_rule(piece.form, material);
    const Ring& outline = piece.outline_mm;
    const glm::dvec2 heart = centroid(outline);
    const glm::dvec2 centre = star_centre(outline).value_or(heart);
    double perimeter = 0;
    for (std::size_t i = 0; i < outline.size(); ++i)
        perimeter += glm::distance(outline[i], outline[(i + 1) % outline.size()]);
    const auto half_size = static_cast<float>(2 * area_mm2(outline) / perimeter);
    const auto thickness = static_cast<float>(piece.thickness_mm);

    rule.ragged_mm = std::min(rule.ragged_mm, 0.15f * half_size);
    double farthest = 0;
    for (const auto& p : outline) farthest = std::max(farthest, glm::distance(p, centre));
    FaceRelief relief(rule.face, material, half_size, piece.seed, static_cast<float>(farthest));
    const bool smooth = relief.kind() == FaceKind::fused || relief.kind() == FaceKind::worn;
    relief.add_dome(static_cast<float>(piece.dome_mm));
    const auto chips = chips_of(piece, rule, centre, half_size);
    for (const auto& chip : chips) relief.add(chip);
    const bool domed = piece.dome_mm > 0.2;
    // Points close enough to carry the relief. Between them a smooth face is told by its normals, so a small
    // one does with few; a large one would show its rays.
    const bool large = farthest > kLarge_mm;
    float step = smooth ? std::max(static_cast<float>(perimeter) / (domed ? 28 : 12), domed ? 0.8f : 1.6f)
                        : std::max(static_cast<float>(perimeter) / 140, 0.7f);
    if (large) step = std::min(step, (smooth ? 0.35f : 0.5f) * relief.finest_wave_mm());
    auto rim = cut_rim(piece, rule, centre, step);
    if (smooth) refine_near(rim, chips);
    const auto around = static_cast<std::uint32_t>(rim.size());
    float narrowest = 1e30f, longest = 0;
    for (const auto& p : rim) {
        narrowest = std::min(narrowest, glm::dot(p.at, p.out));
        longest = std::max(longest, glm::length(p.at));
    }
    float widest_edge = 0;
    for (auto& p : rim) {
        p.radius_mm = std::min({p.radius_mm, 0.45f * std::max(narrowest, 0.2f), 0.3f * thickness});
        p.undercut_mm = std::min(p.undercut_mm, 0.08f * std::max(narrowest, 0.1f));
        widest_edge = std::max(widest_edge, p.radius_mm);
    }
    // How far the edge reaches inward, as a share of the way to the centre. A wide edge shrinks all round in
    // one proportion, or points beside a corner would run past it.
    const bool wide = widest_edge > 0.6f;
    const auto reach_of = [&](const RimPoint& p) {
        return std::min(p.radius_mm / std::max(wide ? narrowest : glm::dot(p.at, p.out), 0.1f), 0.5f);
    };

    const glm::vec2 lean(std::tan(piece.tilt_rad.x), std::tan(piece.tilt_rad.y));
    const glm::vec2 shift(heart - centre);
    const glm::vec2 origin(centre);
    const float bottom = static_cast<float>(piece.top_mm) - thickness;
    const auto face = [&](const glm::vec2& p) {
        Relief r = relief.at(p);
        r.height_mm = std::max(r.height_mm, -0.5f * thickness);
        r.height_mm += static_cast<float>(piece.top_mm) + glm::dot(lean, p - shift);
        r.height_mm = std::max(r.height_mm, bottom + 0.25f * thickness + widest_edge);
        r.slope += lean;
        return r;
    };

    RingMesh m;
    const auto add_ring = [&](float turn_rad, float shrink, std::size_t every) {
        const std::uint32_t start = m.next();
        const float c = std::cos(turn_rad), s = std::sin(turn_rad);
        for (std::size_t i = 0; i < rim.size(); i += every) {
            const RimPoint& p = rim[i];
            const float reach = reach_of(p), across = std::max(reach * glm::dot(p.at, p.out), 1e-3f);
            const float deep = std::min(across, 0.3f * thickness);
            const glm::vec2 q = p.at * (1 - reach * (1 - c)) * shrink;
            const Relief r = face(q);
            const glm::vec3 n(c * deep * p.out - s * across * r.slope, s * across);
            m.add({q + origin, r.height_mm - deep * (1 - s)}, glm::normalize(n));
        }
        return start;
    };
    const auto back_at = [&](const RimPoint& p) {
        return glm::vec3(
            p.at * (1 - p.undercut_mm / std::max(glm::dot(p.at, p.out), 2 * p.undercut_mm + 0.01f)) + origin,
            bottom);
    };
    const std::uint32_t back = m.next();
    for (const auto& p : rim) m.add(back_at(p), {0, 0, -1});
    const std::uint32_t back_centre = m.next();
    m.add({origin, bottom}, {0, 0, -1});
    m.fan(back, back_centre, around, false);
    std::uint32_t last = m.next();
    for (const auto& p : rim) m.add(back_at(p), glm::normalize(glm::vec3(p.out, -p.undercut_mm / thickness)));
    constexpr float kQuarter = 1.57079632679f;
    const int edge_rings = wide ? 3 : 2;
    for (int k = 0; k < edge_rings; ++k) {
        const std::uint32_t ring =
            add_ring(kQuarter * static_cast<float>(k) / static_cast<float>(edge_rings - 1), 1, 1);
        m.strip(last, ring, around);
        last = ring;
    }
    const bool few = smooth && !large;
    const int face_rings =
        few ? (domed ? 6 : 3) : std::clamp(static_cast<int>(std::lround(longest / step)), 3, kMostRings);
    std::uint32_t every = 1;
    float last_shrink = 1;
    float widest_chip = 0;
    for (const auto& chip : chips) widest_chip = std::max(widest_chip, chip.radius_mm);
    if (smooth)  // more rings where shells bite into the rim
        for (const float inset_mm : {0.4f, 0.9f, 1.6f, 2.4f}) {
            if (inset_mm > widest_chip || inset_mm > 0.3f * half_size) break;
            last_shrink = 1 - inset_mm / half_size;
            const std::uint32_t ring = add_ring(kQuarter, last_shrink, 1);
            m.strip(last, ring, around);
            last = ring;
        }
    for (int k = face_rings - 1; k > 0; --k) {
        const float shrink = static_cast<float>(k) / static_cast<float>(face_rings);
        if (shrink > last_shrink - 0.2f / half_size) continue;
        const bool halve = every < 8 && (few ? !domed && around / every > 16 && k < face_rings - 1
                                             : shrink * static_cast<float>(every) < 0.72f);
        if (halve) every *= 2;
        const std::uint32_t ring = add_ring(kQuarter, shrink, every);
        if (halve)
            m.halving_strip(last, ring, 2 * around / every);
        else
            m.strip(last, ring, around / every);
        last = ring;
    }
    const Relief r = face(glm::vec2(0));
    const std::uint32_t top = m.next();
    m.add({origin, r.height_mm}, glm::normalize(glm::vec3(-r.slope, 1)));
    m.fan(last, top, around / every, true);
    return std::move(m.mesh);
}

}  // namespace

Mesh form_piece(const Piece& piece, const Material& material) {
    switch (piece.form) {
        case PieceForm::chunk:
            return form_chunk(piece, material);
        case PieceForm::pebble:
            return form_pebble(piece);
        case PieceForm::of_material:
        case PieceForm::sawn:
        case PieceForm::nipped:
        case PieceForm::riven:
        case PieceForm::fused_edge:
        case PieceForm::tumbled:
            break;
    }
    return form_slab(piece, material);
}

double volume_mm3(const Mesh& mesh) {
    double sum = 0;
    for (const auto& t : mesh.triangles) {
        const glm::dvec3 a(mesh.positions_mm[t.x] - mesh.positions_mm[0]),
            b(mesh.positions_mm[t.y] - mesh.positions_mm[0]),
            c(mesh.positions_mm[t.z] - mesh.positions_mm[0]);
        sum += glm::dot(a, glm::cross(b, c));
    }
    return sum / 6;
}

}  // namespace rakelight
