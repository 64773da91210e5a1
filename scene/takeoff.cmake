# What is bought, mixed, waited for and carried: volumes, grout zones, weight.
target_sources(rakelight_scene PRIVATE
  cautions.cpp
  day_plan.cpp
  fused_stacks.cpp
  grout_batch.cpp
  grout_regions.cpp
  grout_zones.cpp
  hanging_load.cpp
  laid_volumes.cpp
  piece_buckets.cpp
  purchase.cpp
  read_workshop.cpp
  solid.cpp
  stone_anchors.cpp
  take_off.cpp
  tint_recipes.cpp
  weighing.cpp
  working_hours.cpp
  zone_boundaries.cpp
  zone_order.cpp)
