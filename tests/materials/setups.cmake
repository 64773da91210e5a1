rakelight_test(pane_test LIBS rakelight::materials)
