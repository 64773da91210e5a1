rakelight_test(alike_test LIBS rakelight::renderer)
