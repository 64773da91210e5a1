#include "scene/keys/keys.h"

namespace rakelight::keys {

namespace {

constexpr const KeyTable* kTables[] = {
    &layout,     &panel,   &substrate,  &frame,     &division,     &stock,    &material,    &grain,
    &glint,      &seen,    &sheet,      &ladder,    &streaks,      &wisps,    &veins,       &crackle,
    &seeds,      &cords,   &veil,       &face,      &coating,      &film,     &sand,        &mottling,
    &tints,      &tint,    &doses,      &pigments,  &pigment,      &drawing,  &map_colours, &field,
    &outline,    &guide,   &curve,      &line,      &shares,       &shades,   &mix_picture, &most_of,
    &accent,     &lean,    &shape,      &halo,      &boulders,     &stone,    &beside,      &room,
    &window,     &door,    &furniture,  &daylight,  &all_round,    &lamp,     &barn_doors,  &honeycomb,
    &snoot,      &set_ups, &set_up,     &viewpoint, &walk_past,    &picture,  &board,       &test_piece,
    &board_part, &choice,  &choices,    &changes,   &swaps,        &glare,    &move,        &tracks,
    &track,      &sweep,   &kept_light, &portfolio, &shot_lights,  &close_up, &lens,        &stand_in,
    &walk,       &caption, &clips,      &clip_walk, &clip_dimming, &clip_day, &photographs, &photograph,
    &take_off,   &waste,   &hours,      &purchases, &purchase,     &zones,    &zone_wishes, &zone_wish,
    &hanging};

}  // namespace

std::span<const KeyTable* const> every_table() {
    return kTables;
}

}  // namespace rakelight::keys
