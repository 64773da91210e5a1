// Which material each piece takes when some run out: the assignment with the least sum of costs there is.
// A transportation problem, solved by moving one piece at a time along the cheapest chain of exchanges from a
// material that is over its limit to one that is not (successive shortest paths: Ahuja, Magnanti, Orlin,
// "Network Flows", Prentice Hall 1993, section 9.7). The materials are the nodes, so a chain is short.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace rakelight {

inline constexpr std::size_t kNoLimit = ~std::size_t{0};

struct Assignment {
    std::vector<std::uint32_t> choice;  ///< of each piece
    /// What it would cost to have one piece less of a material: 0 where some is left. At these prices every
    /// piece has what is cheapest for it among the materials with a limit above 0.
    std::vector<double> price;
    bool enough =
        true;  ///< false: the limits sum to less than the pieces; then choice is the cheapest of all
};

/// `costs`: [piece][material], finite; `limits`: one a material. Of equal choices the earlier material, of
/// equal exchanges the earlier piece.
Assignment assign(std::span<const float> costs, std::span<const std::size_t> limits);

}  // namespace rakelight
