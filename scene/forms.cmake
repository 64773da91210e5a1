# Pieces, stones and joints in the round.
target_sources(rakelight_scene PRIVATE form_lump.cpp joint_tint.cpp joint_weave.cpp lean.cpp piece_form.cpp read_setting.cpp rim.cpp stone_check.cpp)
