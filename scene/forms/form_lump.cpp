// Pieces that are lumps: broken chunks that rise above the faces, water-worn pebbles set two thirds deep, and
// beads.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "materials/maths/hash.h"
#include "materials/maths/noise.h"
#include "scene/forms/piece_form.h"
#include "scene/forms/rim.h"
#include "scene/geometry/region.h"
#include "scene/geometry/ring_mesh.h"

namespace rakelight {

namespace {

// Outer corners cut off again and again (Chaikin 1974).
Ring worn(Ring ring) {
    for (int pass = 0; pass < 3 && ring.size() < 40; ++pass) {
        Ring finer;
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const glm::dvec2 a = ring[i], b = ring[(i + 1) % ring.size()], c = ring[(i + 2) % ring.size()];
            finer.push_back(glm::mix(a, b, 0.25));
            finer.push_back(glm::mix(a, b, 0.75));
            const bool inner = (b.x - a.x) * (c.y - b.y) < (b.y - a.y) * (c.x - b.x);
            if (inner) finer.push_back(b);  // cutting it would leave the outline
        }
        ring = std::move(finer);
    }
    return ring;
}

// The ellipse about a centre that has a ring's area and moments: how far it reaches along a direction, mm.
struct LikeEllipse {
    double xx = 0, xy = 0, yy = 0;  // of its quadratic form

    LikeEllipse(const Ring& ring, const glm::dvec2& centre) {
        // Second moments of the triangles from the centre (exact for polygons: Green's theorem).
        double area = 0, mxx = 0, mxy = 0, myy = 0;
        for (const auto& [from, to] : edges(ring)) {
            const glm::dvec2 a = from - centre, b = to - centre;
            const double twice = cross(a, b);
            area += twice / 2;
            mxx += twice * (a.x * a.x + a.x * b.x + b.x * b.x) / 12;
            myy += twice * (a.y * a.y + a.y * b.y + b.y * b.y) / 12;
            mxy += twice * (a.x * b.y + 2 * a.x * a.y + 2 * b.x * b.y + b.x * a.y) / 24;
        }
        const double root = std::sqrt(std::max(mxx * myy - mxy * mxy, 1e-12));
        const double scale = std::numbers::pi / (area * root);
        xx = scale * myy;
        yy = scale * mxx;
        xy = -scale * mxy;
    }
    double reach_mm(const glm::dvec2& unit) const {
        return 1 / std::sqrt(xx * unit.x * unit.x + 2 * xy * unit.x * unit.y + yy * unit.y * unit.y);
    }
};

/// The broken top of a lump: planes that fall away from its middle on all sides. Places relative to the
/// centre, mm.
class BrokenTop {
  public:
    BrokenTop(const Piece& piece, const Material& material, float half_size)
        : top_(static_cast<float>(piece.top_mm)),
          bottom_(top_ - static_cast<float>(piece.thickness_mm)),
          rise_(static_cast<float>(chunk_rise_mm(piece))),
          pitted_(face_kind(material) == FaceKind::pitted),
          seed_(static_cast<std::uint32_t>(piece.seed)) {
        // Directions shared out round the lump, each plane starting to fall somewhere off the middle.
        Rng rng(hash_combine(piece.seed, 45));
        const int count = 5 + static_cast<int>(3 * rng.unit());
        for (int i = 0; i < count; ++i) {
            const double turn = 2 * std::numbers::pi / count * (i + rng.within(-0.35, 0.35));
            const auto from = static_cast<float>(rng.within(-0.05, 0.45)) * half_size;
            const auto fall = static_cast<float>(rng.within(0.7, 1.15)) * rise_;
            planes_.push_back({{std::cos(turn), std::sin(turn)}, fall / (half_size - from), from});
        }
        across_ = {rng.within(-0.2, 0.2), rng.within(-0.2, 0.2)};
    }
    float bottom() const { return bottom_; }
    float height(const glm::vec2& p) const {
        float z = top_ + std::min(0.0f, glm::dot(across_, p));
        for (const auto& b : planes_) z = std::min(z, top_ - b.steep * (glm::dot(b.toward, p) - b.from_mm));
        const float rough = pitted_ ? 0.7f : 0.3f;
        z += rough * (layered_noise(glm::vec3(p, 0) * (pitted_ ? 0.8f : 0.5f), 3, seed_).value - 0.5f);
        return std::clamp(z, std::max(top_ - rise_, bottom_ + 0.5f), top_);
    }

  private:
    struct Plane {
        glm::vec2 toward;
        float steep, from_mm;
    };
    float top_, bottom_, rise_;
    bool pitted_;
    std::uint32_t seed_;
    std::vector<Plane> planes_;
    glm::vec2 across_{0};  // the slope of the top, which is a plane too
};

/// A ball over an outline, pressed to a height: its upright sections are superellipses.
struct Ball {
    Ring outline;
    double power;
    int rings;  // pole to pole
    glm::vec2 lean{0};

    Mesh mesh(const Piece& piece) const;
};

Mesh Ball::mesh(const Piece& piece) const {
    const glm::dvec2 centre = star_centre(outline).value_or(centroid(outline));
    const auto around = static_cast<std::uint32_t>(outline.size());
    const auto half_height = static_cast<float>(piece.thickness_mm / 2);
    const float middle = static_cast<float>(piece.top_mm) - half_height;
    const glm::vec2 origin(centre);
    // No ridge is left: towards the poles the outline's corners fade into the ellipse that is like it.
    const LikeEllipse ellipse(outline, centre);
    const auto root = static_cast<float>(2 / power);
    RingMesh m;
    const auto foot = m.next();
    m.add({origin, middle - half_height}, {0, 0, -1});
    std::uint32_t last = 0;
    for (int k = 1; k < rings; ++k) {
        const float turn =
            (static_cast<float>(k) / static_cast<float>(rings) - 0.5f) * std::numbers::pi_v<float>;
        const float wide = std::pow(std::cos(turn), root);
        const float up = std::copysign(std::pow(std::abs(std::sin(turn)), root), turn);
        const std::uint32_t ring = m.next();
        for (const auto& p : outline) {
            const glm::dvec2 out = p - centre;
            const double own = glm::length(out);
            const double like =
                std::min(ellipse.reach_mm(out / own), 1.5 * own);  // so it stays within the outline
            const double w = static_cast<double>(wide);
            const glm::vec2 q(out / own * w * glm::mix(like, own, w * w));
            m.add({q + origin, middle + half_height * up + glm::dot(lean, q)}, {0, 0, 1});
        }
        if (k == 1)
            m.fan(ring, foot, around, false);
        else
            m.strip(last, ring, around);
        last = ring;
    }
    const std::uint32_t peak = m.next();
    m.add({origin, middle + half_height}, {0, 0, 1});
    m.fan(last, peak, around, true);
    smooth_normals(m.mesh);
    return std::move(m.mesh);
}

}  // namespace

Mesh form_chunk(const Piece& piece, const Material& material) {
    const glm::dvec2 centre = star_centre(piece.outline_mm).value_or(centroid(piece.outline_mm));
    FormRule rule;
    rule.ragged_mm = 0.4f;
    rule.undercut_deg = 6;
    rule.bow_share = 0.03f;
    const BrokenTop top(piece, material, static_cast<float>(mean_half_width_mm(piece.outline_mm)));
    const float step = std::max(static_cast<float>(perimeter_mm(piece.outline_mm)) / 96, 0.8f);
    const auto rim = cut_rim(piece, rule, centre, step);
    float longest = 0;
    for (const auto& p : rim) longest = std::max(longest, glm::length(p.at));

    RingMesh m;
    const auto ring_at = [&](float shrink, std::size_t every) {
        const std::uint32_t start = m.next();
        for (std::size_t i = 0; i < rim.size(); i += every) {
            const glm::vec2 p = rim[i].at * shrink;
            m.add({p + glm::vec2(centre), top.height(p)}, {0, 0, 1});
        }
        return start;
    };
    RingChain chain(m, static_cast<std::uint32_t>(rim.size()));
    for (const auto& p : rim) {
        const float in = std::min(p.undercut_mm / std::max(glm::dot(p.at, p.out), 0.1f), 0.3f);
        m.add({p.at * (1 - in) + glm::vec2(centre), top.bottom()}, {0, 0, -1});
    }
    m.close_below(chain.last, {glm::vec2(centre), top.bottom()});
    chain.join(ring_at(1, 1));
    const int rings = std::clamp(static_cast<int>(std::lround(longest / step)), 4, 24);
    for (int k = rings - 1; k > 0; --k) {
        const float shrink = static_cast<float>(k) / static_cast<float>(rings);
        const std::uint32_t every = chain.next_every(chain.crowded(shrink));
        chain.join(ring_at(shrink, every), every);
    }
    chain.close_above({glm::vec2(centre), top.height(glm::vec2(0))}, {0, 0, 1});
    smooth_normals(m.mesh);
    return std::move(m.mesh);
}

Mesh form_pebble(const Piece& piece) {
    const glm::vec2 lean(std::tan(piece.tilt_rad.x), std::tan(piece.tilt_rad.y));
    return Ball{worn(piece.outline_mm), static_cast<double>(kPebblePower), 18, lean}.mesh(piece);
}

Mesh form_bead(const Piece& piece) {
    return Ball{piece.outline_mm, 2, 12}.mesh(piece);
}

}  // namespace rakelight
