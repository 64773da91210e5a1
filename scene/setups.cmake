# Named light and viewpoints: set-ups, eye heights, the camera's stance.
target_sources(rakelight_scene PRIVATE
  eye_heights.cpp
  known_set_ups.cpp
  lamp_placing.cpp
  read_set_ups.cpp
  read_viewpoint.cpp
  set_ups_of_lamps.cpp
  set_ups_of_windows.cpp
  viewpoint.cpp
  with_light.cpp)
