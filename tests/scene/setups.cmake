# Named light and viewpoints.
rakelight_test(set_ups_test LIBS rakelight::scene)
rakelight_test(read_set_ups_test LIBS rakelight::scene)
rakelight_test(read_viewpoint_test LIBS rakelight::scene)
rakelight_test(lean_test LIBS rakelight::scene)
