rakelight_test(lens_test LIBS rakelight::renderer)
rakelight_test(mock_up_test LIBS rakelight::renderer)
