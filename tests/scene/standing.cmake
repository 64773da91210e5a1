rakelight_test(joinery_test LIBS rakelight::scene)
rakelight_test(world_test LIBS rakelight::scene)
rakelight_test(scenes_test LIBS rakelight::scene)
