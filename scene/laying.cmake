target_sources(rakelight_scene PRIVATE
  levels.cpp lattice.cpp lamp_called.cpp
  cells.cpp
  contour.cpp
  cutting.cpp
  edge_index.cpp
  flow.cpp
  form_piece.cpp
  heights.cpp
  joint_surface.cpp
  laying.cpp
  mixing.cpp
  opus.cpp
  opus_lines.cpp
  opus_palladianum.cpp
  opus_regulatum.cpp
  opus_rows.cpp
  polygon.cpp
  region.cpp
  region_plan.cpp
  relief.cpp
  row.cpp
  rows_of_flow.cpp
  stone_body.cpp)
