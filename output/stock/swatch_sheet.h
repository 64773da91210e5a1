// The stock sheet: every material and tint of a layout on pages of A4, one row each. A quiet page of neutral
// grey of lightness 55, so that swatches are judged against the same surround everywhere (sample boards:
// common practice, no published source).
#pragma once

#include <vector>

#include "materials/optics/material.h"
#include "output/paper/page.h"
#include "output/stock/report.h"

namespace rakelight {

inline constexpr double kSheet_px_per_mm = 10;  ///< 254 dots an inch

/// Where a swatch stands.
struct SwatchSpot {
    std::size_t entry = 0;
    std::size_t swatch = 0;
    std::size_t page = 0;
    PageBox box;
};

struct SwatchSheet {
    std::vector<Page> pages;
    std::vector<SwatchSpot> spots;  ///< all swatches of the report, in its order
};

/// Top of the scale of a reflectance plot: the lowest of 1, 2, 5, 10, 25, 50 and 100 % that holds the curve.
int plot_top_percent(const SampledSpectrum& reflectance);

/// "glass, translucent": what an entry is made of.
std::string kind_text(const Material& material);

/// "measured", "published", "measured from a photograph" or "invented".
std::string provenance_text(Provenance provenance);

SwatchSheet make_swatch_sheet(const StockReport& report);

}  // namespace rakelight
