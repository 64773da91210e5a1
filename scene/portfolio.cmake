# What a portfolio shows beside the panel, and what its section of the layout file says.
target_sources(rakelight_scene PRIVATE loft.cpp stand_in.cpp mock_up.cpp portfolio.cpp read_portfolio.cpp)
