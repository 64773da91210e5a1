target_sources(rakelight_scene PRIVATE emitter.cpp joinery.cpp build_world.cpp world.cpp)
