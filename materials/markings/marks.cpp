#include "materials/markings/marks.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numbers>

#include "materials/markings/face_pattern.h"
#include "materials/markings/strand_fields.h"
#include "materials/maths/noise.h"

namespace rakelight {

namespace {

constexpr int kPlaces = 8192;  // that stand for a whole face

// Places spread evenly over a face, and down it a little: Kronecker's sequence of the plastic number.
glm::vec3 sample_place(int i) {
    const double n = i;
    return {static_cast<float>(4000 * std::fmod(n * 0.8191725133961645, 1.0)),
            static_cast<float>(4000 * std::fmod(n * 0.6710436067037893, 1.0)),
            static_cast<float>(400 * std::fmod(n * 0.5497004779019703, 1.0))};
}

float smooth_step(float t) {
    const float u = std::clamp(t, 0.f, 1.f);
    return u * u * (3 - 2 * u);
}

// Two numbers in [0, 1) that a place alone decides.
glm::vec2 drawn(const glm::vec3& at, std::uint32_t seed) {
    const std::uint32_t h =
        lattice_hash(std::bit_cast<std::int32_t>(at.x), std::bit_cast<std::int32_t>(at.y), 7, seed);
    return {static_cast<float>(h >> 16) / 65536, static_cast<float>(h & 0xffffu) / 65536};
}

float unit_of(std::uint32_t bits) {
    return static_cast<float>(bits & 0xffu) / 255;
}

// Where the field sets in, so that the mean over the face is the share asked for: by bisection.
float least_field(const Strands& s, const glm::vec3& per_mm) {
    std::vector<float> field(kPlaces);
    for (int i = 0; i < kPlaces; ++i)
        field[static_cast<std::size_t>(i)] = strand_field(s.form, sample_place(i) * per_mm, 1);
    const float edge = strand_edge(s.form);
    const auto [low, high] = std::minmax_element(field.begin(), field.end());
    float least = *low - edge, most = *high;
    for (int k = 0; k < 30; ++k) {
        const float middle = (least + most) / 2;
        double sum = 0;
        for (const float f : field) sum += static_cast<double>(smooth_step((f - middle) / edge));
        (sum / kPlaces > static_cast<double>(s.share) ? least : most) = middle;
    }
    return (least + most) / 2;
}

// A line of light between two fainter shadows where a thread of another index runs: mean 0 over a normal c.
float cord_line(float c) {
    return std::exp(-c * c / 0.09f) - 0.531f * std::exp(-c * c / 0.36f);
}

float cord_field(const Marks& m, const MarkedPlace& p) {
    constexpr float kDrawn = 1.f / 25;  // as long as 25 are apart
    glm::vec3 q = p.at_mm * (2 / m.cords.size_mm);
    q.y += 1.5f * strand_detail::unit_noise(q * glm::vec3(kDrawn, 0.15f, 0.15f), p.seed + 61);
    return strand_detail::unit_noise(q * glm::vec3(kDrawn, 1, 0.3f), p.seed + 62);
}

/// The seed that a ray meets.
struct SeedHit {
    bool met = false;
    glm::vec2 off{0};  ///< from its middle, in radii
};

SeedHit find_seed(const Marks& m, const MarkedPlace& p) {
    SeedHit hit;
    const float apart = 10 / std::sqrt(m.seeds.per_cm2);  // mm, one to a square
    const glm::vec2 run = glm::vec2(p.down) / std::max(-p.down.z, 0.3f);
    const glm::vec2 at(p.at_mm);
    const glm::vec2 low = glm::floor((at + run * (0.5f * m.thickness_mm)) / apart);
    float nearest = 1e9f;
    for (int y = -1; y <= 1; ++y)
        for (int x = -1; x <= 1; ++x) {
            const glm::vec2 cell = low + glm::vec2(x, y);
            const auto cx = static_cast<std::int32_t>(cell.x), cy = static_cast<std::int32_t>(cell.y);
            const std::uint32_t h = lattice_hash(cx, cy, 1, p.seed), g = lattice_hash(cx, cy, 2, p.seed);
            // Many are small, few large: mean one.
            const float u = unit_of(h), radius = 0.5f * m.seeds.size_mm * (0.4f + 1.8f * u * u);
            const float depth = radius + std::max(m.thickness_mm - 2 * radius, 0.f) * unit_of(h >> 8);
            const glm::vec2 middle = (cell + glm::vec2(unit_of(g), unit_of(g >> 8))) * apart;
            glm::vec2 off = (at + run * depth - middle) / radius;
            off.x /= 1 + 0.7f * unit_of(g >> 16) * unit_of(h >> 16);  // some are drawn out with the sheet
            if (glm::dot(off, off) >= 1 || depth >= nearest) continue;
            nearest = depth;
            hit = {true, off};
        }
    return hit;
}

// A seed seen from above is a small ball of gas: its heart lets the eye through, by a shorter way in the
// glass and wide apart, as a hollow lens does; rays farther out than 1/n are thrown aside, along the glass;
// grazing ones hardly bend. Lamps mirror in its top and in its bottom.
bool look_through_seed(const Marks& m, const MarkedPlace& p, const glm::vec2& chance, glm::vec2& shift_mm,
                       SeenMarking& look) {
    const SeedHit hit = find_seed(m, p);
    if (!hit.met) return false;
    const float s = std::sqrt(glm::dot(hit.off, hit.off));
    constexpr float kThrown = 0.66f, kGrazing = 0.9f;
    const float rim = smooth_step((s - kThrown + 0.1f) / 0.2f) * (1 - smooth_step((s - kGrazing) / 0.1f));
    if (chance.x < rim) {
        look.step = m.first_seed_look + 1;
        return true;
    }
    if (s > kGrazing) return false;
    // Through a thin hollow lens things lie closer together: the eye runs apart twice as far.
    shift_mm = hit.off * (0.5f * m.seeds.size_mm) * (1.2f + 2 * s * s);
    if (chance.y < 0.6f) {
        const float way = chance.y < 0.3f ? 1.f : -1.f;
        look.slope = glm::vec3(hit.off * (-0.9f * way), 0);
    }
    look.step = m.first_seed_look;
    return true;
}

// Grains strewn one to a cell, paste between them; near the pieces the sponge has left them under a skin.
void strew(const Marks& m, const MarkedPlace& p, SeenMarking& look) {
    const CellSample c = cell_noise(p.at_mm * (0.85f / m.sand.size_mm), p.seed + 71);
    const float shown = 0.3f + 0.7f * smooth_step(p.edge_mm / (1.2f * m.sand.size_mm));
    const float radius = 0.36f + 0.22f * unit_of(c.id >> 20);
    if (c.nearest >= radius) return;
    constexpr float kSqrt3 = 1.7320508f, kSteep = 0.35f;
    const float tone = kSqrt3 * (2 * unit_of(c.id >> 4) - 1);  // mean 0, deviation 1
    look.scale *= std::max(1 + shown * m.sand.contrast * tone, 0.f);
    look.slope += shown * kSteep * glm::vec3(glm::vec2(c.to_nearest) / radius, 0);
}

// It climbs the pieces in a hollow curve: a parabola of the distance, a quarter as high as it is wide.
void climb(const Marks& m, const MarkedPlace& p, SeenMarking& look) {
    const float width = m.meniscus.width_mm, left = 1 - std::max(p.edge_mm, 0.f) / width;
    if (left > 0) look.slope -= glm::vec3(0.5f * left * p.inward, 0);
}

void mottle(const Marks& m, const MarkedPlace& p, SeenMarking& look) {
    const glm::vec3 q = p.at_mm * (2 / m.mottling.size_mm);
    const float n = 0.8f * strand_detail::unit_noise(q, p.seed + 81) +
                    0.6f * strand_detail::unit_noise(q * 2.6f, p.seed + 82);
    look.scale *= std::max(1 + m.mottling.contrast * n, 0.2f);
}

// A filling.
void spread(const Marks& m, const MarkedPlace& p, SeenMarking& look) {
    if (m.sand.size_mm > 0) strew(m, p, look);
    if (m.meniscus.width_mm > 0) climb(m, p, look);
    if (m.mottling.contrast > 0) mottle(m, p, look);
}

// Which thread is seen at a place, and which of its steps: each in the measure of its weight.
int step_of_threads(const Marks& m, const MarkedPlace& p, const glm::vec2& chance) {
    std::array<float, kMostStrands> weight{};
    float all = 0;
    for (int i = 0; i < m.thread_count; ++i) {
        const auto at = static_cast<std::size_t>(i);
        const Marks::Thread& t = m.threads[at];
        const float f =
            strand_field(t.form, p.at_mm * t.per_mm, p.seed + 101u * static_cast<std::uint32_t>(i));
        weight[at] = smooth_step((f - t.least) * t.per_edge);
        all += weight[at];
    }
    if (!(all > 0)) return 0;
    float left = chance.x * all;
    int which = 0;
    while (which + 1 < m.thread_count && left >= weight[static_cast<std::size_t>(which)])
        left -= weight[static_cast<std::size_t>(which++)];
    const int step = static_cast<int>(weight[static_cast<std::size_t>(which)] * kStrandSteps + chance.y);
    return step == 0 ? 0 : kStrandSteps * which + std::min(step, kStrandSteps);
}

}  // namespace

Marks compile(const Markings& markings, float thickness_mm, bool any_way) {
    Marks m;
    for (const Strands& s : markings.strands) {
        if (m.thread_count == static_cast<int>(kMostStrands)) break;
        const glm::vec3 per_mm(2 / s.length_mm, 2 / s.size_mm, 2 / s.size_mm);
        const float least = least_field(s, per_mm);
        m.threads[static_cast<std::size_t>(m.thread_count++)] = {s.form, per_mm, least,
                                                                 1 / strand_edge(s.form)};
    }
    m.cords = markings.cords;
    m.sand = markings.sand;
    m.mottling = markings.mottling;
    m.meniscus = markings.meniscus;
    m.pattern = markings.face.pattern;
    m.pattern_per_mm = 2 / markings.face.size_mm;
    m.pattern_slope =
        std::tan(markings.face.slope_deg * std::numbers::pi_v<float> / 180) / pattern_slope(m.pattern);
    m.thickness_mm = thickness_mm;
    m.any_way = any_way;
    if (markings.seeds.size_mm > 0 && markings.seeds.per_cm2 > 0) {
        m.seeds = markings.seeds;
        m.first_seed_look = 1 + kStrandSteps * m.thread_count;
    }
    return m;
}

SeenMarking look_at(const Marks& m, const MarkedPlace& place) {
    SeenMarking look;
    const glm::vec2 chance = drawn(place.at_mm, place.seed);
    MarkedPlace p = place;
    bool seed = false;
    if (m.first_seed_look >= 0) {
        glm::vec2 shift_mm(0);
        seed = look_through_seed(m, p, chance, shift_mm, look);
        p.at_mm += glm::vec3(shift_mm, 0);
    }
    if (m.cords.contrast > 0) {
        const float line = cord_line(cord_field(m, p));
        look.scale *= std::max(1 + m.cords.contrast * line, 0.2f);
        p.at_mm.y += 0.4f * m.cords.size_mm * line;
    }
    if (!seed || (look.step == m.first_seed_look && m.thread_count > 0)) {
        const int step = m.thread_count > 0 ? step_of_threads(m, p, chance) : 0;
        if (!seed || step > 0) look.step = step;
    }
    if (m.sand.size_mm > 0 || m.mottling.contrast > 0 || m.meniscus.width_mm > 0) spread(m, p, look);
    if (m.pattern != Pattern::none)
        look.slope +=
            glm::vec3(m.pattern_slope *
                          pattern_at(m.pattern, glm::vec2(place.at_mm) * m.pattern_per_mm, place.seed).slope,
                      0);
    // A slope has the more surface, by the length of its normal, so that seen and lit from the front it is as
    // bright as a level place: the shape shows in light from aside and leaves the mean.
    if (!seed) look.scale *= std::pow(1 + glm::dot(look.slope, look.slope), 0.5f * m.levelled);
    return look;
}

std::vector<float> shares_of_looks(const Marks& m) {
    std::vector<float> shares(static_cast<std::size_t>(m.looks()));
    for (int i = 0; i < kPlaces; ++i)
        shares[static_cast<std::size_t>(look_at(m, {.at_mm = sample_place(i), .seed = 1}).step)] +=
            1.f / kPlaces;
    return shares;
}

}  // namespace rakelight
