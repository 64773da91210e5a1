# Drawings and lists of a layout as laid.
target_sources(rakelight_output PRIVATE
  tracing_print.cpp
  tracing_svg.cpp
  printed_colour.cpp
  laying_drawing.cpp
  laying_json.cpp
  laying_layers.cpp
  laying_map.cpp
  laying_map_key.cpp
  laying_report.cpp
  map_label.cpp
  name_spot.cpp)
target_link_libraries(rakelight_output PRIVATE PkgConfig::pugixml)
target_sources(rakelight PRIVATE command_lay.cpp)
