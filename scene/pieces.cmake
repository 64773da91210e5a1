# The piece table: written, read back, and taken instead of laying.
find_package(nlohmann_json REQUIRED)
target_sources(rakelight_scene PRIVATE
  csv.cpp
  listed_pieces.cpp
  piece_facts.cpp
  piece_numbers.cpp
  piece_overlaps.cpp
  piece_rows.cpp
  piece_rows_csv.cpp
  piece_rows_json.cpp
  piece_table.cpp
  read_piece_table.cpp)
target_link_libraries(rakelight_scene PRIVATE nlohmann_json::nlohmann_json)
