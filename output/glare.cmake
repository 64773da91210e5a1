# Glare: what disturbs in a picture.
target_sources(rakelight_output PRIVATE
  glare_report.cpp
  glare_sheet.cpp
  guth.cpp
  luminance_map.cpp
  panel_glare.cpp
  seen_patches.cpp
  unified_glare.cpp)
target_sources(rakelight PRIVATE command_glare.cpp)
