rakelight_test(side_wall_surface_test LIBS rakelight::materials)
