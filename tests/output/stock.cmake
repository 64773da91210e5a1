rakelight_test(type_test LIBS rakelight::output)
rakelight_test(page_test LIBS rakelight::output)
rakelight_test(swatch_sheet_test LIBS rakelight::output nlohmann_json::nlohmann_json PkgConfig::OpenImageIO)
