#include "scene/forms/stone_body.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <mutex>
#include <numbers>
#include <unordered_map>

#include "materials/maths/hash.h"
#include "materials/maths/noise.h"
#include "scene/forms/forms.h"
#include "scene/forms/piece_form.h"
#include "scene/forms/relief.h"
#include "scene/geometry/region.h"
#include "scene/geometry/ring_mesh.h"

namespace rakelight {

namespace {

Mesh icosahedron() {
    const float g = std::numbers::phi_v<float>;
    Mesh m;
    m.positions_mm = {{-1, g, 0},  {1, g, 0},  {-1, -g, 0}, {1, -g, 0}, {0, -1, g},  {0, 1, g},
                      {0, -1, -g}, {0, 1, -g}, {g, 0, -1},  {g, 0, 1},  {-g, 0, -1}, {-g, 0, 1}};
    m.triangles = {{0, 11, 5},  {0, 5, 1},  {0, 1, 7},  {0, 7, 10}, {0, 10, 11}, {1, 5, 9}, {5, 11, 4},
                   {11, 10, 2}, {10, 7, 6}, {7, 1, 8},  {3, 9, 4},  {3, 4, 2},   {3, 2, 6}, {3, 6, 8},
                   {3, 8, 9},   {4, 9, 5},  {2, 4, 11}, {6, 2, 10}, {8, 6, 7},   {9, 8, 1}};
    for (auto& p : m.positions_mm) p = glm::normalize(p);
    return m;
}

// Every triangle split in four. The points of the coarser mesh stay the first.
Mesh split(Mesh m) {
    std::unordered_map<std::uint64_t, std::uint32_t> middle;
    middle.reserve(3 * m.triangles.size() / 2);
    const auto between = [&](std::uint32_t a, std::uint32_t b) {
        const auto [it, fresh] = middle.try_emplace(std::uint64_t{std::min(a, b)} << 32 | std::max(a, b),
                                                    static_cast<std::uint32_t>(m.positions_mm.size()));
        if (fresh) m.positions_mm.push_back(glm::normalize(m.positions_mm[a] + m.positions_mm[b]));
        return it->second;
    };
    std::vector<glm::uvec3> finer;
    finer.reserve(4 * m.triangles.size());
    for (const auto& t : m.triangles) {
        const std::uint32_t a = between(t.x, t.y), b = between(t.y, t.z), c = between(t.z, t.x);
        finer.insert(finer.end(), {{t.x, a, c}, {t.y, b, a}, {t.z, c, b}, {a, b, c}});
    }
    m.triangles = std::move(finer);
    return m;
}

constexpr int kFinest = 6;
constexpr int kMeasured = 5;  // whose points tell how large a stone is

// An icosahedron whose triangles are split in four `level` times, made once.
const Mesh& sphere_of_directions(int level) {
    static std::array<std::once_flag, kFinest + 1> flags;
    static std::array<Mesh, kFinest + 1> spheres;
    const auto l = static_cast<std::size_t>(level);
    std::call_once(flags.at(l),
                   [&] { spheres[l] = level == 0 ? icosahedron() : split(sphere_of_directions(level - 1)); });
    return spheres[l];
}

glm::vec3 direction(Rng& rng) {
    const double z = rng.within(-1, 1);
    const double turn = rng.within(0, 2 * std::numbers::pi);
    const double r = std::sqrt(1 - z * z);
    return {static_cast<float>(r * std::cos(turn)), static_cast<float>(r * std::sin(turn)),
            static_cast<float>(z)};
}

// Reach of a broken chunk before its fine detail, in units of its half size.
class Chunk {
  public:
    Chunk(FaceKind kind, std::uint64_t seed)
        : conchoidal_(kind == FaceKind::lumpy || kind == FaceKind::fused) {
        Rng rng(seed);
        sharpness_ = kind == FaceKind::pitted ? 9.0f : kind == FaceKind::worn ? 7.0f : 26.0f;
        for (int i = 0; i < (conchoidal_ ? 9 : 16); ++i)
            planes_.emplace_back(direction(rng), rng.within(0.68, 1.0));
        // A closed body whatever chance brings.
        for (int axis = 0; axis < 3; ++axis)
            for (const float side : {-1.0f, 1.0f}) {
                glm::vec3 n(0);
                n[axis] = side;
                planes_.emplace_back(n, rng.within(0.9, 1.05));
            }
        if (conchoidal_)
            for (int i = 0; i < 9; ++i) {
                const auto radius = static_cast<float>(rng.within(0.7, 1.6));
                scoops_.emplace_back(direction(rng) * (radius + static_cast<float>(rng.within(0.62, 0.86))),
                                     radius);
            }
    }
    float reach(const glm::vec3& dir) const {
        float sum = 0;
        for (const auto& plane : planes_) {
            const float facing = glm::dot(glm::vec3(plane), dir) / plane.w;
            if (facing > 0.02f) sum += std::pow(facing, sharpness_);
        }
        float reach = std::pow(sum, -1 / sharpness_);
        for (const auto& scoop : scoops_) {
            const glm::vec3 c(scoop);
            const float along = glm::dot(c, dir);
            const float inside = along * along - glm::dot(c, c) + scoop.w * scoop.w;
            if (along <= 0 || inside <= 0) continue;
            // Waves run out from where the blow fell, as on broken bottle glass.
            const float hit = along - std::sqrt(inside);
            const float from_blow = glm::distance(hit * dir, c - scoop.w * glm::normalize(c) * 0.9f);
            reach = std::min(reach, hit + 0.008f * std::sin(26 * from_blow) * std::exp(-2 * from_blow));
        }
        return reach;
    }

  private:
    bool conchoidal_;
    float sharpness_ = 26;
    std::vector<glm::vec4> planes_;  // unit normal, distance
    std::vector<glm::vec4> scoops_;  // centre, radius
};

float pit(const glm::vec3& p, float wave_mm, float depth_mm, std::uint32_t seed) {
    const CellSample c = cell_noise(p / wave_mm, seed);
    const float own = 0.32f + 0.22f * static_cast<float>(c.id >> 9 & 255u) / 255.0f;
    const float u = c.nearest / own;
    return u < 1 ? -depth_mm * std::sqrt(1 - u * u) : 0.0f;
}

// What makes one lump differ from the next: grows with the stone.
float lumps_mm(FaceKind kind, bool pebble, const glm::vec3& p, float size_mm, std::uint32_t seed) {
    const auto lumps = [&](float wave, int octaves) {
        return size_mm * layered_noise(p * (2 / (wave * size_mm)) + 17.3f, octaves, seed + 1).value;
    };
    if (kind == FaceKind::pitted) return 0.05f * lumps(0.5f, 3);
    if (pebble || kind == FaceKind::worn) return 0.035f * lumps(0.8f, 2);
    if (kind == FaceKind::lumpy || kind == FaceKind::fused) return 0.02f * lumps(0.4f, 2);
    return 0.035f * lumps(0.45f, 4);
}

}  // namespace

float stone_relief_mm(const Material& material, bool pebble, const glm::vec3& p, std::uint32_t seed) {
    const FaceKind kind = face_kind(material);
    const auto grain = [&](float wave_mm, int octaves, std::uint32_t layer) {
        return layered_noise(p * (2 / wave_mm) + 17.3f, octaves, seed + layer).value;
    };
    if (kind == FaceKind::pitted)
        return pit(p, 5.0f, 1.5f, seed + 11) + pit(p, 2.4f, 0.8f, seed + 12) + pit(p, 1.5f, 0.45f, seed + 13);
    if (pebble || kind == FaceKind::worn) return 0.02f * grain(1.2f, 2, 2);
    if (kind == FaceKind::lumpy || kind == FaceKind::fused) return 0.08f * grain(3, 2, 2);
    float d = 0.12f * grain(2.2f, 3, 2);
    if (kind == FaceKind::riven) {  // bedding shows as steps round the stone
        const float bed = p.z / 1.6f + grain(9, 1, 3);
        const float u = bed - std::floor(bed);
        d += 0.35f * (u < 0.7f ? u / 0.7f : (1 - u) / 0.3f);
    }
    return d;
}

// Everything of a stone but its triangles: how far it reaches in each direction from its heart.
struct StoneShape::Form {
    explicit Form(const SetStone& set, const Material& stuff)
        : kind(face_kind(stuff)),
          pebble(set.stone.form == "pebble"),
          seed(hash_combine(set.stone.seed, hash_text(stuff.name))),
          chunk(kind, seed),
          material(stuff),
          half(glm::vec3(set.stone.size_mm) * 0.5f) {
        Rng rng(hash_combine(seed, 5));
        skew = {rng.within(-0.12, 0.12), rng.within(-0.12, 0.12), rng.within(-0.08, 0.08)};
    }
    // Without relief and before it is brought to size.
    glm::vec3 rough(const glm::vec3& dir) const {
        float reach = 1;
        if (pebble) {
            const glm::vec3 a = glm::abs(dir);
            reach = std::pow(
                std::pow(a.x, kPebblePower) + std::pow(a.y, kPebblePower) + std::pow(a.z, kPebblePower),
                -1 / kPebblePower);
            reach *= 1 + glm::dot(skew, dir);  // an egg rather than a lozenge
        } else {
            reach = chunk.reach(dir);
        }
        const glm::vec3 p = reach * dir * half;
        const float size = 2 * std::cbrt(half.x * half.y * half.z);
        return p + glm::normalize(p) * lumps_mm(kind, pebble, p, size, static_cast<std::uint32_t>(seed));
    }
    glm::vec3 surface(const glm::vec3& dir) const { return relieved(rough(dir) * to_size); }
    glm::vec3 relieved(const glm::vec3& p) const {
        return p + glm::normalize(p) * stone_relief_mm(material, pebble, p, static_cast<std::uint32_t>(seed));
    }

    FaceKind kind;
    bool pebble;
    std::uint64_t seed;
    Chunk chunk;
    const Material& material;
    glm::vec3 half;
    glm::vec3 skew{0};
    glm::vec3 to_size{1};           // brings the rough body to the size asked for
    glm::vec3 trim{1};              // and this what relief then adds or takes, a per cent or so
    glm::vec3 middle{0};            // of the relieved body's box
    std::vector<glm::vec3> points;  // `surface` of the directions of level kMeasured
};

StoneShape::StoneShape(const SetStone& set, const Material& material)
    : form_(std::make_shared<Form>(set, material)), at_(glm::vec2(set.stone.at_mm), 0) {
    const glm::vec3 size(set.stone.size_mm);
    std::vector<glm::vec3>& points = form_->points;
    const auto box = [&] {
        std::pair b{glm::vec3(1e30f), glm::vec3(-1e30f)};
        for (const auto& p : points) b = {glm::min(b.first, p), glm::max(b.second, p)};
        return b;
    };
    for (const auto& dir : sphere_of_directions(kMeasured).positions_mm) points.push_back(form_->rough(dir));
    const auto rough = box();
    form_->to_size = size / (rough.second - rough.first);
    for (auto& p : points) p = form_->relieved(p * form_->to_size);
    const auto full = box();
    form_->trim = size / (full.second - full.first);
    form_->middle = (full.first + full.second) / 2.0f;
    at_.z = static_cast<float>(set.top_mm) - size.z / 2;
    const auto turn = static_cast<float>(glm::radians(set.stone.turn_deg));
    turn_ = {std::cos(turn), std::sin(turn)};
}

glm::vec3 StoneShape::surface(const glm::vec3& dir) const {
    return set(form_->surface(dir));
}

glm::vec3 StoneShape::set(const glm::vec3& relieved) const {
    const glm::vec3 q = (relieved - form_->middle) * form_->trim;
    glm::vec3 p = glm::vec3(turn_.x * q.x - turn_.y * q.y, turn_.y * q.x + turn_.x * q.y, q.z) + at_;
    p.z = std::max(p.z, 0.0f);  // ground flat where it would not fit before the board
    return p;
}

double StoneShape::depth_mm(const glm::dvec3& point_mm) const {
    const glm::vec3 p = glm::vec3(point_mm) - at_;
    const glm::vec3 q =
        glm::vec3(turn_.x * p.x + turn_.y * p.y, turn_.x * p.y - turn_.y * p.x, p.z) / form_->trim +
        form_->middle;
    const float away = glm::length(q);
    if (away < 1e-3f) return 1e3;
    const glm::vec3 dir = glm::normalize(q / (form_->half * form_->to_size));
    return static_cast<double>(glm::length(form_->surface(dir)) - away);
}

Mesh StoneShape::mesh(int level) const {
    Mesh m = sphere_of_directions(level);
    const std::vector<glm::vec3>& known = form_->points;
    for (std::size_t i = 0; i < m.positions_mm.size(); ++i)
        m.positions_mm[i] = i < known.size() ? set(known[i]) : surface(m.positions_mm[i]);
    smooth_normals(m);
    return m;
}

Mesh stone_body(const SetStone& set, const Material& material, int level) {
    return StoneShape(set, material).mesh(level);
}

std::vector<glm::dvec2> StoneShape::footprint(double level_mm) const {
    std::vector<glm::dvec2> above;
    for (const auto& relieved : form_->points)
        if (const glm::vec3 p = set(relieved); static_cast<double>(p.z) > level_mm)
            above.emplace_back(glm::dvec2(p));
    return simplified(convex_hull(std::move(above)), 0.05);
}

std::vector<glm::dvec2> stone_footprint(const SetStone& stone, const Material& material, double level_mm) {
    return StoneShape(stone, material).footprint(level_mm);
}

Mesh form_stone(const SetStone& stone, const Material& material, double finest_mm) {
    const double largest = std::max({stone.stone.size_mm.x, stone.stone.size_mm.y, stone.stone.size_mm.z});
    constexpr double kSideOfIcosahedron = 0.53;  // in diameters of the sphere round it
    int level = largest > 55 ? 6 : 5;
    while (level > 1 && kSideOfIcosahedron * largest / (1 << level) < finest_mm / 2) --level;
    return stone_body(stone, material, level);
}

}  // namespace rakelight
