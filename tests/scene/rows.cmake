# Rows: where they run and how they are judged.
rakelight_test(edge_index_test LIBS rakelight::scene)
rakelight_test(keystone_test LIBS rakelight::scene)
rakelight_test(breaks_test LIBS rakelight::scene)
rakelight_test(row_measures_test LIBS rakelight::scene)
target_sources(row_measures_test PRIVATE row_measures.cpp)
rakelight_test(head_joints_test LIBS rakelight::scene)
target_sources(head_joints_test PRIVATE row_measures.cpp)
