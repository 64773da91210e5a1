#include "scene/faults/faults.h"

#include <fmt/format.h>

#include <algorithm>

#include "scene/faults/fault_parts.h"
#include "scene/laying/cut_at_gaps.h"
#include "scene/laying/region_plan.h"
#include "scene/model/layout.h"
#include "scene/opus/opera.h"

namespace rakelight {

namespace {

constexpr auto kWords = std::to_array<FaultWord>({
    {FaultKind::wide_joint, "J", "joints over 1.5 times their width", "wide_joints", "mm", 3},
    {FaultKind::row_end, "E", "row ends in mid-field", "row_ends", "", 3},
    {FaultKind::small_piece, "S", "pieces under a third of the mean", "small_pieces", "mm2", 2},
    {FaultKind::wedge, "W", "wedges over 25 degrees", "wedges", "degrees", 1.5},
    {FaultKind::short_side, "T", "sides under a third", "short_sides", "mm", 1},
    {FaultKind::hollow, "H", "re-entrant cuts", "hollows", "degrees", 1},
    {FaultKind::crossing, "X", "crossings of four", "crossings", "", 1},
    {FaultKind::short_row, "R", "rows of fewer than six pieces", "short_rows", "pieces", 0.5},
    {FaultKind::stone_gap, "G", "gaps beside set stones", "stone_gaps", "mm", 2},
});

constexpr bool in_order() {
    for (std::size_t i = 0; i < kWords.size(); ++i)
        if (static_cast<std::size_t>(kWords[i].kind) != i) return false;
    return kWords.size() == kFaultKinds;
}
static_assert(in_order(), "a row a kind, in the order of FaultKind");

}  // namespace

std::span<const FaultWord> fault_words() {
    return kWords;
}

bool has_rows(const Field& field) {
    return field.opus != Opus::palladianum && field.opus != Opus::sectile && !is_of_whole_pieces(field.opus);
}

double narrow_mm(const Field& field) {
    return field.sizes_mm.x > 0 ? field.sizes_mm.x : std::min(field.piece_length_mm, field.piece_width_mm);
}

double LayingFaults::row_ends_per_100() const {
    return pieces_in_rows
               ? 100.0 * static_cast<double>(of(FaultKind::row_end)) / static_cast<double>(pieces_in_rows)
               : 0;
}

const Fault* LayingFaults::worst() const {
    const auto mind = [](const Fault& f) { return f.bad * kWords[static_cast<std::size_t>(f.kind)].weight; };
    const auto it = std::max_element(all.begin(), all.end(),
                                     [&](const Fault& a, const Fault& b) { return mind(a) < mind(b); });
    return it == all.end() ? nullptr : &*it;
}

LayingFaults find_faults(const Layout& layout, const Laying& laying) {
    std::vector<Ring> footprints;
    for (const SetStone& set : laying.stones) footprints.push_back(set.footprint_mm);
    auto ground = plan_regions(layout, footprints);
    for (std::size_t f = 0; f < ground.size(); ++f)
        ground[f] = off_gaps(ground[f], layout.panel, layout.fields[f].joint_mm);
    double coarsest = 1;
    for (const Field& field : layout.fields)
        coarsest = std::max({coarsest, field.piece_length_mm, field.piece_width_mm, field.sizes_mm.y});
    const NearEdges edges(laying.pieces, coarsest);
    SeenPanel seen{layout, laying, ground, edges, std::vector<double>(layout.fields.size(), 0), coarsest};
    LayingFaults faults;
    std::vector<double> number(layout.fields.size(), 0);
    for (const Piece& piece : laying.pieces) {
        seen.mean_mm2[piece.field] += area_mm2(piece.outline_mm);
        number[piece.field] += 1;
        faults.pieces_in_rows += has_rows(layout.fields[piece.field]) ? 1 : 0;
    }
    for (std::size_t f = 0; f < number.size(); ++f)
        if (number[f] > 0) seen.mean_mm2[f] /= number[f];
    add_piece_faults(seen, faults.all);
    faults.tightest_wedge_deg = add_row_faults(seen, faults.all);
    faults.wide_joint_mm2 = add_joint_faults(seen, faults.all);
    std::stable_sort(faults.all.begin(), faults.all.end(),
                     [](const Fault& a, const Fault& b) { return a.kind < b.kind; });
    for (const Fault& fault : faults.all) ++faults.count[static_cast<std::size_t>(fault.kind)];
    return faults;
}

std::string faults_in_words(const Layout& layout, const Laying& laying, const LayingFaults& faults) {
    const Fault* worst = faults.worst();
    if (!worst) return {};
    std::string line;
    for (const FaultWord& word : kWords)
        if (const std::size_t n = faults.of(word.kind))
            line += fmt::format("{}{} {}", line.empty() ? "" : ", ", n, word.word);
    const FaultWord& word = kWords[static_cast<std::size_t>(worst->kind)];
    line += fmt::format("; the worst: {} in '{}' at [{:.0f}, {:.0f}]", word.word,
                        layout.fields[worst->field].name, worst->at_mm.x, worst->at_mm.y);
    if (worst->piece) line += fmt::format(", piece {}", laying.pieces[*worst->piece].number);
    if (!word.unit.empty())
        line += fmt::format(": {:.3g} {} where {:.3g} is the limit", worst->value, word.unit, worst->limit);
    return line;
}

}  // namespace rakelight
