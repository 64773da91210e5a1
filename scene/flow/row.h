// One row of a field: where its head joints fall, and the pieces to be between them. Heads keep away from the
// heads of the rows beside them, as bricks do, and whatever length is over is spread along the whole row.
#pragma once

#include <algorithm>
#include <vector>

#include "materials/maths/hash.h"
#include "scene/flow/cells.h"
#include "scene/geometry/point_grid.h"

namespace rakelight {

/// The middle line of a row.
struct Row {
    std::vector<glm::dvec2> line_mm;
    bool closed = false;
};

/// Distances between middle lines of pieces: piece and one joint.
struct Pitch {
    double along_mm = 11.5;
    double across_mm = 11.5;
};

/// Head joints set so far, by their middle points.
class HeadJoints {
  public:
    /// `pitch`: of the rows to come.
    explicit HeadJoints(const Pitch& pitch) : pitch_(pitch), heads_(1.6 * pitch.across_mm) {}
    /// Remembers a head joint by its middle.
    void add(const glm::dvec2& at_mm) { heads_.add(at_mm, at_mm); }
    /// How badly a head here, in a row of direction `along`, would line up with heads of neighbouring rows: 0
    /// = well staggered, 1 = one right in line.
    double clash(const glm::dvec2& at_mm, const glm::dvec2& along) const;

  private:
    Pitch pitch_;
    PointGrid<glm::dvec2> heads_;
};

/// A point every `step_mm` along a line (the step fits the length), ends kept; closed lines end where they
/// start.
std::vector<glm::dvec2> resampled(const Row& row, double step_mm);

/// The stretches of a row whose points, one every `step_mm`, pass `good`.
template <class Good>
std::vector<Row> stretches(const Row& row, double step_mm, Good&& good) {
    auto line = resampled(row, step_mm);
    std::vector<char> ok;
    for (const auto& p : line) ok.push_back(good(p));
    if (std::all_of(ok.begin(), ok.end(), [](char c) { return c != 0; })) {
        if (row.closed) line.pop_back();
        return {{line, row.closed}};
    }
    if (row.closed) {  // start where the row is broken
        const auto gap = std::find(ok.begin(), ok.end(), 0) - ok.begin();
        line.pop_back();
        ok.pop_back();
        const auto turn = gap % static_cast<std::ptrdiff_t>(line.size());
        std::rotate(line.begin(), line.begin() + turn, line.end());
        std::rotate(ok.begin(), ok.begin() + turn, ok.end());
    }
    std::vector<Row> out;
    Row now;
    for (std::size_t i = 0; i <= line.size(); ++i) {
        if (i < line.size() && ok[i]) {
            now.line_mm.push_back(line[i]);
        } else if (!now.line_mm.empty()) {
            if (now.line_mm.size() > 1) out.push_back(now);
            now.line_mm.clear();
        }
    }
    return out;
}

/// Breaks a row wherever it turns by more than `turn_deg` within one `span_mm`: corners are mitred, not bent
/// round.
std::vector<Row> broken_at_corners(const Row& row, double span_mm, double turn_deg);

/// Cuts a row into pieces to be and records its heads in `heads`. The lengths minimise, over the whole row
/// (by dynamic programming), the squared departure from the pitch and the clash with heads set before.
/// `hand`: relative standard deviation of the hand's cut, 0 = machine.
std::vector<Seed> cut_row(const Row& row, const Pitch& pitch, double hand, HeadJoints& heads, Rng& rng);

}  // namespace rakelight
