// The table of the ways of laying: a row an opus, with everything that one does unlike another. Reading,
// laying, buying and the tests look it up here; nothing else asks which opus a field is of.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "scene/model/field.h"

namespace rakelight {

struct OpusTask;  // opus.h
struct Piece;     // laying.h

/// Lays the ground of a task and appends the pieces: outline, row direction and seed are set, the rest is
/// not. Deterministic in the task.
using LayOpus = void(const OpusTask& task, std::vector<Piece>& pieces);

struct OpusRule {
    Opus opus{};
    std::string_view word;        ///< in layout files
    std::string_view definition;  ///< what it means here; glossaries differ, so `rakelight check` prints it
    LayOpus* lay = nullptr;
    /// Keys of a field that belong to it, refused elsewhere; scene/reading/field/opus.cpp reads them. Empty =
    /// none.
    std::array<std::string_view, 2> own_keys{};
    bool takes_breaks = true;     ///< it has rows that `breaks` can end
    bool led_by_guides = false;   ///< its rows follow the guides, or cross them with `rows: across`
    bool drawn = false;           ///< its pieces are drawn one by one, so that nothing can part round a stone
    bool takes_halo = true;       ///< rows may follow the field's edge
    int usual_halo = 0;           ///< rows along the edge unless the field says otherwise
    std::string_view no_halo_is;  ///< what it would be without them, so that it must have some; empty = may
    PieceForm usual_form{};       ///< of its pieces, unless the field says otherwise
    std::optional<PieceForm> only_form;  ///< of its pieces, whatever the field says
    bool cut_to_curves = false;  ///< pieces are cut to wedges or outlines, and more is wasted (purchase.h)
    /// Hours a square foot that laying takes, cutting included: low and high. Common practice, no published
    /// source.
    std::array<double, 2> hours_per_square_foot{};
};

/// All of them, in the order of `Opus`.
std::span<const OpusRule> opera();

/// \throws std::out_of_range for an opus without a row.
const OpusRule& rule_of(Opus opus);

/// Whether its pieces are found whole, not cut: pebbles and beads, whose joints are as wide as they leave
/// them.
inline bool is_of_whole_pieces(Opus opus) {
    return rule_of(opus).only_form.has_value();
}

/// Their words, in the same order.
std::span<const std::string> opus_words();

/// The words of those for which `holds(const OpusRule&)`, as in "fans or pebbles".
template <class Holds>
std::string opera_that(Holds&& holds) {
    std::string words;
    for (const OpusRule& rule : opera())
        if (holds(rule)) words += (words.empty() ? "" : " or ") + std::string(rule.word);
    return words;
}

}  // namespace rakelight
