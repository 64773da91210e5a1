// Small things that many sheets of the workshop carry: words, boxes, check bars, an arrow that says which way
// is up.
#pragma once

#include "output/paper/tracing.h"
#include "scene/geometry/region.h"

namespace rakelight::furniture {

inline constexpr Rgb8 kBlack{0, 0, 0}, kWhite{255, 255, 255}, kGrey{105, 105, 105}, kPale{232, 228, 224},
    kRed{190, 30, 30}, kBlue{20, 86, 190};

PageText word(std::string text, const glm::dvec2& baseline_mm, double size_mm, bool bold = false,
              Align align = Align::left, const Rgb8& colour = kBlack);

TracedShape line_shape(std::vector<glm::dvec2> points_mm);
TracedShape box_shape(const Box& box);
TracedShape circle_shape(const glm::dvec2& middle_mm, double radius_mm);

/// A layer of shapes drawn with one pen.
TracedLayer inked(std::string name, const DrawnPen& pen, std::vector<TracedShape> shapes = {});

/// A bar of 100 mm to hold a ruler to: ticks every 10 mm, thin ends. `at_mm`: its left end, or its upper.
TracedLayer bar_across(const glm::dvec2& at_mm);
TracedLayer bar_upright(const glm::dvec2& at_mm);

/// An arrow with the word "up"; `tip_mm` is its tip.
TracedLayer arrow_up(const glm::dvec2& tip_mm);

}  // namespace rakelight::furniture
