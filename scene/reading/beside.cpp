#include "scene/reading/beside.h"

#include <fmt/format.h>

#include "scene/model/layout.h"
#include "scene/room/hung_panel.h"
#include "scene/room/room_check.h"

namespace rakelight {
void read_beside(Section& file, Layout& layout,
                 const std::function<Layout(const std::filesystem::path&)>& read) {
    const YamlValue* value = file.find("beside");
    if (!value) return;
    Beside beside;
    Section in(*value, file, "beside");
    beside.place = in.place();
    in.require("layout", "the layout file of the other panel");
    const bool named = in.set(beside.file, "layout");
    in.set(beside.gap_mm, "gap");
    std::size_t side = 1;
    in.set_word(side, "side");
    beside.on_left = side == 0;
    std::size_t lit = 0;
    in.set_word(lit, "lamps");
    beside.lamps_lit = lit == 1;
    in.finish();
    if (!named) return;
    try {
        beside.layout = std::make_shared<const Layout>(
            read(std::filesystem::path(layout.sources.path).parent_path() / beside.file));
    } catch (const LayoutError& error) {
        in.problem("layout", "found a layout with problems, expected a sound one");
        for (const Problem& problem : error.problems())
            in.problems().add(problem.place, problem.key, problem.text);
        return;
    }
    const auto& files = beside.layout->sources.files;
    layout.sources.files.push_back(beside.layout->sources.path);
    layout.sources.files.insert(layout.sources.files.end(), files.begin(), files.end());
    layout.beside = std::move(beside);
}

void check_beside(Section& file, const Layout& layout) {
    if (!layout.beside || layout.panel.width_mm <= 0) return;
    const HungPanel panel = hung_panels(layout).back();
    const glm::dvec2 half = outer_half_mm(panel.layout->panel, layout.panel.lean_deg);
    const Room& room = layout.room;
    if (std::abs(panel.centre_mm.x) + half.x > room.width_mm / 2)
        file.problem("beside",
                     fmt::format("found a panel out to {:.6g} mm from the middle, expected it on the "
                                 "wall, {:.6g} mm to each side",
                                 std::abs(panel.centre_mm.x) + half.x, room.width_mm / 2));
    if (panel.centre_mm.y < half.y || panel.centre_mm.y + half.y > room.height_mm)
        file.problem("beside",
                     fmt::format("found a panel {:.6g} mm high round {:.6g} mm, expected it between "
                                 "floor and ceiling",
                                 2 * half.y, panel.centre_mm.y));
}

void light_beside(Section& file, Layout& layout) {
    if (!layout.beside || !layout.beside->lamps_lit || layout.panel.width_mm <= 0) return;
    const Layout& other = *layout.beside->layout;
    const double aside_mm = hung_panels(layout).back().centre_mm.x;
    const double raised_mm = layout.panel.centre_height_mm - other.panel.centre_height_mm;
    for (Lamp lamp : other.set_ups.front().lamps) {
        lamp.name += " beside";
        lamp.group += " beside";
        lamp.at_mm.x += aside_mm;
        lamp.aim_mm += glm::dvec3(aside_mm, raised_mm, 0);
        if (lamp.faces_mm) lamp.faces_mm->x += aside_mm;
        if (const std::string text = why_not_free(lamp.at_mm, layout); !text.empty())
            file.problem("beside", lamp.name + " does not fit here: " + text);
        layout.on.lamps.push_back(std::move(lamp));
    }
}

}  // namespace rakelight
