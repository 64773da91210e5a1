# Pieces as small mirrors, and what to move.
rakelight_test(lit_share_test LIBS rakelight::scene)
rakelight_test(lamp_parts_test LIBS rakelight::scene)
rakelight_test(small_mirror_test LIBS rakelight::scene)
rakelight_test(what_to_move_test LIBS rakelight::scene)
