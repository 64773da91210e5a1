// Faults of the hand: what a mosaicist would take out and lay again, counted and placed. Limits are common
// practice, no published source.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "scene/geometry/polygon.h"
#include "scene/model/piece.h"

namespace rakelight {

struct Layout;

enum class FaultKind {
    wide_joint,   ///< wider than 1.5 times what the field asks for
    row_end,      ///< of a row, neither at the field's edge, a stone or a break nor at a mitre
    small_piece,  ///< under a third of its field's mean area
    wedge,        ///< heads more than 25 degrees apart
    short_side,   ///< under a third of the narrower side of a whole piece
    hollow,       ///< a re-entrant cut, which glass does not give
    crossing,     ///< four pieces meet
    short_row,    ///< of fewer than six pieces, with an end in mid-field or at a mitre
    stone_gap     ///< nearest piece farther than 1.3 joints from a set stone
};
inline constexpr std::size_t kFaultKinds = 9;

struct FaultWord {
    FaultKind kind{};
    std::string_view letter;  ///< on the drawing
    std::string_view word;    ///< of many, as "row ends in mid-field"
    std::string_view key;     ///< in JSON
    std::string_view unit;    ///< of value and limit; empty = none
    double weight = 1;        ///< how much the eye minds it beside the others
};
/// All kinds, in the order of `FaultKind`.
std::span<const FaultWord> fault_words();

struct Fault {
    FaultKind kind{};
    glm::dvec2 at_mm{};
    std::uint32_t field = 0;             ///< index in Layout::fields
    std::optional<std::uint32_t> piece;  ///< index in Laying::pieces
    double value = 0;                    ///< as measured, in the kind's unit
    double limit = 0;                    ///< what it should not pass
    double bad = 1;                      ///< how many times beyond the limit; at least 1
};

struct LayingFaults {
    std::vector<Fault> all;  ///< by kind, then as met
    std::array<std::size_t, kFaultKinds> count{};
    std::size_t pieces_in_rows = 0;  ///< of opera that lay rows
    double wide_joint_mm2 = 0;       ///< area of joints that are too wide
    double tightest_wedge_deg = 0;
    std::size_t of(FaultKind kind) const { return count[static_cast<std::size_t>(kind)]; }
    /// Row ends in mid-field for every hundred pieces in rows.
    double row_ends_per_100() const;
    /// What the eye minds most; null when there is none.
    const Fault* worst() const;
};

/// Every fault of the laid panel. Deterministic.
LayingFaults find_faults(const Layout& layout, const Laying& laying);

/// One line for the artist: how many of which, and the worst with its place. Empty when there is none.
std::string faults_in_words(const Layout& layout, const Laying& laying, const LayingFaults& faults);

}  // namespace rakelight
