// Panels of a divided work by plain arithmetic.
#include "scene/model/panel_spans.h"

#include <gtest/gtest.h>

namespace rakelight {
namespace {

Panel work(std::vector<double> at, double gap) {
    Panel panel;
    panel.name = "Tides";
    panel.width_mm = 1000;
    panel.height_mm = 400;
    Division divided{std::move(at), gap, {"a"}, {}};
    for (std::size_t i = 0; i < divided.at_mm.size(); ++i) divided.names.push_back(i == 0 ? "b" : "c");
    panel.divided = divided;
    return panel;
}

TEST(PanelSpans, UndividedIsOne) {
    Panel panel = work({500}, 40);
    panel.divided.reset();
    const auto spans = panel_spans(panel);
    ASSERT_EQ(spans.size(), 1u);
    EXPECT_EQ(spans[0].name, "Tides");
    EXPECT_EQ(spans[0].left_mm, 0);
    EXPECT_EQ(spans[0].right_mm, 1000);
    EXPECT_EQ(behind_gap_mm(panel), 0);
}

TEST(PanelSpans, GapIsBetweenFrames) {
    Panel panel = work({480}, 40);
    auto spans = panel_spans(panel);
    ASSERT_EQ(spans.size(), 2u);
    EXPECT_EQ(spans[0].right_mm, 460);
    EXPECT_EQ(spans[1].left_mm, 500);
    Frame frame;  // 40 + 2 x (16 + 4)
    frame.width_mm = 16;
    frame.gap_mm = 4;
    panel.frame = frame;
    spans = panel_spans(panel);
    EXPECT_EQ(behind_gap_mm(panel), 80);
    EXPECT_EQ(spans[0].right_mm, 440);
    EXPECT_EQ(spans[1].left_mm, 520);
}

TEST(PanelSpans, ThreeAddUpWithTheirGaps) {
    const Panel panel = work({300, 700}, 50);
    const auto spans = panel_spans(panel);
    ASSERT_EQ(spans.size(), 3u);
    double sum = 0;
    for (const PanelSpan& span : spans) sum += span.width_mm();
    EXPECT_DOUBLE_EQ(sum + 2 * 50, 1000);
    EXPECT_EQ(span_at(spans, 10), 0u);
    EXPECT_EQ(span_at(spans, 299), 0u);  // behind the gap: the nearer one
    EXPECT_EQ(span_at(spans, 301), 1u);
    EXPECT_EQ(span_at(spans, 999), 2u);
    const Panel middle = panel_of(panel, spans[1]);
    EXPECT_EQ(middle.name, "b");
    EXPECT_EQ(middle.width_mm, 350);
    EXPECT_FALSE(middle.divided);
}

}  // namespace
}  // namespace rakelight
