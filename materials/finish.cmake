target_sources(rakelight_materials PRIVATE face_on.cpp finish.cpp glass_stack.cpp leaf.cpp metal.cpp wetting.cpp)
