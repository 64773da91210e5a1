# The same work in other choices: overrides of a layout's tree, coupons, dressings.
target_sources(rakelight_scene PRIVATE
  board_choice.cpp
  board_layouts.cpp
  coupon.cpp
  dressing.cpp
  geometry_key.cpp
  read_board.cpp
  read_board_choice.cpp
  side_wall.cpp
  surface_shelf.cpp
  tree_override.cpp)
