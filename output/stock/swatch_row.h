// One row of the stock sheet, and the measures that all of it shares.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "output/paper/ink.h"
#include "output/paper/page.h"
#include "output/stock/report.h"

namespace rakelight::sheet {

// Columns from the left edge of the page.
inline constexpr double kLeft_mm = 14;
inline constexpr double kFacts_mm = 75;
inline constexpr double kPlot_mm = 123;
inline constexpr double kLab_mm = 159;
inline constexpr double kRight_mm = 196;
inline constexpr std::array<double, 3> kLabColumns_mm{176.5, 186.5, kRight_mm};

double row_height_mm(const StockEntry& entry);

/// Sets the entry with its top at `y_mm`. \return where its swatches stand, in their order.
std::vector<PageBox> add_row(Page& page, const StockReport& report, const StockEntry& entry, double y_mm);

}  // namespace rakelight::sheet
