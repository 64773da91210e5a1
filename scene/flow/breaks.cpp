#include "scene/flow/breaks.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace rakelight {

namespace {

constexpr double kSlit_mm = 0.008;

// Ends that just touch count as met, so that no way slips through the joint of two parts of a line.
bool meet(const glm::dvec2& p, const glm::dvec2& q, const glm::dvec2& a, const glm::dvec2& b) {
    if (std::max(p.x, q.x) < std::min(a.x, b.x) || std::max(a.x, b.x) < std::min(p.x, q.x) ||
        std::max(p.y, q.y) < std::min(a.y, b.y) || std::max(a.y, b.y) < std::min(p.y, q.y))
        return false;
    const glm::dvec2 way = q - p, side = b - a;
    return cross(way, a - p) * cross(way, b - p) <= 0 && cross(side, p - a) * cross(side, q - a) <= 0;
}

std::size_t sides_of(const Row& line) {
    return line.line_mm.size() < 2 ? 0 : line.line_mm.size() - (line.closed ? 0 : 1);
}

}  // namespace

bool parted(const glm::dvec2& p, const glm::dvec2& q, std::span<const Row> breaks) {
    for (const auto& line : breaks)
        for (std::size_t i = 0; i < sides_of(line); ++i)
            if (meet(p, q, line.line_mm[i], line.line_mm[(i + 1) % line.line_mm.size()])) return true;
    return false;
}

std::vector<std::uint8_t> cut_links(std::span<const Row> breaks, const Lattice& lattice) {
    if (breaks.empty()) return {};
    constexpr std::array<glm::ivec2, 4> kLinks{{{1, 0}, {0, 1}, {1, 1}, {-1, 1}}};
    std::vector<std::uint8_t> cut(lattice.count(), 0);
    for (const auto& line : breaks) {
        const auto points = resampled(line, lattice.step_mm);  // short sides touch few nodes
        for (std::size_t i = 1; i < points.size(); ++i) {
            const glm::dvec2 &a = points[i - 1], &b = points[i];
            const glm::ivec2 low(glm::floor((glm::min(a, b) - lattice.low_mm) / lattice.step_mm));
            const glm::ivec2 high(glm::ceil((glm::max(a, b) - lattice.low_mm) / lattice.step_mm));
            for (int y = std::max(low.y - 1, 0); y <= std::min(high.y, lattice.rows - 1); ++y)
                for (int x = std::max(low.x - 1, 0); x <= std::min(high.x + 1, lattice.columns - 1); ++x)
                    for (std::size_t k = 0; k < kLinks.size(); ++k) {
                        const glm::ivec2 to = glm::ivec2(x, y) + kLinks[k];
                        if (meet(lattice.at(x, y), lattice.at(to.x, to.y), a, b))
                            cut[lattice.index(x, y)] |= static_cast<std::uint8_t>(1u << k);
                    }
        }
    }
    return cut;
}

Region slit(const Region& region, std::span<const Row> breaks) {
    Region open = region;
    for (const auto& line : breaks) {
        Region blade;
        for (std::size_t i = 0; i < sides_of(line); ++i) {
            const glm::dvec2 &a = line.line_mm[i], &b = line.line_mm[(i + 1) % line.line_mm.size()];
            if (a == b) continue;
            const glm::dvec2 u = kSlit_mm / 2 * glm::normalize(b - a), v(-u.y, u.x);
            blade = unite(blade, {{{a - u - v, b + u - v, b + u + v, a - u + v}}});
        }
        open = subtract(open, blade);
    }
    return open;
}

}  // namespace rakelight
