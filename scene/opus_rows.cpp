// Laying of rows, straight or flowing, and of the halo rows that run along the edge of a field.
#include <algorithm>
#include <cmath>
#include <unordered_map>

#include "scene/edge_index.h"
#include "scene/opus.h"

namespace rakelight {

namespace {

// Points of rows already accepted, to keep later rows off them.
class Trodden {
  public:
    explicit Trodden(double reach_mm) : reach_mm_(reach_mm) {}
    void add(const glm::dvec2& p, std::size_t row) { buckets_[key(cell(p), {0, 0})].push_back({p, row}); }
    bool near(const glm::dvec2& p, std::size_t row) const {
        for (int y = -1; y <= 1; ++y)
            for (int x = -1; x <= 1; ++x) {
                const auto it = buckets_.find(key(cell(p), {x, y}));
                if (it == buckets_.end()) continue;
                for (const auto& [q, owner] : it->second)
                    if (owner != row && glm::distance(p, q) < reach_mm_) return true;
            }
        return false;
    }

  private:
    glm::ivec2 cell(const glm::dvec2& p) const { return glm::ivec2(glm::floor(p / reach_mm_)); }
    static std::uint64_t key(const glm::ivec2& c, const glm::ivec2& by) {
        return (static_cast<std::uint64_t>(static_cast<std::uint32_t>(c.x + by.x)) << 32) |
               static_cast<std::uint32_t>(c.y + by.y);
    }
    double reach_mm_;
    std::unordered_map<std::uint64_t, std::vector<std::pair<glm::dvec2, std::size_t>>> buckets_;
};

double length_mm(const Row& row) {
    double sum = 0;
    for (std::size_t i = 1; i < row.line_mm.size(); ++i)
        sum += glm::distance(row.line_mm[i], row.line_mm[i - 1]);
    return sum;
}

// The stretches of a row whose points pass `good`.
template <class Good>
std::vector<Row> stretches(const Row& row, double step_mm, Good&& good) {
    auto line = resampled(row, step_mm);
    std::vector<char> ok;
    for (const auto& p : line) ok.push_back(good(p));
    if (std::all_of(ok.begin(), ok.end(), [](char c) { return c != 0; })) {
        if (row.closed) line.pop_back();
        return {{line, row.closed}};
    }
    if (row.closed) {  // start where the row is broken
        const auto gap = std::find(ok.begin(), ok.end(), 0) - ok.begin();
        line.pop_back();
        ok.pop_back();
        const auto turn = gap % static_cast<std::ptrdiff_t>(line.size());
        std::rotate(line.begin(), line.begin() + turn, line.end());
        std::rotate(ok.begin(), ok.begin() + turn, ok.end());
    }
    std::vector<Row> out;
    Row now;
    for (std::size_t i = 0; i <= line.size(); ++i) {
        if (i < line.size() && ok[i]) {
            now.line_mm.push_back(line[i]);
        } else if (!now.line_mm.empty()) {
            if (now.line_mm.size() > 1) out.push_back(now);
            now.line_mm.clear();
        }
    }
    return out;
}

}  // namespace

void lay_rows(const std::vector<Row>& rows, const Region& ground, const FieldHand& hand, HeadJoints& heads,
              std::uint64_t seed, std::vector<Piece>& pieces) {
    const Pitch& pitch = hand.pitch;
    const double step = 0.1 * std::min(pitch.along_mm, pitch.across_mm);
    const EdgeIndex edge(ground, 0.6 * pitch.across_mm);
    // Longer rows have the right of way where two come too near.
    std::vector<std::size_t> order(rows.size());
    for (std::size_t i = 0; i < rows.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return length_mm(rows[a]) > length_mm(rows[b]); });
    Trodden trodden(0.62 * pitch.across_mm);
    std::vector<std::vector<Row>> clear(rows.size());
    for (const auto r : order) {
        for (auto& part : stretches(rows[r], step, [&](const glm::dvec2& p) {
                 return edge.inside_mm(p) > 0 && !trodden.near(p, r);
             })) {
            if (length_mm(part) < 0.3 * pitch.along_mm) continue;
            for (std::size_t i = 0; i < part.line_mm.size(); i += 2) trodden.add(part.line_mm[i], r);
            clear[r].push_back(std::move(part));
        }
    }
    std::vector<Seed> seeds;
    Chance chance(seed);
    for (const auto& parts : clear)
        for (const auto& part : parts)
            for (const auto& straight : broken_at_corners(part, pitch.across_mm, 50))
                for (auto& piece : cut_row(straight, pitch, hand.hand, heads, chance)) {
                    // Where a row runs out along the edge its tip is left to the neighbours.
                    std::erase_if(piece.points_mm, [&](const glm::dvec2& p) {
                        return edge.inside_mm(p) < 0.13 * pitch.across_mm;
                    });
                    if (!piece.points_mm.empty()) seeds.push_back(std::move(piece));
                }
    const Cells cells = settle(seeds, ground, 2, 0.5, 0.3 * hand.rules.nominal_mm2);
    cut_cells(cells.of_seed, seeds, hand.rules, hash_combine(seed, 3), pieces);
}

Region lay_halo(const Region& ground, int rows, const FieldHand& hand, HeadJoints& heads, std::uint64_t seed,
                std::vector<Piece>& pieces) {
    Region left = ground;
    const double across = hand.pitch.across_mm;
    for (int k = 0; k < rows && !left.empty(); ++k) {
        const Region inner = grow(left, -across);
        const Region band = subtract(left, inner);
        Chance chance(hash_combine(seed, static_cast<std::uint64_t>(k)));
        std::vector<Seed> seeds;
        for (const auto& ring : grow(left, -across / 2).rings)
            for (const auto& part : broken_at_corners({ring, true}, across, 50))
                for (auto& piece : cut_row(part, hand.pitch, hand.hand, heads, chance))
                    seeds.push_back(std::move(piece));
        const Cells cells = settle(seeds, band, 1, 0.0, 0.3 * hand.rules.nominal_mm2);
        cut_cells(cells.of_seed, seeds, hand.rules, hash_combine(seed, 100 + static_cast<std::uint64_t>(k)),
                  pieces);
        left = inner;
    }
    return left;
}

}  // namespace rakelight
