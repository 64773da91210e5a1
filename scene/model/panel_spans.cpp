#include "scene/model/panel_spans.h"

namespace rakelight {

double rim_mm(const Panel& panel) {
    return panel.frame ? panel.frame->width_mm + panel.frame->gap_mm : 0;
}

double behind_gap_mm(const Panel& panel) {
    return panel.divided ? panel.divided->gap_mm + 2 * rim_mm(panel) : 0;
}

std::vector<PanelSpan> panel_spans(const Panel& panel) {
    if (!panel.divided) return {{panel.name, 0, panel.width_mm}};
    const Division& divided = *panel.divided;
    const double half = behind_gap_mm(panel) / 2;
    std::vector<PanelSpan> spans;
    double left = 0;
    for (std::size_t i = 0; i < divided.at_mm.size(); ++i) {
        spans.push_back({divided.names[i], left, divided.at_mm[i] - half});
        left = divided.at_mm[i] + half;
    }
    spans.push_back({divided.names[divided.at_mm.size()], left, panel.width_mm});
    return spans;
}

std::size_t span_at(const std::vector<PanelSpan>& spans, double x_mm) {
    std::size_t i = 0;
    while (i + 1 < spans.size() && x_mm > (spans[i].right_mm + spans[i + 1].left_mm) / 2) ++i;
    return i;
}

Panel panel_of(const Panel& whole, const PanelSpan& span) {
    Panel panel = whole;
    panel.name = span.name;
    panel.width_mm = span.width_mm();
    panel.divided.reset();
    return panel;
}

}  // namespace rakelight
