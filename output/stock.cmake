# The stock sheet: lettering, pages, swatches. Words are set by Pango, words and lines drawn by cairo.
pkg_check_modules(pangocairo REQUIRED IMPORTED_TARGET pangocairo)
target_sources(rakelight_output PRIVATE
  ink.cpp
  page.cpp
  painter.cpp
  stock_json.cpp
  stock_report.cpp
  swatch_row.cpp
  swatch_sheet.cpp
  type.cpp)
target_link_libraries(rakelight_output PRIVATE PkgConfig::pangocairo)
target_sources(rakelight PRIVATE command_stock.cpp)
