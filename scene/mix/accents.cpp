#include "scene/mix/accents.h"

#include <algorithm>
#include <cmath>

#include "materials/maths/hash.h"
#include "scene/geometry/edge_index.h"
#include "scene/mix/mixing.h"
#include "scene/mix/net.h"

namespace rakelight {

namespace {

constexpr std::size_t kHandful = 24;  // for each one already chosen, up to this many draws
constexpr double kOffEdge = 1.6;      // a distance from the edge counts as this many from another accent

}  // namespace

std::vector<ChosenAccent> choose_accents(const Field& field, const Region& ground, std::uint64_t seed,
                                         std::span<const Piece> pieces) {
    std::vector<double> shares;
    std::size_t count = 0;
    for (const auto& accent : field.accents) {
        shares.push_back(accent.count);
        count += static_cast<std::size_t>(accent.count);
    }
    count = std::min(count, pieces.size());
    std::vector<ChosenAccent> chosen;
    if (count == 0) return chosen;

    std::vector<glm::dvec2> centres;
    for (const auto& piece : pieces) centres.push_back(centroid(piece.outline_mm));
    const auto order = mix_net(centres, seed).order;
    // About how far apart they can be: as a hexagonal lattice of that many.
    const double spacing = std::sqrt(1.15 * std::max(1.0, area_mm2(ground)) / static_cast<double>(count));
    const EdgeIndex edge(ground, std::max(spacing, 1.0));
    std::vector<double> apart;  // from the nearest accent or the edge, by piece
    for (const auto& p : centres) apart.push_back(std::min(spacing, kOffEdge * edge.inside_mm(p)));
    std::vector<char> taken(pieces.size(), 0);

    std::vector<std::size_t> left;
    for (const auto& accent : field.accents) left.push_back(static_cast<std::size_t>(accent.count));
    for (std::size_t k = 0; k < count; ++k) {
        std::size_t best = pieces.size();
        const std::size_t draws = std::min(pieces.size(), kHandful * (k + 1));
        for (std::size_t d = 0; d < draws; ++d) {
            const std::uint64_t h = hash_combine(hash_combine(seed, k + 1), d);
            const std::uint32_t i = order[h % order.size()];
            if (!taken[i] && (best == pieces.size() || apart[i] > apart[best])) best = i;
        }
        for (std::size_t d = 0; best == pieces.size(); ++d)  // all drawn were taken
            if (!taken[order[d]]) best = order[d];
        taken[best] = 1;
        for (std::size_t i = 0; i < centres.size(); ++i)
            apart[i] = std::min(apart[i], glm::distance(centres[i], centres[best]));
        // The accent that lags most behind its share of those chosen so far.
        std::size_t accent = 0;
        double most = -1;
        for (std::size_t a = 0; a < left.size(); ++a)
            if (const double lag = static_cast<double>(left[a]) / shares[a]; left[a] && lag > most) {
                most = lag;
                accent = a;
            }
        --left[accent];
        chosen.push_back({best, accent});
    }
    return chosen;
}

}  // namespace rakelight
