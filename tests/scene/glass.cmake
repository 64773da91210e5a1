rakelight_test(read_treatment_test LIBS rakelight::scene)
