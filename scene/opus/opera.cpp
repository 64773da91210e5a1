#include "scene/opus/opera.h"

#include "scene/model/piece.h"
#include "scene/opus/opus.h"

namespace rakelight {

// Each in a file of its own, but rows in straight or flowing lines, which lines_of_guides.cpp lays.
LayOpus lay_regulatum, lay_tessellatum, lay_musivum, lay_vermiculatum, lay_palladianum, lay_classicum,
    lay_sectile, lay_fans, lay_pebbles, lay_beads;

namespace {

constexpr auto kOpera = std::to_array<OpusRule>({
    {.opus = Opus::regulatum,
     .word = "regulatum",
     .definition = "a grid, both families of joints in line",
     .lay = lay_regulatum,
     .takes_breaks = false,
     .hours_per_square_foot = {5, 9}},
    {.opus = Opus::tessellatum,
     .word = "tessellatum",
     .definition = "straight rows, head joints staggered as in brickwork",
     .lay = lay_tessellatum,
     .hours_per_square_foot = {5, 9}},
    {.opus = Opus::musivum,
     .word = "musivum",
     .definition = "rows that follow the guides and fill the field, growing new rows and ending old ones as "
                   "it widens and narrows",
     .lay = lay_musivum,
     .led_by_guides = true,
     .cut_to_curves = true,
     .hours_per_square_foot = {7, 15}},
    {.opus = Opus::vermiculatum,
     .word = "vermiculatum",
     .definition = "rows along the field's own outline, close and calm, for figures",
     .lay = lay_vermiculatum,
     .led_by_guides = true,
     .cut_to_curves = true,
     .hours_per_square_foot = {10, 25}},
    {.opus = Opus::palladianum,
     .word = "palladianum",
     .definition = "irregular convex stones, one even joint, three meeting at each corner, no rows",
     .lay = lay_palladianum,
     .own_keys = {"sizes"},
     .takes_breaks = false,  // and broken anyhow: nothing is cut to curves
     .hours_per_square_foot = {3, 6}},
    {.opus = Opus::classicum,
     .word = "classicum",
     .definition = "one or more halo rows along every edge and figure, then straight rows cut to fit "
                   "against them",
     .lay = lay_classicum,
     .usual_halo = 2,
     .no_halo_is = "tessellatum",
     .cut_to_curves = true,
     .hours_per_square_foot = {7, 15}},
    {.opus = Opus::sectile,
     .word = "sectile",
     .definition = "the drawing itself: one piece for each drawn shape, and the ground between them; "
                   "hairline joints",
     .lay = lay_sectile,
     .own_keys = {"shapes"},
     .takes_breaks = false,
     .drawn = true,
     .takes_halo = false,
     .usual_form = PieceForm::sawn,
     .cut_to_curves = true,
     .hours_per_square_foot = {10, 25}},
    {.opus = Opus::fans,
     .word = "fans",
     .definition = "rows in arcs of one radius, bay beside bay, as a mason paves",
     .lay = lay_fans,
     .own_keys = {"fan"},
     .cut_to_curves = true,
     .hours_per_square_foot = {7, 15}},
    {.opus = Opus::pebbles,
     .word = "pebbles",
     .definition = "whole rounded stones along the flow, set flat or on edge, small ones in the gaps",
     .lay = lay_pebbles,
     .own_keys = {"set"},
     .takes_halo = false,
     .only_form = PieceForm::pebble,
     .hours_per_square_foot = {3, 6}},
    {.opus = Opus::beads,
     .word = "beads",
     .definition = "strands of round beads along the guides, nested side by side, set half deep",
     .lay = lay_beads,
     .takes_breaks = false,
     .takes_halo = false,
     .only_form = PieceForm::bead,
     .hours_per_square_foot = {6, 15}},
});

constexpr bool in_order() {
    for (std::size_t i = 0; i < kOpera.size(); ++i)
        if (static_cast<std::size_t>(kOpera[i].opus) != i) return false;
    return true;
}
static_assert(in_order(), "a row an opus, in the order of Opus");

}  // namespace

std::span<const OpusRule> opera() {
    return kOpera;
}

const OpusRule& rule_of(Opus opus) {
    return kOpera.at(static_cast<std::size_t>(opus));
}

std::span<const std::string> opus_words() {
    static const std::vector<std::string> words = [] {
        std::vector<std::string> names;
        for (const OpusRule& rule : kOpera) names.emplace_back(rule.word);
        return names;
    }();
    return words;
}

}  // namespace rakelight
