# What goes where within a field.
rakelight_test(mix_accents_test LIBS rakelight::scene)
rakelight_test(mix_assign_test LIBS rakelight::scene)
rakelight_test(mix_net_test LIBS rakelight::scene)
rakelight_test(mix_picture_test LIBS rakelight::scene PkgConfig::OpenImageIO)
rakelight_test(mix_position_test LIBS rakelight::scene)
rakelight_test(mix_shades_test LIBS rakelight::scene)
rakelight_test(read_mix_test LIBS rakelight::scene PkgConfig::OpenImageIO)
rakelight_test(reference_picture_test LIBS rakelight::scene PkgConfig::OpenImageIO)
