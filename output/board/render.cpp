#include "output/board/render.h"

#include <numbers>

#include "output/board/workshop.h"
#include "output/print/exposure.h"
#include "output/print/eye_blur.h"
#include "output/system/errors.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

const Field& main_field(const std::vector<Field>& fields, const std::string& name) {
    for (const Field& f : fields)
        if (f.name == name) return f;
    return fields.front();
}

void describe(BoardCell& cell, const Layout& layout, const BoardPlan& plan) {
    const Field& field = main_field(layout.fields, plan.field);
    const Material& tint = layout.tints[filling_of(field)];
    cell.grout = field.grout ? tint.name : "none";
    cell.filling = !field.grout               ? "open joints over " + tint.name
                   : tint.kind == Kind::epoxy ? "resin"
                                              : "cement";
    cell.joint_mm = field.joint_mm;
    cell.recess_mm = field.recess_mm;
}

bool is_light(const Xyz& lux) {
    return lux.x > 0 && lux.y > 0 && lux.z > 0;
}

bool same(const Xyz& a, const Xyz& b) {
    return a.x == b.x && a.y == b.y && a.z == b.z;
}

// For an eye that has adapted to a matte card under this light.
Developing developing_under(const Xyz& lux, std::optional<double> ev) {
    const double card_cd_per_m2 = card_luminance_cd_per_m2(lux.y);
    Developing how;
    how.ev100 = ev.value_or(ev100_of(card_cd_per_m2));
    how.light_white = {lux.x / lux.y, 1, lux.z / lux.y};
    how.adaptation = adaptation_degree(card_cd_per_m2);
    return how;
}

}  // namespace

Board render_board(const Layout& layout, const BoardPlan& plan, const BoardOptions& options) {
    const std::vector<CellLayout> layouts = lay_out_cells(layout, plan);
    Board board;
    const std::vector<CellFilm> films = trace_cells(layouts, plan.field, options, board.work);
    const std::size_t columns = plan.columns.size();
    const std::size_t reference = plan.reference_row * columns + plan.reference_column;
    if (!is_light(films[reference].illuminance))
        throw RequestError("no light falls on the board's reference cell; switch a lamp on");
    const Developing at_reference = developing_under(films[reference].illuminance, plan.ev);
    board.white = at_reference.light_white;
    board.ev100 = at_reference.ev100;
    for (std::size_t row = 0; row < plan.rows.size(); ++row)
        board.by_row |=
            !same(films[row * columns + plan.reference_column].illuminance, films[reference].illuminance);
    std::vector<CellLight> lights;
    for (std::size_t i = 0; i < films.size(); ++i) {
        if (options.cancelled && options.cancelled()) throw Cancelled{};
        const CellFilm& own = films[i];
        const Xyz& lux = own.illuminance;
        if (!is_light(lux)) throw RequestError("no light falls on a cell of the board; switch a lamp on");
        BoardCell cell;
        cell.row = i / columns;
        cell.column = i % columns;
        const BoardChoice &row = plan.rows[cell.row], &column = plan.columns[cell.column];
        cell.label = row.label + (row.label.empty() || column.label.empty() ? "" : ", ") + column.label;
        for (const BoardChoice* choice : {&row, &column}) {
            if (choice->lamps) cell.lamps = *choice->lamps;
            if (choice->distance_m) cell.distance_m = choice->distance_m;
        }
        describe(cell, layouts[i].layout, plan);
        cell.illuminance_lx = lux.y;
        const Xyz& of_row = films[i / columns * columns + plan.reference_column].illuminance;
        if (!is_light(of_row)) throw RequestError("no light falls on a cell of the board; switch a lamp on");
        const Developing how = developing_under(of_row, plan.ev);
        cell.ev100 = how.ev100;
        CellLight seen{&own.film,     own.seen,           {}, plan.size_mm.x / plan.width_px,
                       cell.joint_mm, own.of_pixels.get()};
        seen.white = {lux.x / std::numbers::pi, lux.y / std::numbers::pi, lux.z / std::numbers::pi};
        lights.push_back(seen);
        Film shown = own.film;
        if (cell.distance_m)
            shown.xyz[0] =
                seen_from(shown.xyz[0], shown.width, shown.height, seen.mm_per_px, *cell.distance_m);
        cell.print = develop(shown, how);
        board.cells.push_back(std::move(cell));
    }
    std::vector<CellNumbers> numbers = count_cells(lights);
    compare_cells(plan, numbers);
    for (std::size_t i = 0; i < numbers.size(); ++i) board.cells[i].numbers = numbers[i];
    return board;
}

}  // namespace rakelight
