rakelight_test(daylight_test LIBS rakelight::renderer)
