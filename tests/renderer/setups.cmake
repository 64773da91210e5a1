# The camera's stance, mirrored lamps, and the analytic cases that validate light transport.
rakelight_test(camera_test LIBS rakelight::renderer)
rakelight_test(lean_glint_test LIBS rakelight::renderer)
rakelight_test(validation_cases_test LIBS rakelight::renderer)
