# Pictures of a layout in several lights.
target_sources(rakelight_output PRIVATE lit_pictures.cpp)
target_sources(rakelight PRIVATE lit_rooms.cpp)
