# Tints by recipe and measured pigments.
target_sources(rakelight_scene PRIVATE curve_file.cpp read_recipe.cpp supplies.cpp)
