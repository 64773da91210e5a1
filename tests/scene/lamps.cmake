# Lamps: measured ones, their bodies, what is put before them.
rakelight_test(photometric_file_test LIBS rakelight::scene)
rakelight_test(photometric_errors_test LIBS rakelight::scene)
rakelight_test(photometric_mutation_test LIBS rakelight::scene)
rakelight_test(lamp_forms_test LIBS rakelight::scene fmt::fmt)
rakelight_test(lamp_cut_offs_test LIBS rakelight::scene)
rakelight_test(read_lamp_light_test LIBS rakelight::scene)
