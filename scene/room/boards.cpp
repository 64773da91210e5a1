#include "scene/room/boards.h"

#include <algorithm>
#include <cmath>

#include "materials/maths/hash.h"
#include "scene/room/joinery.h"

namespace rakelight {

namespace {

constexpr double kBoardLength_mm[] = {1200, 2200};
constexpr double kEased_mm = 0.8;

// Where the boards of a row end, apart from those of the row before it where there is a free place.
std::vector<double> ends_of_row(double along_mm, const std::vector<double>& before, Rng& rng) {
    std::vector<double> ends;
    for (double at = rng.within(kShortestBoard_mm, kBoardLength_mm[1]); at < along_mm - kShortestBoard_mm;) {
        for (int tries = 0; tries < 8; ++tries) {
            const bool meets = std::ranges::any_of(
                before, [&](double other) { return std::abs(at - other) < kLeastStagger_mm; });
            if (!meets || at + kLeastStagger_mm > along_mm - kShortestBoard_mm) break;
            at += kLeastStagger_mm;
        }
        ends.push_back(at);
        at += rng.within(kBoardLength_mm[0], kBoardLength_mm[1]);
    }
    return ends;
}

}  // namespace

std::vector<FloorBoard> lay_boards(double across_mm, double along_mm, double board_mm, std::uint64_t seed) {
    // An odd crumb at both walls: whole boards between two cut ones of at least half their width.
    const double whole = std::floor(across_mm / board_mm);
    const double rest = across_mm - whole * board_mm;
    std::vector<double> sides{0};
    if (rest > 1e-6 && whole >= 1) {
        sides.push_back((rest + board_mm) / 2);
        while (sides.back() + board_mm < across_mm - 1e-6) sides.push_back(sides.back() + board_mm);
    } else {
        for (int i = 1; i < whole; ++i) sides.push_back(i * board_mm);
    }
    sides.push_back(across_mm);
    std::vector<FloorBoard> boards;
    std::vector<double> ends;
    for (std::size_t row = 0; row + 1 < sides.size(); ++row) {
        Rng rng(hash_combine(seed, row));
        ends = ends_of_row(along_mm, ends, rng);
        double from = 0;
        const auto lay = [&](double to) {
            boards.push_back({{sides[row], from}, {sides[row + 1], to}, static_cast<int>(row)});
            from = to;
        };
        for (const double end : ends) lay(end);
        lay(along_mm);
    }
    return boards;
}

Mesh board_mesh(const FloorBoard& board, double thick_mm) {
    const glm::dvec2 gap(kBoardGap_mm / 2, kBoardEndGap_mm / 2);
    const glm::dvec2 low = board.low_mm + gap, high = board.high_mm - gap;
    return eased_box_mesh({low.x, -thick_mm, low.y}, {high.x, 0, high.y}, kEased_mm);
}

}  // namespace rakelight
