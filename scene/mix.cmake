# What goes where within a field: even mixes, changing ones, pictures, accents, and the stock that must do.
target_sources(rakelight_scene PRIVATE
  mix_accents.cpp
  mix_assign.cpp
  mix_fields.cpp
  mix_net.cpp
  mix_picture.cpp
  mix_position.cpp
  mix_shades.cpp
  read_mix.cpp
  read_mix_picture.cpp
  read_mix_shift.cpp
  reference_picture.cpp)
target_link_libraries(rakelight_scene PRIVATE PkgConfig::OpenImageIO)
