rakelight_test(area_mean_test LIBS rakelight::output)
rakelight_test(light_layers_test LIBS rakelight::output)
rakelight_test(markup_test LIBS rakelight::output nlohmann_json::nlohmann_json)
rakelight_test(run_folder_test LIBS rakelight::output)
rakelight_program_test(command_page_test LIBS rakelight::output)

# The page itself, in a browser: clicked, dragged, typed at, and its pixels read.
find_program(RAKELIGHT_CHROMIUM NAMES chromium REQUIRED)
find_program(RAKELIGHT_CHROMEDRIVER NAMES chromedriver REQUIRED)
find_program(RAKELIGHT_PYTHON NAMES python3 PATHS /usr/bin NO_DEFAULT_PATH REQUIRED)
add_test(NAME page_in_browser
  COMMAND ${RAKELIGHT_PYTHON} ${CMAKE_CURRENT_SOURCE_DIR}/page_in_browser.py $<TARGET_FILE:rakelight>
          ${PROJECT_SOURCE_DIR}/scenes ${RAKELIGHT_CHROMIUM} ${RAKELIGHT_CHROMEDRIVER})
set_tests_properties(page_in_browser PROPERTIES TIMEOUT 300)
