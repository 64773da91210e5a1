# Sample boards: cells traced together, their figures, the sheet.
add_library(rakelight_board STATIC board_caption.cpp board_json.cpp board_kinds.cpp board_numbers.cpp board_render.cpp
  board_sheet.cpp board_workshop.cpp)
add_library(rakelight::board ALIAS rakelight_board)
target_link_libraries(rakelight_board PUBLIC rakelight::output rakelight::renderer
                      PRIVATE fmt::fmt nlohmann_json::nlohmann_json TBB::tbb)
target_sources(rakelight_output PRIVATE eye_blur.cpp)
target_sources(rakelight PRIVATE command_board.cpp)
target_link_libraries(rakelight PRIVATE rakelight::board)
