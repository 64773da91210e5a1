# Lamps: measured ones, their bodies, what is put before them.
target_sources(rakelight_scene PRIVATE intensity_grid.cpp photometric_file.cpp photometric_words.cpp
               photometric_data.cpp photometric_symmetry.cpp cut_offs.cpp lamp_forms.cpp measured_lamp.cpp
               strip_lobe.cpp read_lamp_light.cpp)
