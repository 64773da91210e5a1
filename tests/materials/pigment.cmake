rakelight_test(pigments_test LIBS rakelight::materials)
rakelight_test(recipe_test LIBS rakelight::materials)
rakelight_test(measured_pigment_test LIBS rakelight::materials)
rakelight_test(match_test LIBS rakelight::materials)
