# The stock sheet: lettering, pages, swatches. Words and lines are drawn by cairo.
pkg_check_modules(cairo REQUIRED IMPORTED_TARGET cairo)
target_sources(rakelight_output PRIVATE
  lettering.cpp
  page.cpp
  stock_json.cpp
  stock_report.cpp
  swatch_row.cpp
  swatch_sheet.cpp)
target_link_libraries(rakelight_output PRIVATE PkgConfig::cairo)
target_sources(rakelight PRIVATE command_stock.cpp)
