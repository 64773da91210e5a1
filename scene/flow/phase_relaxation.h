// Phases on a plane lattice, drawn towards what their eight neighbours say. The nodes are held in four
// planes, by even and odd column and row: those of one plane do not touch, so that a whole plane moves at
// once, on any number of threads and several nodes to an instruction, and the outcome is one and the same.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

namespace rakelight {

/// A unit complex number, written out: the library's product guards against infinities that cannot occur
/// here.
struct Phase {
    float re = 0;
    float im = 0;
};

/// The neighbours a link leads to, from the node that holds it: right, up, up and right, up and left.
inline constexpr std::array<std::array<int, 2>, 4> kHalfStar{{{1, 0}, {0, 1}, {1, 1}, {-1, 1}}};

/// What the phase gains from a node to its neighbour; `flips`: their normals point opposite ways; `cut`:
/// neither hears of the other.
struct PhaseLink {
    Phase turn;
    bool flips = false;
    bool cut = false;
};

/// A lattice of `columns` by `rows` nodes, row by row.
struct PhaseLattice {
    int columns = 0, rows = 0;
    std::vector<Phase> phase;
    std::vector<std::uint8_t> pinned;             ///< these stay as they are
    std::vector<std::array<PhaseLink, 4>> links;  ///< links out of the lattice are not looked at
};

/// So many rounds of relaxation. The later half goes beyond what the neighbours say (successive
/// over-relaxation, Young 1954): misfits then spread over a whole gap between two guides instead of gathering
/// where the rows from both sides meet.
void relax(PhaseLattice& lattice, int sweeps);

}  // namespace rakelight
