// A piece as rings: one round its back, one round the top of its side, a few over the rounded edge, and
// shrinking ones over the face to its centre. Every ring point moves only along the ray from the centre, so
// no ring can fold.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "materials/maths/hash.h"
#include "scene/forms/forms.h"
#include "scene/forms/piece_form.h"
#include "scene/forms/relief.h"
#include "scene/forms/rim.h"
#include "scene/geometry/region.h"
#include "scene/geometry/ring_mesh.h"

namespace rakelight {

namespace {

// Shells broken off the arris: their middles lie on the outline, more often near corners.
std::vector<Chip> chips_of(const Piece& piece, const FormRule& rule, const glm::dvec2& centre,
                           float half_size_mm) {
    Rng rng(hash_combine(piece.seed, 41));
    std::vector<Chip> chips;
    const Ring& outline = piece.outline_mm;
    const auto mean = static_cast<double>(rule.chips);
    // Mean 0.25 of each of four blows keeps the count at most four.
    for (int blow = 0; blow < 4; ++blow) {
        const bool falls = rng.unit() < mean / 4;
        const auto side = static_cast<std::size_t>(rng.unit() * static_cast<double>(outline.size()));
        const double toward = rng.unit();
        const auto wanted = static_cast<float>(rng.within(rule.chip_mm.low, rule.chip_mm.high));
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
constexpr float kChipRing_mm = 0.5f;
constexpr float kQuarter_rad = std::numbers::pi_v<float> / 2;

/// A flat piece: its rim, and the face above it. Lengths in millimetres, places relative to the centre.
class SlabShape {
  public:
    SlabShape(const Piece& piece, const Material& material, double finest_mm);
    Mesh mesh() const;

  private:
    float point_distance() const;
    void cut_rim_to_size(float step);
    float reach_of(const RimPoint& p) const;
    Relief face(const glm::vec2& p) const;
    glm::vec3 back_at(const RimPoint& p) const;
    std::uint32_t add_ring(RingMesh& m, float turn_rad, float shrink, std::size_t every = 1) const;
    void add_back(RingMesh& m) const;
    void add_side_and_edge(RingChain& chain) const;
    float add_chipped_rings(RingChain& chain) const;
    void add_face(RingChain& chain, float last_shrink) const;

    // Whether chips and the round of a wide edge are to be seen.
    bool fine() const { return finest_ < kChipRing_mm; }

    const Piece& piece_;
    float finest_;
    FormRule rule_;
    glm::dvec2 heart_;
    glm::dvec2 centre_;
    float half_size_;
    float thickness_;
    float top_;
    float bottom_;
    glm::vec2 lean_;
    double farthest_;
    FaceRelief relief_;
    bool smooth_;  // told by its normals between the points
    bool domed_;
    bool large_;
    std::vector<Chip> chips_;
    float step_;
    std::vector<RimPoint> rim_;
    float narrowest_ = 1e30f;
    float longest_ = 0;
    float widest_edge_ = 0;
    bool wide_ = false;  // a wide edge shrinks all round in one proportion
};

SlabShape::SlabShape(const Piece& piece, const Material& material, double finest_mm)
    : piece_(piece),
      finest_(static_cast<float>(finest_mm)),
      rule_(form_rule(piece.form, material)),
      heart_(centroid(piece.outline_mm)),
      centre_(star_centre(piece.outline_mm).value_or(heart_)),
      half_size_(static_cast<float>(mean_half_width_mm(piece.outline_mm))),
      thickness_(static_cast<float>(piece.thickness_mm)),
      top_(static_cast<float>(piece.top_mm)),
      bottom_(top_ - thickness_),
      lean_(std::tan(piece.tilt_rad.x), std::tan(piece.tilt_rad.y)),
      farthest_(farthest_mm(piece.outline_mm, centre_)),
      relief_(rule_.face, material, half_size_, piece.seed, static_cast<float>(farthest_)),
      smooth_(relief_.kind() == FaceKind::fused || relief_.kind() == FaceKind::worn),
      domed_(piece.dome_mm.value_or(0) > 0.2),
      large_(farthest_ > kLarge_mm),
      chips_(chips_of(piece, rule_, centre_, half_size_)),
      step_(point_distance()) {
    rule_.ragged_mm = std::min(rule_.ragged_mm, 0.15f * half_size_);
    if (piece.dome_mm) relief_.set_dome(static_cast<float>(*piece.dome_mm));
    for (const auto& chip : chips_) relief_.add(chip);
    cut_rim_to_size(step_);
}

// Points close enough to carry the relief. Between them a smooth face is told by its normals, so a small one
// does with few; a large one would show its rays.
float SlabShape::point_distance() const {
    const auto around = static_cast<float>(perimeter_mm(piece_.outline_mm));
    const float step =
        smooth_ ? std::max(around / (domed_ ? 28 : 12), domed_ ? 0.8f : 1.6f) : std::max(around / 140, 0.7f);
    return std::max(finest_,
                    large_ ? std::min(step, (smooth_ ? 0.35f : 0.5f) * relief_.finest_wave_mm()) : step);
}

void SlabShape::cut_rim_to_size(float step) {
    rim_ = cut_rim(piece_, rule_, centre_, step);
    if (smooth_ && fine()) refine_near(rim_, chips_);
    for (const auto& p : rim_) {
        narrowest_ = std::min(narrowest_, glm::dot(p.at, p.out));
        longest_ = std::max(longest_, glm::length(p.at));
    }
    for (auto& p : rim_) {
        p.radius_mm = std::min({p.radius_mm, 0.45f * std::max(narrowest_, 0.2f), 0.3f * thickness_});
        p.undercut_mm = std::min(p.undercut_mm, 0.08f * std::max(narrowest_, 0.1f));
        widest_edge_ = std::max(widest_edge_, p.radius_mm);
    }
    wide_ = widest_edge_ > 0.6f;
}

// How far the edge reaches inward, as a share of the way to the centre. A wide edge shrinks all round in one
// proportion, or points beside a corner would run past it.
float SlabShape::reach_of(const RimPoint& p) const {
    return std::min(p.radius_mm / std::max(wide_ ? narrowest_ : glm::dot(p.at, p.out), 0.1f), 0.5f);
}

Relief SlabShape::face(const glm::vec2& p) const {
    Relief r = relief_.at(p);
    r.height_mm = std::max(r.height_mm, -0.5f * thickness_);
    r.height_mm += top_ + glm::dot(lean_, p - glm::vec2(heart_ - centre_));
    r.height_mm = std::max(r.height_mm, bottom_ + 0.25f * thickness_ + widest_edge_);
    r.slope += lean_;
    return r;
}

glm::vec3 SlabShape::back_at(const RimPoint& p) const {
    const float in = p.undercut_mm / std::max(glm::dot(p.at, p.out), 2 * p.undercut_mm + 0.01f);
    return {p.at * (1 - in) + glm::vec2(centre_), bottom_};
}

// Of every so many points of the rim, turned over the edge by `turn_rad` and shrunk towards the centre.
std::uint32_t SlabShape::add_ring(RingMesh& m, float turn_rad, float shrink, std::size_t every) const {
    const std::uint32_t start = m.next();
    const float c = std::cos(turn_rad), s = std::sin(turn_rad);
    for (std::size_t i = 0; i < rim_.size(); i += every) {
        const RimPoint& p = rim_[i];
        const float reach = reach_of(p), across = std::max(reach * glm::dot(p.at, p.out), 1e-3f);
        const float deep = std::min(across, 0.3f * thickness_);
        const glm::vec2 q = p.at * (1 - reach * (1 - c)) * shrink;
        const Relief r = face(q);
        const glm::vec3 n(c * deep * p.out - s * across * r.slope, s * across);
        m.add({q + glm::vec2(centre_), r.height_mm - deep * (1 - s)}, glm::normalize(n));
    }
    return start;
}

void SlabShape::add_back(RingMesh& m) const {
    const std::uint32_t back = m.next();
    for (const auto& p : rim_) m.add(back_at(p), {0, 0, -1});
    m.close_below(back, {glm::vec2(centre_), bottom_});
}

// From the back's rim, repeated for the crease, up the side and over the edge.
void SlabShape::add_side_and_edge(RingChain& chain) const {
    for (const auto& p : rim_)
        chain.rings.add(back_at(p), glm::normalize(glm::vec3(p.out, -p.undercut_mm / thickness_)));
    const int edge_rings = wide_ && fine() ? 3 : 2;
    for (int k = 0; k < edge_rings; ++k)
        chain.join(add_ring(chain.rings,
                            kQuarter_rad * static_cast<float>(k) / static_cast<float>(edge_rings - 1), 1));
}

// More rings where shells bite into the rim. \return how far the last has shrunk
float SlabShape::add_chipped_rings(RingChain& chain) const {
    float last_shrink = 1, widest_chip = 0;
    if (!smooth_ || !fine()) return last_shrink;
    for (const auto& chip : chips_) widest_chip = std::max(widest_chip, chip.radius_mm);
    for (const float inset_mm : {0.4f, 0.9f, 1.6f, 2.4f}) {
        if (inset_mm > widest_chip || inset_mm > 0.3f * half_size_) break;
        last_shrink = 1 - inset_mm / half_size_;
        chain.join(add_ring(chain.rings, kQuarter_rad, last_shrink));
    }
    return last_shrink;
}

void SlabShape::add_face(RingChain& chain, float last_shrink) const {
    const bool few = smooth_ && !large_;
    const int by_step = static_cast<int>(std::lround(longest_ / step_));
    const int usual = few ? (domed_ ? 6 : 3) : std::clamp(by_step, 3, kMostRings);
    const int face_rings = fine() ? usual : std::clamp(by_step, 2, usual);
    for (int k = face_rings - 1; k > 0; --k) {
        const float shrink = static_cast<float>(k) / static_cast<float>(face_rings);
        if (shrink > last_shrink - 0.2f / half_size_) continue;
        const bool thin_out =
            few ? !domed_ && chain.around > 16 && k < face_rings - 1 : chain.crowded(shrink);
        const std::uint32_t every = chain.next_every(thin_out);
        chain.join(add_ring(chain.rings, kQuarter_rad, shrink, every), every);
    }
    const Relief r = face(glm::vec2(0));
    chain.close_above({glm::vec2(centre_), r.height_mm}, glm::normalize(glm::vec3(-r.slope, 1)));
}

Mesh SlabShape::mesh() const {
    RingMesh m;
    add_back(m);
    RingChain chain(m, static_cast<std::uint32_t>(rim_.size()));
    add_side_and_edge(chain);
    add_face(chain, add_chipped_rings(chain));
    return std::move(m.mesh);
}

}  // namespace

Mesh form_piece(const Piece& piece, const Material& material, double finest_mm) {
    switch (piece.form) {
        case PieceForm::chunk:
            return form_chunk(piece, material);
        case PieceForm::pebble:
            return form_pebble(piece);
        case PieceForm::bead:
            return form_bead(piece);
        case PieceForm::of_material:
        case PieceForm::sawn:
        case PieceForm::nipped:
        case PieceForm::riven:
        case PieceForm::fused_edge:
        case PieceForm::tumbled:
            break;
    }
    return SlabShape(piece, material, finest_mm).mesh();
}

}  // namespace rakelight
