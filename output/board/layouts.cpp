#include "output/board/layouts.h"

#include <fmt/format.h>

#include <algorithm>

#include "output/board/geometry_key.h"
#include "output/board/section.h"
#include "output/board/test_piece.h"
#include "scene/light/window_light.h"
#include "scene/model/layout.h"
#include "scene/model/levels.h"
#include "scene/reading/deliverable_section.h"
#include "scene/reading/layout_reader.h"
#include "scene/room/panel_frame.h"
#include "scene/text/diagnostics.h"
#include "scene/text/tree_override.h"

namespace rakelight {

namespace {

bool switches_lamps(const BoardPlan& plan) {
    const auto has = [](const BoardChoice& c) { return c.lamps.has_value(); };
    return std::any_of(plan.rows.begin(), plan.rows.end(), has) ||
           std::any_of(plan.columns.begin(), plan.columns.end(), has);
}

// The lamps that these names and groups stand for, each by its own name.
std::vector<std::string> names_of(const Lighting& light, const std::vector<std::string>& wanted) {
    std::vector<std::string> names;
    const auto take = [&](const std::string& name, const std::string& group) {
        const auto is = [&](const std::string& w) { return w == name || w == group; };
        if (std::any_of(wanted.begin(), wanted.end(), is)) names.push_back(name);
    };
    for (const Lamp& lamp : light.lamps) take(lamp.name, lamp.group);
    for (const Window& window : light.windows) take(window.name, window.group);
    take(kSunName, kSunName);
    if (light.all_round) take(light.all_round->name, light.all_round->group);
    return names;
}

void stand_before(Layout& layout, const BoardPlan& plan) {
    const PanelFrame panel = panel_frame(layout.panel);
    const glm::dvec2 corner = plan.part == BoardPart::test_piece ? glm::dvec2(0) : plan.at_mm;
    const glm::dvec2 aside = corner + plan.size_mm / 2.0 - panel.half_mm;
    Viewpoint view;
    view.name = "board";
    view.look_at_mm = panel.centre_mm + panel.axes[0] * aside.x + panel.axes[1] * aside.y +
                      panel.axes[2] * face_plane_mm(layout);
    view.eye_mm = view.look_at_mm + panel.axes[2] * plan.eye_mm;
    view.view_width_mm = plan.size_mm.x;
    layout.views.viewpoints = {view};
    Picture picture;
    picture.name = picture.viewpoint = view.name;
    picture.width_px = plan.width_px;
    picture.height_px = plan.height_px();
    picture.error = plan.error;
    picture.most_samples = plan.most_samples;
    layout.views.pictures = {picture};
}

CellLayout lay_out(const YamlValue& tree, const Layout& layout, const BoardPlan& plan, const BoardChoice& row,
                   const BoardChoice& column) {
    YamlValue changed = tree;
    choose(changed, plan, row, column, layout);
    CellLayout cell;
    Layout whole = read_layout_tree({changed, layout.sources.tree->files}, layout.sources.path);
    whole.beside.reset();
    cell.layout = plan.part == BoardPart::test_piece ? test_piece_of(whole, plan.field, plan.size_mm) : whole;
    cell.geometry = geometry_key(changed, cell.layout);
    cell.light = light_key(changed);
    cell.colours = tree_text(changed);
    stand_before(cell.layout, plan);
    if (!switches_lamps(plan)) return cell;
    for (const BoardChoice* choice : {&row, &column})
        if (choice->lamps) cell.layout.views.pictures[0].lamps = names_of(whole.on, *choice->lamps);
    for (Lamp& lamp : cell.layout.on.lamps) lamp.group = lamp.name;
    for (Window& window : cell.layout.on.windows) window.group = window.name;
    if (auto& round = cell.layout.on.all_round) round->group = round->name;
    return cell;
}

}  // namespace

std::vector<CellLayout> lay_out_cells(const Layout& layout, const BoardPlan& plan) {
    const YamlValue& tree = layout.sources.tree->root;
    std::vector<Problem> problems;
    const auto try_out = [&](const BoardChoice& row, const BoardChoice& column) {
        try {
            lay_out(tree, layout, plan, row, column);
        } catch (const LayoutError& error) {
            for (const Problem& p : error.problems())
                if (std::none_of(problems.begin(), problems.end(),
                                 [&](const Problem& q) { return to_string(p) == to_string(q); }))
                    problems.push_back(p);
        }
    };
    const BoardChoice as_it_is;
    for (const BoardChoice& row : plan.rows) try_out(row, as_it_is);
    for (const BoardChoice& column : plan.columns) try_out(as_it_is, column);
    if (plan.eye_mm > layout.room.depth_mm - 100)
        problems.push_back(
            {plan.place, "board.eye",
             fmt::format("found an eye {:.6g} mm in front of the part, expected one within the room, "
                         "which is {:.6g} mm deep",
                         plan.eye_mm, layout.room.depth_mm)});
    if (!problems.empty()) throw LayoutError(std::move(problems));
    std::vector<CellLayout> cells;
    for (const BoardChoice& row : plan.rows)
        for (const BoardChoice& column : plan.columns)
            cells.push_back(lay_out(tree, layout, plan, row, column));
    return cells;
}

void check_board(const Layout& layout) {
    if (!member_of(layout.sources.tree->root, "board")) return;
    BoardPlan plan;
    read_deliverable(layout, "board", [&](Section& in) { plan = read_board(in, layout); });
    lay_out_cells(layout, plan);
}

}  // namespace rakelight
