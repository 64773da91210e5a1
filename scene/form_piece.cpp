// A piece as rings: one round its back, one round the top of its side, a few over the rounded edge, and
// shrinking ones over the face to its centre. Every ring point moves only along the ray from the centre, so
// no ring can fold.
#include <algorithm>
#include <cmath>

#include "materials/noise.h"
#include "scene/forms.h"
#include "scene/hash.h"
#include "scene/region.h"
#include "scene/relief.h"

namespace rakelight {

namespace {

struct RimPoint {
    glm::vec2 at{0};      // relative to the centre
    glm::vec2 out{1, 0};  // unit, outward
};

// The outline with its corners eased, in steps short enough to be a smooth rim.
std::vector<RimPoint> rim_of(const Ring& outline, const glm::dvec2& centre, float step_mm, float ease_mm) {
    std::vector<RimPoint> rim;
    const std::size_t n = outline.size();
    const auto corner = [&](std::size_t i) { return glm::vec2(outline[i % n] - centre); };
    const auto side_out = [&](std::size_t i) {
        const glm::vec2 d = glm::normalize(corner(i + 1) - corner(i));
        return glm::vec2(d.y, -d.x);
    };
    for (std::size_t i = 0; i < n; ++i) {
        const glm::vec2 a = corner(i), b = corner(i + 1);
        const float length = glm::distance(a, b);
        const float ease = std::min(ease_mm, 0.3f * length);
        const float ease_last = std::min(ease_mm, 0.3f * glm::distance(a, corner(i + n - 1)));
        const glm::vec2 out = side_out(i), out_last = side_out(i + n - 1);
        const glm::vec2 first = a + (b - a) * (ease / length);
        const glm::vec2 last = b - (b - a) * (ease / length);
        const glm::vec2 before = a + glm::normalize(corner(i + n - 1) - a) * ease_last;
        rim.push_back({0.25f * before + 0.5f * a + 0.25f * first, glm::normalize(out + out_last)});
        const int spans = std::max(1, static_cast<int>(std::lround((length - 2 * ease) / step_mm)));
        for (int k = 0; k <= spans; ++k)
            rim.push_back({glm::mix(first, last, static_cast<float>(k) / static_cast<float>(spans)), out});
    }
    return rim;
}

// Splits the longest spans until the count is a multiple of eight, so that rings can be halved three times.
void make_divisible(std::vector<RimPoint>& rim) {
    while (rim.size() % 8) {
        std::size_t longest = 0;
        float most = -1;
        for (std::size_t i = 0; i < rim.size(); ++i)
            if (const float d = glm::distance(rim[i].at, rim[(i + 1) % rim.size()].at); d > most) {
                most = d;
                longest = i;
            }
        const RimPoint& a = rim[longest];
        const RimPoint& b = rim[(longest + 1) % rim.size()];
        rim.insert(rim.begin() + static_cast<std::ptrdiff_t>(longest) + 1,
                   {0.5f * (a.at + b.at), glm::normalize(a.out + b.out)});
    }
}

class RingMesh {
  public:
    void add(const glm::vec3& p, const glm::vec3& normal) {
        mesh.positions_mm.push_back(p);
        mesh.normals.push_back(normal);
    }
    std::uint32_t next() const { return static_cast<std::uint32_t>(mesh.positions_mm.size()); }
    // Two rings of `around` points already added, outer (or lower) first.
    void strip(std::uint32_t outer, std::uint32_t inner, std::uint32_t around) {
        for (std::uint32_t i = 0; i < around; ++i) {
            const std::uint32_t j = (i + 1) % around;
            mesh.triangles.emplace_back(outer + i, outer + j, inner + j);
            mesh.triangles.emplace_back(outer + i, inner + j, inner + i);
        }
    }
    // The same where the inner ring has half the points of the outer.
    void halving_strip(std::uint32_t outer, std::uint32_t inner, std::uint32_t around) {
        for (std::uint32_t i = 0; i < around / 2; ++i) {
            const std::uint32_t j = (i + 1) % (around / 2), o = outer + 2 * i,
                                next_o = outer + (2 * i + 2) % around;
            mesh.triangles.emplace_back(o, o + 1, inner + i);
            mesh.triangles.emplace_back(o + 1, next_o, inner + j);
            mesh.triangles.emplace_back(o + 1, inner + j, inner + i);
        }
    }
    void fan(std::uint32_t ring, std::uint32_t centre, std::uint32_t around, bool up) {
        for (std::uint32_t i = 0; i < around; ++i) {
            const std::uint32_t j = (i + 1) % around;
            if (up)
                mesh.triangles.emplace_back(ring + i, ring + j, centre);
            else
                mesh.triangles.emplace_back(ring + j, ring + i, centre);
        }
    }
    Mesh mesh;
};

}  // namespace

Mesh form_piece(const Piece& piece, const Material& material) {
    const Ring& outline = piece.outline_mm;
    const glm::dvec2 heart = centroid(outline);
    const glm::dvec2 centre = star_centre(outline).value_or(heart);
    double perimeter = 0;
    for (std::size_t i = 0; i < outline.size(); ++i)
        perimeter += glm::distance(outline[i], outline[(i + 1) % outline.size()]);
    const auto half_size = static_cast<float>(2 * area_mm2(outline) / perimeter);
    const auto thickness = static_cast<float>(piece.thickness_mm);

    Chance chance(hash_combine(piece.seed, 41));
    FaceRelief relief(material, half_size, piece.seed);
    const bool smooth = relief.kind() == FaceKind::fused || relief.kind() == FaceKind::worn;
    // One glass piece in thirty lost a shell at a corner to the nipper; stone arrises more often.
    if (chance.unit() < (relief.kind() == FaceKind::fused  ? 0.03
                         : relief.kind() == FaceKind::worn ? 0.0
                                                           : 0.2)) {
        const auto which = static_cast<std::size_t>(chance.unit() * static_cast<double>(outline.size()));
        const auto radius = static_cast<float>(chance.within(0.25, 0.6)) * half_size;
        relief.add(
            {glm::vec2(outline[which] - centre), radius, std::min({0.35f * radius, 0.3f * thickness, 0.7f})});
    }
    // Rough faces need points close enough to carry their relief.
    const float step = smooth ? std::max(static_cast<float>(perimeter) / 20, 1.2f)
                              : std::max(static_cast<float>(perimeter) / 140, 0.7f);
    auto rim = rim_of(outline, centre, step, smooth ? 0.8f : 0.4f);
    make_divisible(rim);
    const auto around = static_cast<std::uint32_t>(rim.size());
    // The arris is never quite straight; it only ever loses.
    const float ragged = std::min(relief.ragged_mm(), 0.15f * half_size);
    for (auto& p : rim) {
        const float loss =
            ragged *
            (0.5f +
             0.5f *
                 layered_noise(glm::vec3(p.at, 0) * 0.7f, 2, static_cast<std::uint32_t>(piece.seed)).value);
        p.at *= 1 - loss / std::max(glm::length(p.at), loss * 4);
    }
    float narrowest = 1e30f, longest = 0;
    for (const auto& p : rim) {
        narrowest = std::min(narrowest, glm::dot(p.at, p.out));
        longest = std::max(longest, glm::length(p.at));
    }
    const float radius =
        std::min({relief.edge_radius_mm(), 0.45f * std::max(narrowest, 0.2f), 0.3f * thickness});

    const glm::vec2 lean(std::tan(piece.tilt_rad.x), std::tan(piece.tilt_rad.y));
    const glm::vec2 shift(heart - centre);
    const glm::vec2 origin(centre);
    const float bottom = static_cast<float>(piece.top_mm) - thickness;
    const auto face = [&](const glm::vec2& p) {
        Relief r = relief.at(p);
        r.height_mm = std::max(r.height_mm, -0.5f * thickness);
        r.height_mm += static_cast<float>(piece.top_mm) + glm::dot(lean, p - shift);
        r.height_mm = std::max(r.height_mm, bottom + 0.25f * thickness + radius);
        r.slope += lean;
        return r;
    };

    RingMesh m;
    const auto add_ring = [&](float turn_rad, float shrink, std::size_t every) {
        const std::uint32_t start = m.next();
        const float c = std::cos(turn_rad), s = std::sin(turn_rad);
        for (std::size_t i = 0; i < rim.size(); i += every) {
            const RimPoint& p = rim[i];
            const float inset = radius * (1 - c) / std::max(glm::dot(p.at, p.out), 2 * radius);
            const glm::vec2 q = p.at * (1 - inset) * shrink;
            const Relief r = face(q);
            const glm::vec3 n(c * p.out - s * r.slope, s);
            m.add({q + origin, r.height_mm - radius * (1 - s)}, glm::normalize(n));
        }
        return start;
    };
    const std::uint32_t back = m.next();
    for (const auto& p : rim) m.add({p.at + origin, bottom}, {0, 0, -1});
    const std::uint32_t back_centre = m.next();
    m.add({origin, bottom}, {0, 0, -1});
    m.fan(back, back_centre, around, false);
    std::uint32_t last = m.next();
    for (const auto& p : rim) m.add({p.at + origin, bottom}, {p.out, 0});
    constexpr float kQuarter = 1.57079632679f;
    const int edge_rings = smooth ? 3 : 2;
    for (int k = 0; k < edge_rings; ++k) {
        const std::uint32_t ring =
            add_ring(kQuarter * static_cast<float>(k) / static_cast<float>(edge_rings - 1), 1, 1);
        m.strip(last, ring, around);
        last = ring;
    }
    const int face_rings = smooth ? 3 : std::clamp(static_cast<int>(std::lround(longest / step)), 3, 28);
    std::uint32_t every = 1;
    for (int k = face_rings - 1; k > 0; --k) {
        const float shrink = static_cast<float>(k) / static_cast<float>(face_rings);
        const bool halve = !smooth && every < 8 && shrink * static_cast<float>(every) < 0.72f;
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
