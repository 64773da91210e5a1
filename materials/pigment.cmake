# Recipes of tints, and the search for them.
find_package(NLopt REQUIRED)
target_sources(rakelight_materials PRIVATE match.cpp measured_pigment.cpp pigments.cpp recipe.cpp)
target_link_libraries(rakelight_materials PRIVATE NLopt::nlopt)
