target_sources(rakelight_renderer PRIVATE alike.cpp alike_paths.cpp alike_surfaces.cpp)
