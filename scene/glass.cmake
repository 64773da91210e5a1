target_sources(rakelight_scene PRIVATE read_glass.cpp read_treatment.cpp)
