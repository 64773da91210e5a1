rakelight_test(match_target_test LIBS rakelight::output)
rakelight_program_test(command_match_test LIBS rakelight::output nlohmann_json::nlohmann_json)
