// One row of the stock sheet, and the measures and inks that all of it shares.
#pragma once

#include <array>
#include <string>
#include <vector>

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

// Type.
inline constexpr double kName_mm = 3.4;
inline constexpr double kText_mm = 2.35;
inline constexpr double kCaption_mm = 2.0;
inline constexpr double kLine_mm = 3.7;

// Greys of L* 55, 8 and 97, as sRGB bytes.
extern const EncodedSrgb kPaper, kInk, kLight;

PageText plain(std::string text, const glm::dvec2& baseline_mm, Align align = Align::left);
PageText caption(std::string text, const glm::dvec2& baseline_mm, Align align = Align::left);

/// The same text made to fit: set smaller, down to half its size, then cut with an ellipsis.
PageText fitted(PageText text, double room_mm);

/// With a true minus, and none before zero.
std::string number(double value, int decimals);

double row_height_mm(const StockEntry& entry);

/// Sets the entry with its top at `y_mm`. \return where its swatches stand, in their order.
std::vector<PageBox> add_row(Page& page, const StockReport& report, const StockEntry& entry, double y_mm);

}  // namespace rakelight::sheet
