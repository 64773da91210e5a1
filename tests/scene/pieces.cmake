rakelight_test(csv_test LIBS rakelight::scene)
rakelight_test(piece_numbers_test LIBS rakelight::scene)
rakelight_test(piece_overlaps_test LIBS rakelight::scene)
rakelight_test(piece_table_test LIBS rakelight::scene nlohmann_json::nlohmann_json)
