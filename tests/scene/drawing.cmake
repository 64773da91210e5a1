# Tests of the way from a drawing to outlines and guides.
rakelight_test(thinning_test LIBS rakelight::scene)
rakelight_test(svg_number_test LIBS rakelight::scene PkgConfig::pugixml)
rakelight_test(svg_viewport_test LIBS rakelight::scene PkgConfig::lib2geom PkgConfig::pugixml)
rakelight_test(svg_reader_test LIBS rakelight::scene)
rakelight_test(svg_errors_test LIBS rakelight::scene)
rakelight_test(svg_mutation_test LIBS rakelight::scene)
rakelight_test(colour_map_test LIBS rakelight::scene PkgConfig::OpenImageIO)
rakelight_test(read_drawing_test LIBS rakelight::scene PkgConfig::OpenImageIO)

# Run as `svg_fuzz -max_len=20000 FOLDER_OF_DRAWINGS`.
if(RAKELIGHT_FUZZ)
  add_executable(svg_fuzz svg_fuzz.cpp)
  target_link_libraries(svg_fuzz PRIVATE rakelight_habits rakelight::scene)
  target_compile_options(svg_fuzz PRIVATE -fsanitize=fuzzer)
  target_link_options(svg_fuzz PRIVATE -fsanitize=fuzzer)
endif()
