#include "output/board/section.h"

#include <fmt/format.h>

#include <algorithm>

#include "output/board/choice_section.h"
#include "scene/model/layout.h"
#include "scene/opus/opera.h"
#include "scene/text/nearest_word.h"

namespace rakelight {

namespace {

using Shape = YamlValue::Shape;

std::vector<std::string> field_names(const std::vector<Field>& fields) {
    std::vector<std::string> names;
    for (const Field& f : fields) names.push_back(f.name);
    return names;
}

// A key that names a field.
bool set_field(Section& in, std::string_view key, std::string& name, const std::vector<Field>& fields) {
    if (!in.set(name, key)) return false;
    const auto known = field_names(fields);
    if (std::find(known.begin(), known.end(), name) != known.end()) return true;
    in.problem(key, fmt::format("found the unknown field {}, expected one of {}{}", quoted(name),
                                fmt::join(known, ", "), did_you_mean(name, known)));
    return false;
}

const Field& field_called(const std::vector<Field>& fields, const std::string& name) {
    return *std::find_if(fields.begin(), fields.end(), [&](const Field& f) { return f.name == name; });
}

// One number is both sides.
void set_size(Section& in, glm::dvec2& size_mm) {
    const YamlValue* value = in.find("size");
    if (value && value->shape == Shape::scalar) {
        if (in.set(size_mm.x, "size")) size_mm.y = size_mm.x;
    } else {
        in.set(size_mm, "size");
    }
}

void check_part(Section& in, std::string_view key, const BoardPlan& plan, const Panel& panel) {
    const glm::dvec2 end = plan.at_mm + plan.size_mm;
    constexpr double kSlack_mm = 1e-6;
    if (plan.at_mm.x >= -kSlack_mm && plan.at_mm.y >= -kSlack_mm && end.x <= panel.width_mm + kSlack_mm &&
        end.y <= panel.height_mm + kSlack_mm)
        return;
    in.problem(key, fmt::format("found a part from [{:.6g}, {:.6g}] to [{:.6g}, {:.6g}] mm, expected one on "
                                "the panel of {:.6g} x {:.6g} mm",
                                plan.at_mm.x, plan.at_mm.y, end.x, end.y, panel.width_mm, panel.height_mm));
}

void read_test_piece(Section& board, const YamlValue& value, BoardPlan& plan,
                     const std::vector<Field>& fields) {
    Section in(value, board, "test piece");
    plan.part = BoardPart::test_piece;
    if (fields.size() == 1)
        plan.field = fields.front().name;
    else
        in.require("field", "the name of a field");
    if (set_field(in, "field", plan.field, fields))
        if (const OpusRule& rule = rule_of(field_called(fields, plan.field).opus); rule.drawn)
            in.problem("field", fmt::format("found a field in opus {}, which is its own drawing, expected a "
                                            "part of it",
                                            rule.word));
    set_size(in, plan.size_mm);
    in.finish();
}

void take_part(Section& board, const YamlValue& value, BoardPlan& plan, const Layout& layout) {
    Section in(value, board, "part");
    plan.part = BoardPart::part;
    in.require("at", "the lower left corner on the panel, [x, y]");
    const bool placed = in.set(plan.at_mm, "at");
    set_size(in, plan.size_mm);
    set_field(in, "field", plan.field, layout.fields);
    if (placed) check_part(board, "part", plan, layout.panel);
    plan.whole = plan.at_mm == glm::dvec2(0) &&
                 plan.size_mm == glm::dvec2(layout.panel.width_mm, layout.panel.height_mm);
    in.finish();
}

void read_around(Section& board, BoardPlan& plan, const Layout& layout) {
    plan.part = BoardPart::around;
    double margin_mm = 12;
    board.set(margin_mm, "margin");
    if (!set_field(board, "around", plan.field, layout.fields)) return;
    const Field& field = field_called(layout.fields, plan.field);
    glm::dvec2 low(1e300), high(-1e300);
    const auto take = [&](const Stroke& stroke) {
        for (const glm::dvec2& p : stroke.points_mm) low = glm::min(low, p), high = glm::max(high, p);
    };
    take(field.outline);
    for (const Stroke& ring : field.more_rings) take(ring);
    low = glm::max(low - margin_mm, glm::dvec2(0));
    high = glm::min(high + margin_mm, glm::dvec2(layout.panel.width_mm, layout.panel.height_mm));
    plan.at_mm = low;
    plan.size_mm = glm::max(high - low, glm::dvec2(1));
}

void set_reference(Section& in, BoardPlan& plan) {
    std::string label;
    if (!in.set(label, "reference")) return;
    const bool by_row = plan.columns.size() == 1;
    const auto& choices = by_row ? plan.rows : plan.columns;
    std::vector<std::string> known;
    for (const BoardChoice& c : choices) known.push_back(c.label);
    const auto at = std::find(known.begin(), known.end(), label);
    if (at == known.end())
        in.problem("reference", fmt::format("found {}, expected one of {}{}", quoted(label),
                                            fmt::join(known, ", "), did_you_mean(label, known)));
    else
        (by_row ? plan.reference_row : plan.reference_column) = static_cast<std::size_t>(at - known.begin());
}

void read_part(Section& in, BoardPlan& plan, const Layout& layout) {
    const YamlValue* test_piece = in.find("test piece");
    const YamlValue* part = in.find("part");
    const YamlValue* around = in.find("around");
    const int given = (test_piece != nullptr) + (part != nullptr) + (around != nullptr);
    if (given != 1)
        in.problem("", fmt::format("found {} parts of the panel, expected one of test piece, part and around",
                                   given));
    if (test_piece) read_test_piece(in, *test_piece, plan, layout.fields);
    if (part) take_part(in, *part, plan, layout);
    if (around) read_around(in, plan, layout);
}

}  // namespace

BoardPlan read_board(Section& in, const Layout& layout) {
    BoardPlan plan;
    plan.place = in.place();
    plan.title = layout.panel.name;
    in.set(plan.title, "title");
    read_part(in, plan, layout);
    read_choices(in, "rows", plan.rows, layout);
    read_choices(in, "columns", plan.columns, layout);
    if (plan.cells() > kMostBoardCells)
        in.problem("columns", fmt::format("found {} x {} = {} cells, expected at most {}", plan.rows.size(),
                                          plan.columns.size(), plan.cells(), kMostBoardCells));
    set_reference(in, plan);
    std::size_t aim = 0;
    in.set_word(aim, "aim");
    plan.aim = static_cast<BoardAim>(aim);
    in.set(plan.eye_mm, "viewing distance");
    in.set(plan.width_px, "pixels");
    in.set(plan.a_line, "cells per line");
    in.set(plan.error, "grain");
    in.set(plan.most_samples, "most samples");
    const double pixels = static_cast<double>(plan.cells()) * plan.width_px * plan.height_px();
    if (pixels > kMostBoardPixels)
        in.problem("pixels",
                   fmt::format("found {} cells of {} x {} pixels, expected at most {:.0f} million pixels in "
                               "all",
                               plan.cells(), plan.width_px, plan.height_px(), kMostBoardPixels / 1e6));
    double ev = 0;
    if (in.set(ev, "ev")) plan.ev = ev;
    return plan;
}

}  // namespace rakelight
