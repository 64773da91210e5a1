rakelight_test(stand_in_test LIBS rakelight::scene)
rakelight_test(read_portfolio_test LIBS rakelight::scene)
