# Pieces as small mirrors: what an eye is expected to see in them, and what to move.
target_sources(rakelight_scene PRIVATE
  adjacent_fields.cpp
  expected_glare.cpp
  lamp_parts.cpp
  lit_share.cpp
  move_stops.cpp
  small_mirror.cpp
  what_to_move.cpp)
