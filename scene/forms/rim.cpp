#include "scene/forms/rim.h"

#include <algorithm>
#include <cmath>

#include "materials/maths/hash.h"
#include "materials/maths/noise.h"

namespace rakelight {

namespace {

constexpr double kMostUndercut_mm = 0.5;

struct Side {
    float radius_mm = 0.3f;
    float undercut_mm = 0;
    float bow_mm = 0;
};

std::vector<Side> sides_of(const Piece& piece, const FormRule& rule) {
    Rng rng(hash_combine(piece.seed, 43));
    const auto from = [&](const Span& span) { return static_cast<float>(rng.within(span.low, span.high)); };
    const std::size_t n = piece.outline_mm.size();
    std::vector<Side> sides(n);
    const float all = from(rule.arris_mm);
    for (std::size_t i = 0; i < n; ++i) {
        sides[i].radius_mm = all;
        sides[i].undercut_mm = static_cast<float>(
            std::min(kMostUndercut_mm,
                     piece.thickness_mm *
                         std::tan(glm::radians(static_cast<double>(rule.undercut_deg) * rng.unit()))));
        const double length = glm::distance(piece.outline_mm[i], piece.outline_mm[(i + 1) % n]);
        sides[i].bow_mm =
            static_cast<float>(std::min(static_cast<double>(rule.bow_share) * length * rng.unit(), 0.5));
    }
    if (rule.polished_mm.high <= 0) return sides;
    const float kiln = from(rule.polished_mm);
    const bool all_round = rng.unit() < static_cast<double>(rule.polished_share);
    const auto first = static_cast<std::size_t>(rng.unit() * static_cast<double>(n));
    const std::size_t count = all_round ? n : rng.unit() < 0.5 ? 1 : 2;
    for (std::size_t i = 0; i < std::min(count, n); ++i) {
        Side& side = sides[(first + i) % n];
        side.radius_mm = kiln;
        side.undercut_mm = side.bow_mm = 0;
    }
    return sides;
}

RimPoint between(const RimPoint& a, const RimPoint& b) {
    return {0.5f * (a.at + b.at), glm::normalize(a.out + b.out), 0.5f * (a.radius_mm + b.radius_mm),
            0.5f * (a.undercut_mm + b.undercut_mm)};
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
        rim.insert(rim.begin() + static_cast<std::ptrdiff_t>(longest) + 1,
                   between(rim[longest], rim[(longest + 1) % rim.size()]));
    }
}

}  // namespace

std::vector<RimPoint> cut_rim(const Piece& piece, const FormRule& rule, const glm::dvec2& centre,
                              float step_mm) {
    const Ring& outline = piece.outline_mm;
    const auto sides = sides_of(piece, rule);
    std::vector<RimPoint> rim;
    const std::size_t n = outline.size();
    const auto corner = [&](std::size_t i) { return glm::vec2(outline[i % n] - centre); };
    const auto ease_of = [&](std::size_t i) {  // at the corner where side i begins
        const float round =
            std::max(0.4f, 0.8f * std::min(sides[i].radius_mm, sides[(i + n - 1) % n].radius_mm));
        return std::min({round, 0.3f * glm::distance(corner(i), corner(i + 1)),
                         0.3f * glm::distance(corner(i), corner(i + n - 1))});
    };
    for (std::size_t i = 0; i < n; ++i) {
        const std::size_t last_i = (i + n - 1) % n, next_i = (i + 1) % n;
        const glm::vec2 a = corner(i), b = corner(i + 1);
        const float length = glm::distance(a, b);
        const glm::vec2 along = (b - a) / length, out(along.y, -along.x);
        const glm::vec2 before = glm::normalize(a - corner(i + n - 1));
        const float ease = ease_of(i), ease_end = ease_of(next_i);
        // The corner: a parabola that touches both sides.
        const Side& side = sides[i];
        const glm::vec2 from = a - before * ease, to = a + along * ease;
        const bool inner = before.x * along.y < before.y * along.x;
        const auto corner_mean = [&](std::size_t j) {  // of the edge where side j begins
            return 0.5f * (sides[j].radius_mm + sides[(j + n - 1) % n].radius_mm);
        };
        const float undercut = 0.5f * (sides[last_i].undercut_mm + side.undercut_mm);
        if (inner)  // nothing may be rounded out of an inner corner
            rim.push_back(
                {a, glm::normalize(out + glm::vec2(before.y, -before.x)), corner_mean(i), undercut});
        for (const float t : {0.3f, 0.7f}) {
            if (inner) break;
            const glm::vec2 p = (1 - t) * (1 - t) * from + 2 * t * (1 - t) * a + t * t * to;
            const glm::vec2 direction = glm::normalize(glm::mix(before, along, t));
            rim.push_back({p, {direction.y, -direction.x}, corner_mean(i), undercut});
        }
        const int spans = std::max(1, static_cast<int>(std::lround((length - ease - ease_end) / step_mm)));
        for (int k = 0; k <= spans; ++k) {
            const float t = static_cast<float>(k) / static_cast<float>(spans);
            // Hollow between the corners, with the normal that goes with it.
            const float bow = side.bow_mm * 4 * t * (1 - t);
            const float turn = side.bow_mm * 4 * (1 - 2 * t) / length;
            // A rounded side runs out into a sharp one little by little.
            const float end = std::abs(2 * t - 1);
            const float radius =
                glm::mix(side.radius_mm, corner_mean(t < 0.5f ? i : next_i), end * end * (3 - 2 * end));
            RimPoint p{glm::mix(to, b - along * ease_end, t), glm::normalize(out + turn * along), radius,
                       side.undercut_mm};
            p.at *= 1 - bow / std::max(glm::dot(p.at, out), 4 * bow + 0.1f);
            rim.push_back(p);
        }
    }
    make_divisible(rim);
    // The arris is never quite straight; it only ever loses.
    if (rule.ragged_mm > 0)
        for (auto& p : rim) {
            const auto seed = static_cast<std::uint32_t>(piece.seed);
            const float loss =
                rule.ragged_mm * (0.5f + 0.5f * layered_noise(glm::vec3(p.at, 0) * 0.7f, 2, seed).value);
            p.at *= 1 - loss / std::max(glm::length(p.at), loss * 4);
        }
    return rim;
}

void refine_near(std::vector<RimPoint>& rim, std::span<const Chip> chips) {
    constexpr float kFine_mm = 0.5f;
    std::vector<RimPoint> fine;
    for (std::size_t i = 0; i < rim.size(); ++i) {
        const RimPoint &a = rim[i], &b = rim[(i + 1) % rim.size()];
        fine.push_back(a);
        const RimPoint middle = between(a, b);
        const float length = glm::distance(a.at, b.at);
        const bool near = std::any_of(chips.begin(), chips.end(), [&](const Chip& c) {
            return glm::distance(middle.at, c.at_mm) < c.radius_mm + length / 2;
        });
        const int parts = near ? static_cast<int>(std::ceil(length / kFine_mm)) : 1;
        for (int k = 1; k < parts; ++k) {
            const float t = static_cast<float>(k) / static_cast<float>(parts);
            fine.push_back({glm::mix(a.at, b.at, t), glm::normalize(glm::mix(a.out, b.out, t)),
                            glm::mix(a.radius_mm, b.radius_mm, t),
                            glm::mix(a.undercut_mm, b.undercut_mm, t)});
        }
    }
    rim = std::move(fine);
    make_divisible(rim);
}

}  // namespace rakelight
