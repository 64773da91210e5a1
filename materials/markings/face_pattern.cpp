#include "materials/markings/face_pattern.h"

#include <array>
#include <cmath>

#include "materials/maths/noise.h"

namespace rakelight {

namespace {

// Waves, drawn out by `stretch` along each axis.
PatternSample waves(const glm::vec2& at, const glm::vec2& stretch, std::uint32_t seed) {
    const NoiseSample n = gradient_noise(glm::vec3(at * stretch, 0.5f), seed);
    return {n.value, glm::vec2(n.gradient) * stretch};
}

PatternSample sum(PatternSample a, float share, const PatternSample& b) {
    a.height += share * b.height;
    a.slope += share * b.slope;
    return a;
}

// A round hollow for each blow, and a soft ridge where two meet: the least of paraboloids round the blows,
// its creases smoothed as the logarithm of a sum of exponentials.
PatternSample hollows(const glm::vec2& at, std::uint32_t seed) {
    constexpr float kApart = 2, kSharp = 10;
    const glm::vec2 p = at / kApart, low = glm::floor(p);
    float sum = 0;
    glm::vec2 slope(0);
    for (int y = -2; y <= 2; ++y)
        for (int x = -2; x <= 2; ++x) {
            const glm::vec2 cell = low + glm::vec2(x, y);
            const std::uint32_t h =
                lattice_hash(static_cast<std::int32_t>(cell.x), static_cast<std::int32_t>(cell.y), 3, seed);
            const glm::vec2 spot(static_cast<float>(h & 1023u) / 1023,
                                 static_cast<float>(h >> 10 & 1023u) / 1023);
            const glm::vec2 to = p - cell - 0.15f - 0.7f * spot;
            const float weight = std::exp(-kSharp * glm::dot(to, to));
            sum += weight;
            slope += 2 * weight * to;
        }
    return {-std::log(sum) / kSharp, slope / (sum * kApart)};
}

// Round pits of many sizes, few and far between, on a face that is level but for a slow wave.
PatternSample pits(const glm::vec2& at, std::uint32_t seed) {
    constexpr float kApart = 9, kShare = 0.2f;
    const glm::vec2 p = at / kApart, low = glm::floor(p);
    PatternSample sample = waves(at, {0.03f, 0.03f}, seed);
    sample.height *= 0.5f;
    sample.slope *= 0.5f;
    for (int y = -1; y <= 1; ++y)
        for (int x = -1; x <= 1; ++x) {
            const glm::vec2 cell = low + glm::vec2(x, y);
            const auto cx = static_cast<std::int32_t>(cell.x), cy = static_cast<std::int32_t>(cell.y);
            const std::uint32_t h = lattice_hash(cx, cy, 4, seed), g = lattice_hash(cx, cy, 5, seed);
            const auto unit = [](std::uint32_t bits) { return static_cast<float>(bits & 1023u) / 1023; };
            if (unit(g) > kShare) continue;
            const float radius = 0.3f + 0.8f * unit(g >> 10) * unit(g >> 10) * unit(g >> 20);
            const glm::vec2 to = (p - cell - glm::vec2(unit(h), unit(h >> 10))) * kApart;
            const float off = glm::dot(to, to) / (radius * radius);
            if (off >= 1) continue;
            sample.height -= radius * (1 - off) * (1 - off);
            sample.slope += 4 * (1 - off) / radius * to;
        }
    return sample;
}

}  // namespace

PatternSample pattern_at(Pattern pattern, const glm::vec2& at, std::uint32_t seed) {
    switch (pattern) {
        case Pattern::none:
            break;
        case Pattern::rolled:
            return sum(waves(at, {0.10f, 1}, seed), 0.35f, waves(at, {0.5f, 2.3f}, seed + 1));
        case Pattern::hammered:
            return hollows(at, seed);
        case Pattern::rippled:
            return sum(waves(at, {1, 0.42f}, seed), 0.3f, waves(at, {1.9f, 1}, seed + 1));
        case Pattern::granite:
            return sum(sum(waves(at, {1, 1}, seed), 0.5f, waves(at, {2.1f, 2.1f}, seed + 1)), 0.25f,
                       waves(at, {4.3f, 4.3f}, seed + 2));
        case Pattern::stippled:
            return sum(sum(waves(at, {1, 0.75f}, seed), 0.4f, waves(at, {1.9f, 1.9f}, seed + 1)), 8,
                       waves(at, {0.012f, 0.012f}, seed + 2));
        case Pattern::blowholes:
            return pits(at, seed);
    }
    return {};
}

float pattern_slope(Pattern pattern) {
    if (pattern == Pattern::none) return 1;
    static const std::array<float, 7> kSlopes = [] {
        std::array<float, 7> slopes{};
        for (std::size_t k = 1; k < slopes.size(); ++k) {
            double squares = 0;
            // Holes are few: more places, farther apart.
            const bool few = static_cast<Pattern>(k) == Pattern::blowholes;
            const int places = few ? 1 << 18 : 1 << 12;
            const double wide = few ? 3000 : 200;
            for (int i = 0; i < places; ++i) {
                // Spread evenly by Kronecker's sequence of the plastic number (Roberts 2018).
                const double n = i;
                const glm::vec2 at(static_cast<float>(wide * std::fmod(n * 0.7548776662466927, 1.0)),
                                   static_cast<float>(wide * std::fmod(n * 0.5698402909980532, 1.0)));
                const glm::vec2 s = pattern_at(static_cast<Pattern>(k), at, 5).slope;
                squares += static_cast<double>(glm::dot(s, s));
            }
            slopes[k] = static_cast<float>(std::sqrt(squares / places / 2));
        }
        return slopes;
    }();
    return kSlopes[static_cast<std::size_t>(pattern)];
}

}  // namespace rakelight
