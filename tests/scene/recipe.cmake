rakelight_test(curve_file_test LIBS rakelight::scene)
rakelight_test(read_recipe_test LIBS rakelight::scene)
