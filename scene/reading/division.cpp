#include "scene/reading/division.h"

#include <fmt/format.h>

#include <algorithm>

#include "scene/model/panel_spans.h"

namespace rakelight {

namespace {

using Shape = YamlValue::Shape;

constexpr std::size_t kMostPanels = 12;

bool read_cuts(Section& in, Division& divided, double width_mm) {
    const YamlValue* value = in.require("at", "where the work is cut, from its left edge");
    if (!value) return false;
    divided.at_mm.assign(value->shape == Shape::list ? value->items.size() : 1, 0);
    if (divided.at_mm.empty() || divided.at_mm.size() >= kMostPanels) {
        in.problem("at", fmt::format("found {}, expected 1 to {} cuts", found(*value), kMostPanels - 1));
        return false;
    }
    if (value->shape == Shape::list
            ? !in.set(std::span(divided.at_mm), "at", Quantity::length_mm, in.range("at"))
            : !in.set(divided.at_mm.front(), "at"))
        return false;
    for (std::size_t i = 0; i < divided.at_mm.size(); ++i) {
        const double at = divided.at_mm[i];
        if (width_mm > 0 && at >= width_mm) {
            in.problem("at", fmt::format("found a cut at x = {:g} mm, expected it within the work's {:g} mm",
                                         at, width_mm));
            return false;
        }
        if (i > 0 && at <= divided.at_mm[i - 1]) {
            in.problem(
                "at", fmt::format("found {:g} after {:g}, expected rising places", at, divided.at_mm[i - 1]));
            return false;
        }
    }
    return true;
}

bool read_panel_names(Section& in, Division& divided) {
    const YamlValue* value = in.require("panels", "the panels' names from left to right");
    if (!value) return false;
    if (value->shape != Shape::list) {
        in.problem("panels", "found " + found(*value) + ", expected a list of names");
        return false;
    }
    bool good = true;
    for (std::size_t i = 0; i < value->items.size(); ++i) {
        const YamlValue& item = value->items[i];
        const std::string key = fmt::format("{}[{}]", in.path("panels"), i + 1);
        const bool named = item.shape == Shape::scalar && !item.text.empty();
        if (!named)
            in.problems().add(item, key, "found " + found(item) + ", expected a name");
        else if (std::ranges::find(divided.names, item.text) != divided.names.end())
            in.problems().add(item, key, "found " + quoted(item.text) + " again, expected a name of its own");
        good &= named && std::ranges::find(divided.names, item.text) == divided.names.end();
        divided.names.push_back(item.text);
    }
    return good;
}

// Whether every panel is wide enough, for itself and beside its gap.
bool panels_fit(Section& in, const Panel& panel) {
    for (const PanelSpan& span : panel_spans(panel)) {
        const double left = span.width_mm(), gap = panel.divided->gap_mm;
        if (left < kLeastPanel_mm) {
            in.problem("at", fmt::format("found {:g} mm left for '{}' between gaps of {:g} mm, frames "
                                         "included; expected a panel at least {:g} mm wide",
                                         left, span.name, behind_gap_mm(panel), kLeastPanel_mm));
            return false;
        }
        if (gap > left) {
            in.problem("gap", fmt::format("found a gap of {:g} mm beside '{}', which is {:g} mm wide; "
                                          "expected it no wider than a panel",
                                          gap, span.name, left));
            return false;
        }
    }
    return true;
}

}  // namespace

void read_division(Section& in, Panel& panel) {
    for_mapping(in, "divided", [&](Section& section) {
        Division divided;
        divided.place = section.place();
        bool good = read_cuts(section, divided, panel.width_mm);
        good &= read_panel_names(section, divided);
        section.set(divided.gap_mm, "gap");
        if (good && divided.names.size() != divided.at_mm.size() + 1) {
            section.problem("panels", fmt::format("found {} names, expected {}: one more than cuts",
                                                  divided.names.size(), divided.at_mm.size() + 1));
            good = false;
        }
        if (!good || panel.width_mm <= 0) return;
        panel.divided = std::move(divided);
        if (!panels_fit(section, panel)) panel.divided.reset();
    });
}

}  // namespace rakelight
