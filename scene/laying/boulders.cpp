#include "scene/laying/boulders.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "materials/maths/hash.h"
#include "scene/geometry/edge_index.h"
#include "scene/model/layout.h"
#include "scene/text/diagnostics.h"

namespace rakelight {

namespace {

constexpr int kCandidates = 400;
constexpr double kLeastBoulder_mm = 2;  // as the key takes it

// \return fewer than asked for where there is no room.
std::vector<PlacedStone> strewn(const Field& field, const Region& ground, std::uint64_t seed) {
    const Boulders& wish = field.boulders;
    const double row = field.piece_width_mm + field.joint_mm;
    // Room for halo rows of the stone's own and of the field's edge, and one row between them.
    const double clear = (2 * field.halo_rows + 1) * row;
    const Box box = bounds(ground);
    // A turned chunk reaches to its half diagonal.
    const auto half = [](const PlacedStone& s) { return 0.5 * std::hypot(s.size_mm.x, s.size_mm.y); };
    const EdgeIndex edge(ground, wish.size_mm.y + clear + 2 * row);
    std::vector<PlacedStone> stones;
    for (int k = 0; k < wish.count; ++k) {
        Rng rng(hash_combine(seed, static_cast<std::uint64_t>(k)));
        const double late = wish.count > 1 ? static_cast<double>(k) / (wish.count - 1) : 0.0;
        PlacedStone stone;
        stone.material = wish.material;
        stone.form = wish.form;
        stone.place = field.place;
        const double length = wish.size_mm.y * std::pow(wish.size_mm.x / wish.size_mm.y, late);
        stone.size_mm = length * glm::dvec3(1, rng.within(0.68, 0.9), rng.within(0.5, 0.7));
        stone.proud_mm = wish.proud * stone.size_mm.z;
        stone.turn_deg = rng.within(0, 180);
        stone.seed = hash_combine(hash_combine(seed, static_cast<std::uint64_t>(k)), 1);
        double most = 0;
        for (int c = 0; c < kCandidates; ++c) {
            const glm::dvec2 p(rng.within(box.low.x, box.high.x), rng.within(box.low.y, box.high.y));
            const double off_edge = edge.inside_mm(p) - half(stone) - clear;
            if (off_edge < 0) continue;
            // How far the stones' rims lie apart; the field's edge counts half, so that none hugs it.
            double room = 2 * off_edge + 2 * row;
            for (const auto& other : stones)
                room =
                    std::min(room, glm::distance(p, other.at_mm) - half(stone) - half(other) - clear - row);
            // The first stone may lie anywhere: the heart of a field is not always its best place.
            if (stones.empty()) room = std::min(room, 2 * row);
            if (room > most) {
                most = room;
                stone.at_mm = p;
            }
        }
        if (most <= 0) break;
        stones.push_back(std::move(stone));
    }
    return stones;
}

// The largest size in whole millimetres of which the number asked for finds room; 0 = of none.
double size_that_fits(Field field, const Region& ground, std::uint64_t seed) {
    const glm::dvec2 asked = field.boulders.size_mm;
    double fits = 0, too_large = std::floor(asked.y);
    while (too_large - fits > 1) {
        const double size = std::floor((fits + too_large) / 2);
        field.boulders.size_mm = asked * (size / asked.y);
        const bool all = strewn(field, ground, seed).size() == static_cast<std::size_t>(field.boulders.count);
        (all ? fits : too_large) = size;
    }
    return fits;
}

std::string hint_of_size(const Field& field, const Region& ground, std::uint64_t seed) {
    const double size = size_that_fits(field, ground, seed);
    if (size < kLeastBoulder_mm) return "";
    const glm::dvec2 asked = field.boulders.size_mm;
    if (asked.x == asked.y) return fmt::format("; {} of {:g} mm would fit", field.boulders.count, size);
    return fmt::format("; {} of {:g} to {:g} mm would fit", field.boulders.count,
                       std::floor(size * asked.x / asked.y), size);
}

}  // namespace

std::vector<PlacedStone> strewn_boulders(const Layout& layout, const std::vector<Region>& regions) {
    std::vector<PlacedStone> all;
    std::vector<Problem> problems;
    for (std::size_t f = 0; f < layout.fields.size(); ++f) {
        const Field& field = layout.fields[f];
        if (field.boulders.count == 0) continue;
        const std::uint64_t seed = hash_combine(hash_combine(layout.panel.seed, hash_text(field.name)), 31);
        const auto stones = strewn(field, regions[f], seed);
        if (stones.size() < static_cast<std::size_t>(field.boulders.count))
            problems.push_back(
                {field.place, fmt::format("fields[{}].boulders", f + 1),
                 fmt::format("found {} boulders of up to {:.6g} mm, expected at most {}: there "
                             "is no room in field '{}' for more with rows round them{}",
                             field.boulders.count, field.boulders.size_mm.y, stones.size(), field.name,
                             hint_of_size(field, regions[f], seed))});
        all.insert(all.end(), stones.begin(), stones.end());
    }
    if (!problems.empty()) throw LayoutError(std::move(problems));
    return all;
}

}  // namespace rakelight
