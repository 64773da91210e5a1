# From a layout file to a checked layout.
target_sources(rakelight_scene PRIVATE
  defaults.cpp
  deliverable_section.cpp
  layout_reader.cpp
  nearest_word.cpp
  read_cost.cpp
  read_fields.cpp
  read_lamps.cpp
  read_panel.cpp
  read_spectrum.cpp
  read_stock.cpp
  read_stones.cpp
  read_strokes.cpp
  read_views.cpp
  room_check.cpp
  stroke.cpp
  summary.cpp
  units.cpp
  yaml_document.cpp
  yaml_reader.cpp)

# Coverage feedback for the fuzz target in tests/scene.
if(RAKELIGHT_FUZZ)
  target_compile_options(rakelight_scene PRIVATE -fsanitize=fuzzer-no-link)
endif()
