# Light of measured lamps and of lamps that are bodies.
rakelight_test(measured_light_test LIBS rakelight::renderer)
rakelight_test(many_lamps_test LIBS rakelight::renderer)
