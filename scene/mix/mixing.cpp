#include "scene/mix/mixing.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "materials/maths/hash.h"
#include "scene/geometry/point_grid.h"
#include "scene/geometry/region.h"

namespace rakelight {

namespace {

constexpr double kWhim = 0.35;  // how far chance may outweigh an even spread; 0 = as even as can be

// How many times as large as said the pieces are, in steps of half an octave: a neighbourhood is no finer a
// thing. Drawn shapes and pebbles have sizes of their own.
double times_nominal(const Field& field, std::span<const Piece> pieces) {
    double mm2 = 0;
    for (const Piece& piece : pieces) mm2 += area_mm2(piece.outline_mm);
    const double nominal = field.piece_length_mm * field.piece_width_mm * static_cast<double>(pieces.size());
    return mm2 > 0 ? std::exp2(std::round(std::log2(mm2 / nominal)) / 2) : 1;
}

}  // namespace

std::vector<std::size_t> shared_counts(std::span<const double> shares, std::size_t count) {
    std::vector<std::size_t> counts(shares.size(), 0);
    const double total = std::accumulate(shares.begin(), shares.end(), 0.0);
    if (!(total > 0)) return counts;
    std::vector<std::pair<double, std::size_t>> remainders;
    std::size_t given = 0;
    for (std::size_t i = 0; i < shares.size(); ++i) {
        const double wanted = shares[i] / total * static_cast<double>(count);
        counts[i] = static_cast<std::size_t>(wanted);
        given += counts[i];
        remainders.emplace_back(static_cast<double>(counts[i]) - wanted, i);
    }
    std::sort(remainders.begin(), remainders.end());
    for (std::size_t k = 0; given < count; ++k, ++given) ++counts[remainders[k % remainders.size()].second];
    return counts;
}

void mix_materials(const Field& field, std::uint64_t seed, std::span<Piece> pieces) {
    std::vector<double> shares;
    std::vector<std::uint32_t> material;
    for (const auto& part : field.mix) {
        shares.push_back(part.share);
        material.push_back(part.material);
    }
    if (shares.size() == 1)
        for (auto& piece : pieces) piece.material = material[0];
    if (shares.size() < 2) return;
    auto left = shared_counts(shares, pieces.size());
    // In an order of pure chance, each piece takes the material that is most owing: overall, and less what
    // its neighbours already have of it.
    std::vector<std::uint32_t> order(pieces.size());
    std::iota(order.begin(), order.end(), 0u);
    std::sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
        return hash_combine(seed, a) < hash_combine(seed, b);
    });
    const double reach =
        2.2 * times_nominal(field, pieces) * std::max(field.piece_length_mm, field.piece_width_mm) +
        field.joint_mm;
    struct Laid {
        glm::dvec2 at;
        std::size_t part;
    };
    PointGrid<Laid> laid(reach);
    std::size_t unlaid = pieces.size();
    std::vector<double> around(shares.size());
    for (const auto i : order) {
        const glm::dvec2 at = centroid(pieces[i].outline_mm);
        std::fill(around.begin(), around.end(), 0.0);
        laid.each_near(at, 1, [&](const Laid& other) {
            if (const double d = glm::distance(at, other.at) / reach; d < 1) around[other.part] += 1 - d;
        });
        const double total = std::accumulate(around.begin(), around.end(), 0.0);
        std::size_t best = shares.size();
        double most = -1e300;
        for (std::size_t p = 0; p < shares.size(); ++p) {
            if (!left[p]) continue;
            const double owing = static_cast<double>(left[p]) / static_cast<double>(unlaid);
            const double crowd = (around[p] - owing * total) / std::sqrt(owing + 0.02);
            const double whim =
                kWhim * std::log(std::max(1e-9, unit_from_hash(hash_combine(hash_combine(seed, i), p + 1)))) /
                owing;
            const double rank = std::log(owing) - 0.8 * crowd + whim;
            if (rank > most) {
                most = rank;
                best = p;
            }
        }
        pieces[i].material = material[best];
        --left[best];
        --unlaid;
        laid.add(at, {at, best});
    }
}

}  // namespace rakelight
