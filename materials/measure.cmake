# What instruments would read: gloss meter, colour rendering.
target_sources(rakelight_materials PRIVATE gloss.cpp rendering_index.cpp rendering_index_samples.cpp)
target_link_libraries(rakelight_materials PRIVATE Boost::headers)
