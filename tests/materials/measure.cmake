rakelight_test(gloss_test LIBS rakelight::materials)
rakelight_test(rendering_index_test LIBS rakelight::materials)
