find_package(pugixml REQUIRED)
rakelight_test(tracing_svg_test LIBS rakelight::output pugixml::pugixml)
rakelight_test(map_label_test LIBS rakelight::output)
rakelight_program_test(command_lay_test LIBS rakelight::output pugixml::pugixml nlohmann_json::nlohmann_json
               PkgConfig::OpenImageIO)
rakelight_test(name_spot_test LIBS rakelight::output)
rakelight_program_test(source_files_test LIBS rakelight::output nlohmann_json::nlohmann_json)
