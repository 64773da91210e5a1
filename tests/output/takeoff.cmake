rakelight_test(tiled_drawing_test LIBS rakelight::output)
rakelight_test(tracing_pdf_test LIBS rakelight::output)
rakelight_program_test(command_takeoff_test LIBS rakelight::output pugixml::pugixml nlohmann_json::nlohmann_json)
