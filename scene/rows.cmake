# Where rows run: guides, breaks.
target_sources(rakelight_scene PRIVATE breaks.cpp guide_tree.cpp head_joints.cpp phase_relaxation.cpp)
