// What a cell of a sample board says in figures. Colours are for an eye adapted to the cell's own light:
// white is a perfect diffuser on the panel.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "materials/colour/colorimetry.h"
#include "output/board/board.h"
#include "renderer/variants.h"

namespace rakelight {

/// A cell as an eye has it before it at a distance.
struct SeenAt {
    double distance_m = 0;
    Lab pieces, joints;    ///< where pieces and joints are, the light mixed by the eye
    double ciede2000 = 0;  ///< what is left between them
};

struct CellNumbers {
    std::optional<Lab> joint;  ///< as laid: what the first face mirrors left out; none = no joint in sight
    Lab piece;                 ///< likewise, mean of all pieces
    std::optional<Lab> glass;  ///< likewise, of the translucent ones; none = none in sight
    double delta_l = 0;        ///< joint minus piece
    double contrast = 0;       ///< CIEDE2000 between the two
    double joint_share = 0;    ///< of pieces and joints together
    double joint_mm = 0;
    double resolves_to_m = 0;  ///< up to where an eye parts the sides of a joint
    double line_to_m = 0;      ///< up to where the net reads as line; common practice: a third of that
    double net_fades_m =
        0;         ///< from where pieces and joints differ by less than kNetFades; at most kFarthest_m
    Xyz mean_xyz;  ///< over the cell, cd/m2, all light
    Lab mean;
    std::vector<SeenAt> seen_at;
    // The glass of this cell, or where there is none its pieces, against those of the reference cell.
    double shift_l = 0, shift_c = 0, shift_saturation = 0, shift_ciede2000 = 0;
    std::optional<int> rank;  ///< from 1, within its row, by the aim of the board
};

/// Nobody looks at a panel from farther.
inline constexpr double kFarthest_m = 40;

/// CIEDE2000 below which joints merge into the pieces: a few times the just noticeable.
inline constexpr double kNetFades = 3;

/// Saturation in per cent: chroma's share of the colour, 100 C* / sqrt(C*^2 + L*^2) (Luebbe 2010).
double saturation(const Lab& lab);
double chroma(const Lab& lab);

/// One cell's light.
struct CellLight {
    const Film* film = nullptr;              ///< one group: the cell's lamps mixed
    std::array<SeenLight, kSeenKinds> seen;  ///< likewise
    Xyz white;                               ///< of a perfect diffuser, cd/m2
    double mm_per_px = 1;
    double joint_mm = 0;
    const std::vector<Seen>* of_pixels = nullptr;  ///< what the first sample of each pixel met
};

/// All but what compares cells.
std::vector<CellNumbers> count_cells(std::span<const CellLight> cells);

/// The shifts against reference cells and the ranks. \throws std::invalid_argument when the counts differ.
void compare_cells(const BoardPlan& plan, std::span<CellNumbers> cells);

}  // namespace rakelight
