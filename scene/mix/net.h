// An order of chance in which pieces are decided, and for each the neighbours that are decided after it: what
// one piece could not have, these make good. Error diffusion on a scattered set instead of a raster (after
// Floyd and Steinberg, "An adaptive algorithm for spatial greyscale", Proc. SID 17, 1976; the order of chance
// keeps the raster's worms away).
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <span>
#include <vector>

namespace rakelight {

struct MixNet {
    struct Heir {
        std::uint32_t piece = 0;
        double share = 0;
    };
    std::vector<std::uint32_t> order;   ///< of all pieces
    std::vector<std::uint64_t> chance;  ///< a hash of where each lies; they are ordered by it
    std::vector<Heir> heirs;            ///< shares of one piece sum to 1
    std::vector<std::size_t> first;     ///< heirs of piece i: first[i] up to first[i + 1]

    std::span<const Heir> heirs_of(std::uint32_t piece) const {
        return std::span(heirs).subspan(first[piece], first[piece + 1] - first[piece]);
    }
};

/// Each piece but the last has heirs, the nearest of those that come after it, the nearer the larger their
/// share: so nothing owed is ever lost. The net depends on where the points are and not on how they are
/// numbered, as long as no two fall within a micrometre.
MixNet mix_net(std::span<const glm::dvec2> centres_mm, std::uint64_t seed);

}  // namespace rakelight
