# The take-off sheet, its lists, and templates at 1:1.
target_sources(rakelight_output PRIVATE
  laying_cartoon.cpp
  list_setter.cpp
  sheet_furniture.cpp
  take_off_csv.cpp
  take_off_json.cpp
  take_off_sheet.cpp
  take_off_weight.cpp
  take_off_words.cpp
  take_off_zones.cpp
  template_marks.cpp
  tile_furniture.cpp
  tiled_drawing.cpp
  pdf_file.cpp
  tracing_pdf.cpp
  zone_templates.cpp)
target_sources(rakelight PRIVATE command_takeoff.cpp)
