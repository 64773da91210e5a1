#include "output/glare/measures/adjacent_fields.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "scene/geometry/region.h"

namespace rakelight {

std::vector<FieldBorder> field_borders(const std::vector<Field>& fields, const Laying& laying) {
    double widest = 0, largest = 1;
    for (const Field& field : fields) widest = std::max(widest, field.joint_mm);
    std::vector<Box> boxes;
    for (const Piece& piece : laying.pieces) {
        boxes.push_back(bounds(piece.outline_mm));
        largest = std::max({largest, boxes.back().size().x, boxes.back().size().y});
    }
    const double reach = 2 * widest;
    const auto cell = [&](double mm) { return static_cast<int>(std::floor(mm / (largest + reach))); };
    std::map<std::pair<int, int>, std::vector<std::size_t>> cells;
    std::map<std::pair<std::uint32_t, std::uint32_t>, int> borders;
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        const int x = cell(boxes[i].low.x), y = cell(boxes[i].low.y);
        for (int v = y - 1; v <= y + 1; ++v)
            for (int u = x - 1; u <= x + 1; ++u) {
                const auto found = cells.find({u, v});
                if (found == cells.end()) continue;
                for (const std::size_t k : found->second) {
                    const auto [one, other] = std::minmax(laying.pieces[i].field, laying.pieces[k].field);
                    const glm::dvec2 gap =
                        glm::max(boxes[i].low - boxes[k].high, boxes[k].low - boxes[i].high);
                    if (one != other && std::max(gap.x, gap.y) < reach) ++borders[{one, other}];
                }
            }
        cells[{x, y}].push_back(i);
    }
    std::vector<FieldBorder> list;
    for (const auto& [pair, count] : borders)
        if (count > 1) list.push_back({pair.first, pair.second, count});
    std::stable_sort(list.begin(), list.end(),
                     [](const FieldBorder& a, const FieldBorder& b) { return a.pairs > b.pairs; });
    return list;
}

}  // namespace rakelight
