#include "scene/drawing/colour_map.h"

#include <fmt/format.h>

#include <stdexcept>
#include <utility>

#include "scene/drawing/map_outlines.h"
#include "scene/text/diagnostics.h"

namespace rakelight {

Drawing read_colour_map(const std::filesystem::path& path, const std::vector<MapColour>& colours,
                        const MapOptions& options) {
    Drawing drawing;
    drawing.file = path.string();
    drawing.traced = true;
    LabelMap map = read_map_colours(path, colours, options.width_mm, drawing.warnings);
    const double mm_per_px = options.width_mm / map.width;
    const auto tell = [&](std::string text) {
        drawing.warnings.push_back(to_string({{drawing.file, 0, 0}, "", std::move(text)}));
    };
    const double specks_px = options.specks_mm / mm_per_px;
    try {
        if (const auto given = merge_specks(map, specks_px * specks_px); given > 0)
            tell(fmt::format("found {} patches under {:g} x {:g} mm; they went to their neighbours", given,
                             options.specks_mm, options.specks_mm));
    } catch (const std::length_error&) {
        throw LayoutError({drawing.file, 0, 0}, "",
                          "found a map full of specks, expected areas of flat colour");
    }
    drawing.size_mm = mm_per_px * glm::dvec2(map.width, map.height);
    auto outlines = map_outlines(map, colours.size());
    for (std::size_t c = 0; c < colours.size(); ++c) {
        if (outlines[c].empty()) {
            tell(fmt::format("found nothing in the colour of {}", colours[c].name));
            continue;
        }
        DrawnPath drawn{{colours[c].name, ""}, -1, true, false, {}, colours[c].place};
        for (auto& ring : outlines[c]) {
            for (glm::dvec2& p : ring) p *= mm_per_px;
            drawn.lines.push_back({std::move(ring), true});
        }
        drawing.paths.push_back(std::move(drawn));
    }
    return drawing;
}

}  // namespace rakelight
