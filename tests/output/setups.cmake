# Pictures of a layout in several lights.
rakelight_test(lit_pictures_test LIBS rakelight::output)
target_compile_definitions(lit_pictures_test PRIVATE RAKELIGHT_PROGRAM="$<TARGET_FILE:rakelight>")
add_dependencies(lit_pictures_test rakelight)
