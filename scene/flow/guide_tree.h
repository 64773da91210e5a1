// A Barnes-Hut tree over the guides of a field: a binary tree of short stretches, so that a place far away
// sees many of them as one (Barnes, Hut, "A hierarchical O(N log N) force-calculation algorithm", Nature 324,
// 1986).
#pragma once

#include <cstdint>
#include <vector>

#include "scene/flow/flow.h"

namespace rakelight {

/// Stretches of guides that may be taken as one, seen from afar.
struct GuideStretch {
    glm::dvec2 at_mm{};                 ///< middle
    glm::dvec2 doubled{};               ///< sum of unit vectors at twice the angle of the rows
    double count = 0;                   ///< how many short stretches
    double radius_mm = 0;               ///< all of them lie within it
    double range_mm = 0;                ///< over which the guide is heeded
    std::uint32_t first = 0, last = 0;  ///< sides: half-open
    std::uint32_t guide = 0;            ///< index of the guide they are of
};

struct GuideSide {
    glm::dvec2 a{}, b{};
    double range_mm = 0;
    bool hint = false;
    std::uint32_t guide = 0;  ///< index of the guide it is of
};

class GuideTree {
  public:
    /// Guides are cut into sides of about `side_mm`.
    GuideTree(const std::vector<Guide>& guides, double side_mm);

    /// The stretches as seen from anywhere within `radius_mm` of `p`, those out of range left out.
    void seen_from(const glm::dvec2& p, double radius_mm, std::vector<GuideStretch>& out) const;
    /// The side whose middle is nearest, among those in range that are no hints; `sides().size()` when none
    /// is.
    std::uint32_t nearest(const glm::dvec2& p) const;
    /// The sides that all guides were cut into, which indices count.
    const std::vector<GuideSide>& sides() const { return sides_; }

  private:
    struct Node {
        GuideStretch all;
        std::uint32_t left = 0, right = 0;  // 0: a single side
    };
    std::uint32_t build(const std::vector<glm::dvec2>& doubled, std::uint32_t first, std::uint32_t last);
    void see(std::uint32_t node, const glm::dvec2& p, double radius_mm, std::vector<GuideStretch>& out) const;
    void near(std::uint32_t node, const glm::dvec2& p, double& least, std::uint32_t& best) const;

    std::vector<GuideSide> sides_;
    std::vector<Node> nodes_;
    std::vector<std::uint32_t> roots_;  // one a guide: ranges differ
    std::vector<std::uint32_t> firm_;   // those of guides that are no hints
};

}  // namespace rakelight
