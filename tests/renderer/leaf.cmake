rakelight_test(leaf_in_paths_test LIBS rakelight::renderer)
