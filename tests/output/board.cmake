rakelight_test(eye_blur_test LIBS rakelight::output)
rakelight_test(board_numbers_test LIBS rakelight::board)
rakelight_test(board_render_test LIBS rakelight::board)
rakelight_program_test(command_board_test LIBS rakelight::output nlohmann_json::nlohmann_json PkgConfig::OpenImageIO)
