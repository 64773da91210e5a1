# Pictures of a layout in several lights.
rakelight_program_test(lit_pictures_test LIBS rakelight::output)
rakelight_test(lit_rooms_test LIBS rakelight::renderer)
target_sources(lit_rooms_test PRIVATE ${PROJECT_SOURCE_DIR}/output/lit_rooms.cpp)
