target_sources(rakelight_scene PRIVATE
  boulders.cpp
  drawn_materials.cpp
  clipped_cells.cpp
  opera.cpp
  opus_classicum.cpp
  opus_fans.cpp
  opus_pebbles.cpp
  opus_sectile.cpp
  pebble_outline.cpp
  read_opus.cpp
  read_shapes.cpp
  rods.cpp
  star_parts.cpp)
