# The page: every picture of a folder in one file that opens from disk. Its own parts lie in web/ as they are and
# are compiled in.
find_package(ZLIB REQUIRED)
set(RAKELIGHT_WEB_PARTS page.html page.css colour.js unpack.js halo.js print.js mix.js reading.js lamps.js
    compare.js start.js)
list(TRANSFORM RAKELIGHT_WEB_PARTS PREPEND ${CMAKE_CURRENT_SOURCE_DIR}/web/ OUTPUT_VARIABLE web_paths)
add_custom_command(
  OUTPUT ${CMAKE_CURRENT_BINARY_DIR}/web_parts.cpp
  COMMAND ${CMAKE_COMMAND} "-DPARTS=${web_paths}" -DINTO=${CMAKE_CURRENT_BINARY_DIR}/web_parts.cpp
          -P ${CMAKE_CURRENT_SOURCE_DIR}/web/compile_in.cmake
  DEPENDS ${web_paths} ${CMAKE_CURRENT_SOURCE_DIR}/web/compile_in.cmake
  VERBATIM)
target_sources(rakelight_output PRIVATE
  ${CMAKE_CURRENT_BINARY_DIR}/web_parts.cpp
  embedded_picture.cpp
  light_layers.cpp
  markup.cpp
  run_folder.cpp
  told_file.cpp
  web_board.cpp
  web_light.cpp
  web_page.cpp)
target_link_libraries(rakelight_output PRIVATE ZLIB::ZLIB)
target_sources(rakelight PRIVATE command_page.cpp)
