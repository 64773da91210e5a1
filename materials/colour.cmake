target_sources(rakelight_materials PRIVATE
  ciede2000.cpp
  colorimetry.cpp
  colour_temperature.cpp
  illuminant_tables_daylight.cpp
  illuminant_tables_fluorescent.cpp
  illuminant_tables_led.cpp
  illuminants.cpp
  lamp_weights.cpp
  spectrum.cpp)
target_link_libraries(rakelight_materials PRIVATE Boost::headers)
