target_sources(rakelight_materials PRIVATE face_table.cpp layer.cpp stock.cpp surface.cpp tints.cpp)
target_link_libraries(rakelight_materials PRIVATE Boost::headers)
