// The tables of keys of a layout file, one for each kind of mapping.
#pragma once

#include <span>

#include "scene/text/key_table.h"

namespace rakelight::keys {

/// Every table, the file itself first, each section followed by what stands in it.
std::span<const KeyTable* const> every_table();

// The file, the panel and its room.
extern const KeyTable layout, panel, substrate, frame, division, room, window, door, furniture, beside;
// Light.
extern const KeyTable daylight, all_round, set_ups, set_up, lamp, barn_doors, honeycomb, snoot;
// Materials.
extern const KeyTable stock, material, tints, tint, grain, glint, seen, sheet, ladder, doses, pigments,
    pigment;
extern const KeyTable streaks, wisps, veins, crackle, seeds, cords, veil, face, coating, film, sand, mottling;
// What is laid.
extern const KeyTable drawing, map_colours, field, curve, outline, line, guide, shape, lean, accent, halo,
    boulders, stone;
extern const KeyTable shares, shades, mix_picture, most_of;
// Views.
extern const KeyTable viewpoint, walk_past, picture;
// What is to be made of it.
extern const KeyTable board, test_piece, board_part, choice, choices, changes, swaps;
extern const KeyTable glare, move, tracks, track, sweep, kept_light;
extern const KeyTable portfolio, shot_lights, close_up, lens, stand_in, walk, caption;
extern const KeyTable clips, clip_walk, clip_dimming, clip_day;
extern const KeyTable photographs, photograph;
extern const KeyTable take_off, waste, hours, purchases, purchase, zones, zone_wishes, zone_wish, hanging;

/// Keys at the top of a layout file that the reader of the layout leaves to the commands.
inline constexpr std::array<std::string_view, 8> kDeliverables{
    "board", "glare", "portfolio", "clips", "in photographs", "take-off", "zones", "hanging"};

/// Wavelengths of measured materials and of spectra of lamps, nm; relative power.
inline constexpr Range kMaterial_nm{300, 1100}, kLamp_nm{200, 3000}, kPower{0, 1e12};

}  // namespace rakelight::keys
