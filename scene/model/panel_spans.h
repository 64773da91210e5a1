// The panels of a diptych or triptych: the stretches of one drawing that stand on boards of their own, and
// the gaps between them, behind which the drawing goes on unseen. Of an undivided panel the one stretch is
// all.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "scene/model/panel.h"

namespace rakelight {

/// Width of frame and shadow gap round a panel.
double rim_mm(const Panel& panel);

/// What lies behind a gap, from work to work: the gap on the wall and the two frames beside it.
double behind_gap_mm(const Panel& panel);

/// One panel of the work: where its stretch of the drawing begins and ends, panel coordinates.
struct PanelSpan {
    std::string name;
    double left_mm = 0;
    double right_mm = 0;
    double width_mm() const { return right_mm - left_mm; }
    bool holds(double x_mm) const { return x_mm >= left_mm && x_mm <= right_mm; }
};

/// From left to right; at least one.
std::vector<PanelSpan> panel_spans(const Panel& panel);

/// Index of the span that a place belongs to; behind a gap that of the nearer one.
std::size_t span_at(const std::vector<PanelSpan>& spans, double x_mm);

/// A panel of the work by itself: named and as wide as its span, all else as the whole has it.
Panel panel_of(const Panel& whole, const PanelSpan& span);

}  // namespace rakelight
