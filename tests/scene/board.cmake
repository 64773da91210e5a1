rakelight_test(tree_override_test LIBS rakelight::scene)
rakelight_test(read_board_test LIBS rakelight::scene)
rakelight_test(side_wall_test LIBS rakelight::scene)
