rakelight_test(match_target_test LIBS rakelight::output)
rakelight_test(command_match_test LIBS rakelight::output nlohmann_json::nlohmann_json)
target_compile_definitions(command_match_test PRIVATE RAKELIGHT_PROGRAM="$<TARGET_FILE:rakelight>")
add_dependencies(command_match_test rakelight)
