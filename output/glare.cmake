# Glare: what disturbs in a picture.
target_sources(rakelight_output PRIVATE
  bright_patches.cpp
  field_contrast.cpp
  glare_json.cpp
  glare_report.cpp
  glare_section.cpp
  glare_sheet.cpp
  guth.cpp
  luminance_map.cpp
  move_report.cpp
  move_section.cpp
  move_sheet.cpp
  move_words.cpp
  moved_layout.cpp
  panel_glare.cpp
  room_sketch.cpp
  seen_patches.cpp
  share_map.cpp
  sheet_parts.cpp
  sparks.cpp
  unified_glare.cpp)
target_sources(rakelight PRIVATE command_glare.cpp glare_look.cpp glare_move.cpp)
