// Halo rows: those that run along the edge of a field, or of the figures in it, before its own take over.
#include "scene/geometry/edge_index.h"
#include "scene/opus/head_joints.h"
#include "scene/opus/opus.h"

namespace rakelight {

namespace {

// What is left beside a halo row and is too narrow for a row of its own, as where the halo comes near another
// figure: the halo row takes it. Half a row and less, over a piece or more; common practice, no published
// source.
Region too_narrow(const Region& left, const Region& band, double across_mm, double least_mm2) {
    constexpr double kNarrow = 0.5;  // rows
    const double half = kNarrow / 2 * across_mm;
    const Region broad = grow(grow(left, -half), 1.05 * half);
    Region strips;
    for (const Region& strip : islands(subtract(left, broad)))
        if (area_mm2(strip) > least_mm2 && !intersect(grow(strip, 0.01), band).empty())
            strips = unite(strips, strip);
    return strips;
}

}  // namespace

Region lay_halo(const Region& ground, const Region& contour, int rows, const FieldHand& hand,
                HeadJoints& heads, std::uint64_t seed, std::vector<Piece>& pieces) {
    const bool own = &contour == &ground;
    Region left = ground, edge = contour;
    const double across = hand.pitch.across_mm;
    for (int k = 0; k < rows && !left.empty(); ++k) {
        const Region inner = grow(edge, -across);
        const Region beyond = own ? inner : intersect(left, inner);
        const Region row_ground = subtract(left, inner);
        const Region strips = too_narrow(beyond, row_ground, across, hand.rules.nominal_mm2);
        const Region band = strips.empty() ? row_ground : unite(row_ground, grow(strips, 0.002));
        Rng rng(hash_combine(seed, static_cast<std::uint64_t>(k)));
        std::vector<Seed> seeds;
        std::vector<std::size_t> row_of;
        std::size_t parts = 0;
        std::vector<Row> lines;
        const EdgeIndex within(band, across);
        for (const auto& ring : grow(edge, -across / 2).rings)
            for (auto& part : broken_at_corners({ring, true}, across, 50)) {
                if (own)
                    lines.push_back(std::move(part));
                else
                    for (auto& in : stretches(part, 0.1 * across,
                                              [&](const glm::dvec2& p) { return within.inside_mm(p) > 0; }))
                        lines.push_back(std::move(in));
            }
        for (const Row& line : lines) {
            for (auto& piece : cut_row(line, hand.pitch, hand.hand, heads, rng))
                seeds.push_back(std::move(piece));
            row_of.resize(seeds.size(), parts++);
        }
        Cells cells = settle(share_out(seeds, band), seeds, band, 0.0, 0.3 * hand.rules.nominal_mm2);
        straighten_heads(cells.of_seed, seeds, row_of, heads_of(hand),
                         hash_combine(seed, 200 + static_cast<std::uint64_t>(k)));
        cut_cells(cells.of_seed, seeds, hand.rules, hash_combine(seed, 100 + static_cast<std::uint64_t>(k)),
                  pieces);
        left = subtract(beyond, strips);
        edge = inner;
    }
    return left;
}

}  // namespace rakelight
