# From a drawing or a map of flat colours to outlines and guides.
target_sources(rakelight_scene PRIVATE
  colour_map.cpp
  drawn_field.cpp
  drawn_sheet.cpp
  map_colours.cpp
  map_outlines.cpp
  map_specks.cpp
  read_drawing.cpp
  svg_document.cpp
  svg_leftovers.cpp
  svg_names.cpp
  svg_number.cpp
  svg_pen.cpp
  svg_reader.cpp
  svg_shapes.cpp
  svg_viewport.cpp
  thinning.cpp)
target_link_libraries(rakelight_scene PRIVATE PkgConfig::lib2geom PkgConfig::pugixml PkgConfig::OpenImageIO)
