#include "scene/mix/shades.h"

#include <algorithm>

#include "materials/maths/hash.h"
#include "scene/geometry/region.h"
#include "scene/mix/net.h"
#include "scene/mix/position.h"

namespace rakelight {

namespace {

constexpr double kWhim = 0.12;  // of a piece: how far chance may outweigh what is owing

std::size_t place_in(std::vector<std::uint32_t>& materials, std::uint32_t material) {
    const auto it = std::find(materials.begin(), materials.end(), material);
    const auto index = static_cast<std::size_t>(it - materials.begin());
    if (it == materials.end()) materials.push_back(material);
    return index;
}

}  // namespace

ShadeTable shade_table(const MixShift& shift, double low, double high) {
    ShadeTable table;
    table.blend = shift.blend;
    for (const auto& shade : shift.shades)
        for (const auto& part : shade) place_in(table.materials, part.material);
    for (const auto& shade : shift.shades) {
        auto& row = table.shares.emplace_back(table.materials.size(), 0.0);
        for (const auto& part : shade) row[place_in(table.materials, part.material)] += part.share;
    }
    table.at = shift.at;
    if (table.at.empty()) {
        if (shift.by == MixShift::By::along || shift.by == MixShift::By::towards) low = 0, high = 1;
        if (shift.by == MixShift::By::away) low = 0;
        const auto steps = static_cast<double>(table.shares.size() - 1);
        for (std::size_t s = 0; s < table.shares.size(); ++s)
            table.at.push_back(low + (high - low) * static_cast<double>(s) / steps);
        if (shift.reversed) std::reverse(table.shares.begin(), table.shares.end());
    }
    return table;
}

void shares_at(const ShadeTable& table, double position, std::span<double> shares) {
    const auto after = std::upper_bound(table.at.begin(), table.at.end(), position);
    const auto next = static_cast<std::size_t>(after - table.at.begin());
    if (next == 0 || next == table.at.size()) {
        const auto& end = table.shares[next == 0 ? 0 : next - 1];
        std::copy(end.begin(), end.end(), shares.begin());
        return;
    }
    const double way = (position - table.at[next - 1]) / (table.at[next] - table.at[next - 1]);
    const double part =
        table.blend > 0 ? std::clamp((way - 0.5) / table.blend + 0.5, 0.0, 1.0) : (way < 0.5 ? 0.0 : 1.0);
    for (std::size_t m = 0; m < shares.size(); ++m)
        shares[m] = (1 - part) * table.shares[next - 1][m] + part * table.shares[next][m];
}

void mix_shades(const Field& field, std::uint64_t seed, std::span<Piece> pieces) {
    if (pieces.empty()) return;
    std::vector<glm::dvec2> centres;
    for (const auto& piece : pieces) centres.push_back(centroid(piece.outline_mm));
    const std::vector<double> position = mix_positions(*field.shift, centres);
    const auto [low, high] = std::minmax_element(position.begin(), position.end());
    const ShadeTable table = shade_table(*field.shift, *low, *high);
    const std::size_t count = table.materials.size();

    const MixNet net = mix_net(centres, seed);
    std::vector<double> owing(pieces.size() * count, 0.0);  // [piece][material], left by those before
    std::vector<double> share(count), wanted(count);
    for (const std::uint32_t i : net.order) {
        shares_at(table, position[i], share);
        const std::uint64_t whim = hash_combine(hash_combine(seed, 3), net.chance[i]);
        std::size_t best = count;
        double most = 0;
        for (std::size_t m = 0; m < count; ++m) {
            wanted[m] = share[m] + owing[i * count + m];
            if (!(share[m] > 0)) continue;
            const double rank = wanted[m] + kWhim * unit_from_hash(hash_combine(whim, m));
            if (best == count || rank > most) {
                most = rank;
                best = m;
            }
        }
        pieces[i].material = table.materials[best];
        wanted[best] -= 1;
        for (const auto& heir : net.heirs_of(i))
            for (std::size_t m = 0; m < count; ++m) owing[heir.piece * count + m] += heir.share * wanted[m];
    }
}

}  // namespace rakelight
