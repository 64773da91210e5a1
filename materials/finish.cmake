target_sources(rakelight_materials PRIVATE finish.cpp glass_stack.cpp leaf.cpp metal.cpp wetting.cpp)
