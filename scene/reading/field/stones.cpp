#include "scene/reading/field/stones.h"

#include <fmt/format.h>

#include "scene/model/layout.h"

namespace rakelight {
namespace {}  // namespace

void read_stones(Section& file, Layout& layout, const Shelf& stock) {
    for_each_item(file, "stones", [&](Section& in) {
        PlacedStone stone;
        stone.place = in.place();
        stone.seed = layout.stones.size() + 1;
        if (in.require("material", "the name of a material"))
            stone.material = set_material(in, "material", "", stock, layout.stock).value_or(0);
        in.require("at", "the stone's centre [x, y] on the panel");
        if (in.set(stone.at_mm, "at") && layout.panel.width_mm > 0) {
            const glm::dvec2 p = stone.at_mm;
            if (p.x < 0 || p.y < 0 || p.x > layout.panel.width_mm || p.y > layout.panel.height_mm)
                in.problem("at",
                           fmt::format(
                               "found [{:.6g}, {:.6g}] off the panel, expected [0, 0] to [{:.6g}, {:.6g}] mm",
                               p.x, p.y, layout.panel.width_mm, layout.panel.height_mm));
        }
        in.set(stone.size_mm, "size");
        in.set(stone.turn_deg, "turn");
        in.set(stone.proud_mm, "proud");
        if (stone.proud_mm >= stone.size_mm.z)
            in.problem("proud",
                       fmt::format("found {:.6g} mm, expected less than the stone's height of {:.6g} mm",
                                   stone.proud_mm, stone.size_mm.z));
        size_t form = 0;
        if (in.set_word(form, "form")) stone.form = words_of(in.table(), "form")[form];
        in.set(stone.seed, "seed");
        layout.stones.push_back(std::move(stone));
    });
}

}  // namespace rakelight
