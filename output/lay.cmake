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
  letter_shapes.cpp
  map_label.cpp
  name_spot.cpp)
target_sources(rakelight PRIVATE command_lay.cpp)
