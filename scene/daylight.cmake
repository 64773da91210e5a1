# Light from outside, windows, furniture, and a panel beside.
target_sources(rakelight_scene PRIVATE
  daylight_level.cpp
  furnishing_check.cpp
  hung_panel.cpp
  panel_frame.cpp
  read_beside.cpp
  read_daylight.cpp
  read_furnishing.cpp
  room_face.cpp
  sky.cpp
  sun_position.cpp
  window_bars.cpp
  window_light.cpp)
