# Pictures of a layout in several lights.
rakelight_program_test(lit_pictures_test LIBS rakelight::output)
