// A uniform grid over the plane: things by the square cell that their point lies in, so that those near a
// place are found without looking at all. Cells are made as they are needed; the plane has no edge.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <glm/glm.hpp>
#include <unordered_map>
#include <vector>

namespace rakelight {

/// Visits go cell by cell, upward in y and in each row of cells upward in x; in a cell in the order of
/// adding. That order depends on `origin_mm`. Many may look at once while nobody adds.
template <class Thing>
class PointGrid {
  public:
    /// `cell_mm` > 0: side of a cell; a corner of one lies at `origin_mm`.
    explicit PointGrid(double cell_mm, const glm::dvec2& origin_mm = glm::dvec2(0))
        : cell_mm_(cell_mm), origin_mm_(origin_mm) {}

    /// Keeps a copy of `thing` under its point.
    void add(const glm::dvec2& p, const Thing& thing) { cells_[key(cell(p))].push_back(thing); }

    /// Calls `visit(thing)` for all in the cell of `p` and within `reach` cells of it, until one says false.
    /// \return whether none did
    template <class Visit>
    bool all_near(const glm::dvec2& p, int reach, Visit&& visit) const {
        const glm::ivec2 c = cell(p);
        for (int y = c.y - reach; y <= c.y + reach; ++y)
            for (int x = c.x - reach; x <= c.x + reach; ++x)
                if (const auto* things = in_cell({x, y}))
                    for (const Thing& thing : *things)
                        if (!visit(thing)) return false;
        return true;
    }

    /// Calls `visit(thing)` for all in the cell of `p` and within `reach` cells of it.
    template <class Visit>
    void each_near(const glm::dvec2& p, int reach, Visit&& visit) const {
        all_near(p, reach, [&](const Thing& thing) {
            visit(thing);
            return true;
        });
    }

    /// The same ring by ring about the cell of `p`, the nearest first, as long as `goes_on(mm)` holds of the
    /// least distance of the ring to come.
    template <class Visit, class GoesOn>
    void outwards(const glm::dvec2& p, int reach, GoesOn&& goes_on, Visit&& visit) const {
        const glm::ivec2 c = cell(p);
        for (int ring = 0; ring <= reach && (ring < 2 || goes_on((ring - 1) * cell_mm_)); ++ring)
            for (int y = c.y - ring; y <= c.y + ring; ++y) {
                const int step = std::abs(y - c.y) == ring ? 1 : 2 * ring;
                for (int x = c.x - ring; x <= c.x + ring; x += step)
                    if (const auto* things = in_cell({x, y}))
                        for (const Thing& thing : *things) visit(thing);
            }
    }

  private:
    glm::ivec2 cell(const glm::dvec2& p) const { return glm::ivec2(glm::floor((p - origin_mm_) / cell_mm_)); }
    static std::uint64_t key(const glm::ivec2& c) {
        return (static_cast<std::uint64_t>(static_cast<std::uint32_t>(c.x)) << 32) |
               static_cast<std::uint32_t>(c.y);
    }
    const std::vector<Thing>* in_cell(const glm::ivec2& c) const {
        const auto it = cells_.find(key(c));
        return it == cells_.end() ? nullptr : &it->second;
    }

    double cell_mm_;
    glm::dvec2 origin_mm_;
    std::unordered_map<std::uint64_t, std::vector<Thing>> cells_;
};

}  // namespace rakelight
