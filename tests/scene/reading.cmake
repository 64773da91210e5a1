# Tests of the way from a layout file to a checked layout.
rakelight_test(nearest_word_test LIBS rakelight::scene)
rakelight_test(units_test LIBS rakelight::scene)
rakelight_test(stroke_test LIBS rakelight::scene)
rakelight_test(yaml_document_test LIBS rakelight::scene)
rakelight_test(read_cost_test LIBS rakelight::scene)
rakelight_test(read_stock_test LIBS rakelight::scene)
rakelight_test(layout_reader_test LIBS rakelight::scene)
rakelight_test(layout_errors_test LIBS rakelight::scene)
rakelight_test(deliverable_section_test LIBS rakelight::scene)
rakelight_test(layout_mutation_test LIBS rakelight::scene)

# Run as `layout_fuzz -max_len=20000 FOLDER_OF_LAYOUTS`.
if(RAKELIGHT_FUZZ)
  add_executable(layout_fuzz layout_fuzz.cpp)
  target_link_libraries(layout_fuzz PRIVATE rakelight_habits rakelight::scene)
  target_compile_options(layout_fuzz PRIVATE -fsanitize=fuzzer)
  target_link_options(layout_fuzz PRIVATE -fsanitize=fuzzer)
endif()
