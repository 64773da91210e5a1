// A photograph of a panel with the 24-patch chart in it, as light: the camera's tone curve is undone by the
// greys and its colours are brought to those of the chart, so that exposure and white are the chart's.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "materials/colour/colorimetry.h"
#include "materials/colour/spectrum.h"
#include "output/compare/panel_photograph.h"
#include "output/samples/spots.h"

namespace rakelight {

struct ByChart {
    PanelPhotograph photo;
    ChartCorners corners{};           ///< of the chart, px
    bool found = false;               ///< by itself
    std::vector<std::string> doubts;  ///< to be warned of
};

/// The light of a white, as far as its colour says: daylight from 5000 K on, a glowing body below.
Spectrum light_like(const Xyz& white);

/// `corners`: of dark skin, bluish green, black, white; none = the chart is searched. `light`: what lit the
/// panel and the chart. \throws RequestError naming the file or `--chart` when the picture or the chart
/// cannot be used.
ByChart read_by_chart(const std::filesystem::path& path, const std::optional<ChartCorners>& corners,
                      const Spectrum& light);

}  // namespace rakelight
