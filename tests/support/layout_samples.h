// Layout texts that several tests start from.
#pragma once

#include <string_view>

namespace rakelight {

inline constexpr std::string_view kSmallLayout =
    "panel: {size: [24 in, 18 in]}\n"
    "fields: [{name: all, mix: slate}]\n";

/// Uses every section and most keys.
inline constexpr std::string_view kFullLayout = R"(panel:
  name: Low tide
  size: [600, 450]
  seed: 7
  substrate: {material: cement-board, thickness: 12, bed thickness: 2.5}
  frame: {material: oak, width: 18, proud: 6, gap: 3}
stock:
  my-teal: {like: deep-teal, thickness: 5, tone spread: 20 %, on hand: 4000}
  cliff: {kind: stone, reflectance: [[400, 0.08], [550, 0.1], [700, 0.12]], density: 2.7, matte: 25, thickness: 10}
  bottle: {kind: glass, transmittance at 3 mm: [[400, 0.2], [550, 0.6], [700, 0.3]], milkiness: 0.1, thickness: 6}
tints:
  kelp-joint: {like: charcoal}
  wet-sand: {kind: cement, reflectance: [[400, .3], [700, .5]], texture: {contrast: 5 %, size: 1}}
fields:
  - name: foam
    outline: {smooth: [[100, 100], [300, 80], [320, 250], [120, 260]]}
    guides: [{smooth: [[0, 0], [100, 20], [200, 0]]}, [[0, 0], [600, 20]], {closed straight: [[0, 0], [90, 0], [0, 90]]}]
    opus: musivum
    piece: [12, 9]
    joint: 1.5
    rows at: 15
    halo: 2
    mix: {foam-white: 70 %, sky: 30 %}
    bed: wet-sand
    grout: kelp-joint
    zone: water
    recess: 1
    tilt: 2
    lippage: 0.5
  - name: rest
    mix: {my-teal: 0.5, bottle: 0.25, cliff: 0.25}
    accents: [{material: ruby, count: 3}]
    piece: 15
    grout: none
stones:
  - {material: pumice, at: [80, 60], size: [38, 30, 22], turn: 20, proud: 14, form: pebble}
room: {size: [5000, 6000, 3000], panel centre height: 1450, lean: 0}
lamps:
  - {name: left spot, group: spots, form: spot, at: [-900, 2900, 1100], aim: [0, 1450, 0], lumen: 700, beam angle: 24, field angle: 45, width: 50, temperature: 3000}
  - {name: strip, form: flat panel, at: [0, 2900, 900], aim: [0, 1450, 0], candela: 500, width: 600, height: 40, illuminant: F11}
  - {name: table lamp, form: bulb, at: [1.5 m, 800, 500], lumen: 400 lm, temperature: 2700 K, dimmed to: 50 %}
viewpoints:
  - {name: straight, distance: 1500, height: 1500, sideways: 0, view width: 760}
  - {name: low, eye: [800, 1150, 2000], look at: [0, 1400, 0]}
pictures:
  - {name: straight, viewpoint: straight, lamps: [spots], size: [1200, 900], exposure: grey-card, grain: 2 %, most samples: 512}
  - {name: low, viewpoint: low, lamps: [left spot, strip], ev: 7.5}
)";

/// Set-ups of light and every kind of viewpoint.
inline constexpr std::string_view kLightLayout = R"(panel: {size: [600, 450]}
fields: [{name: all, mix: aqua, lean towards: {lamp: candles, viewpoint: bench}}]
room: {size: [5000, 6000, 3000], windows: [{name: bay, wall: left, at: [1500, 900], size: [1000, 1200], panes: [2, 3]}]}
daylight: {sky: clear, date: 2026-03-20, time: "16:00", latitude: 52, facing: south}
light: [gallery spot, opening night, own light, sun patch, window behind]
set-ups:
  opening night:
    windows: []
    lamps: [{name: candles, form: bulb, at: [700, 1200, 500], lumen: 90, temperature: 2000}]
  noon: {lamps: [], daylight: {lux: 30000}}
viewpoints:
  - {name: bench, eyes: seated, distance: 1800, sideways: 400}
  - {name: past, eyes: standing, distance: 1500, walk past: {from: -1200, to: 1200, steps: 5}}
  - {name: catalogue, distance: 2400, sideways: 500, focal length: 85, perspective: square}
pictures:
  - {name: a, viewpoint: past, light: noon, lamps: [bay]}
  - {name: b, viewpoint: catalogue, lamps: [candles], size: [600, 900]}
)";

}  // namespace rakelight
