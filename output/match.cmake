# Pigments for a wanted colour.
target_sources(rakelight_output PRIVATE match_report.cpp match_target.cpp)
target_sources(rakelight PRIVATE command_match.cpp)
