"""Layouts that together use every key that a layout file may have, and the files that they read."""
import struct
import zlib


def png(width, height, colour_at):
    rows = b"".join(
        b"\0" + b"".join(bytes(colour_at(x, y)) for x in range(width)) for y in range(height)
    )

    def chunk(name, data):
        body = name + data
        return struct.pack(">I", len(data)) + body + struct.pack(">I", zlib.crc32(body))

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")


FILES = {
    "map.png": png(60, 40, lambda x, y: (0x1F, 0x4A, 0x5A) if x < 30 else (0xF4, 0xF4, 0xF0)),
    # A scan, and the drawing found in it, kept beside it: sealed with what the scan and its keys in scan.yaml amount to.
    "page.ppm": b"P6 120 80 255\n" + b"\xff" * 120 * 38 * 3 + b"\x20" * 120 * 4 * 3 + b"\xff" * 120 * 38 * 3,
    "page-found.svg": b"""<!-- Found in a scan, 336ee65c2d81ef77 0000000000000000: give it another name before you edit it -->
<svg xmlns="http://www.w3.org/2000/svg" width="30mm" height="20mm" viewBox="0 0 30 20">
<g id="region-1"><path id="outline-1" fill="#eee" d="M0 10 30 10 30 20 0 20Z"/></g>
<g id="region-2"><path id="outline-2" data-name="spot red" fill="#eee" d="M0 10 30 10 30 0 0 0Z"/></g></svg>""",
    "wall.png": png(120, 90, lambda x, y: (230, 230, 230) if 40 <= x < 82 and 25 <= y < 55 else (150, 150, 150)),
    "front.png": png(120, 90, lambda x, y: (255, 255, 255) if y >= 80 else (0, 0, 0)),
    "tide.svg": b"""<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="200mm" viewBox="0 0 300 200">
<path id="sun" d="M180 60 L240 60 L240 110 L180 110 Z"/><path id="wave" d="M0 150 L300 140"/>
<path id="cloud" d="M120 20 L160 20 L160 45 L120 45 Z"/><path id="moon" d="M30 30 L70 30 L70 70 L30 70 Z"/></svg>""",
    "blue.csv": b"nm,weak,strong\n" + b"".join(b"%d,0.42,0.2\n" % nm for nm in range(380, 741, 20)),
    "lamp.csv": b"400,0.2\n550,1\n700,0.6\n",
    "lamp.ies": b"IESNA:LM-63-2002\nTILT=NONE\n1 -1 1 3 1 1 2 0 0 0\n1 1 20\n0 45 90\n0\n1000 500 0\n",
    "hall.hdr": b"#?RADIANCE\nFORMAT=32-bit_rle_rgbe\n\n-Y 16 +X 32\n" + bytes([128, 120, 110, 129]) * 512,
    "glass.yaml": b"stock: {shared: {like: aqua, thickness: 5}}\n",
    "other.yaml": b"panel: {size: [200, 200]}\nfields: [{name: all, mix: slate, piece: 20}]\n",
}

LAYOUTS = {}

LAYOUTS["drawn.yaml"] = """
units: metric
stock from: glass.yaml
panel:
  name: Drawn
  size: [300, 200]
  seed: 7
  substrate: {material: cement-board, thickness: 1/2 in, bed thickness: 2.5}
  frame: {material: oak, finish: oiled, width: 18, proud: 6 mm, gap: 3}
""".replace("1/2 in", "0.5 in") + """
pigments:
  my-blue: {curves: blue.csv, base: white-cement, weak: 1 %, strong: 8 %, density: 4.2, most in cement: 9 %, most in epoxy: 5 %}
  my-grey: {weak from: weak-grey, strong from: strong-grey, base: white-cement, weak: 1 %, strong: 8 %}
stock:
  weak-grey: {kind: cement, reflectance: 40 %, uncertainty: 1 %}
  strong-grey: {kind: cement, reflectance: 20 %, uncertainty: [[400, 0.01], [700, 0.005]]}
  my-teal: {like: deep-teal, thickness: 5, tone spread: 20 %, on hand: 4000, cost: 38 per kg, provenance: measured from a photograph, measured on: "2026-11-27", colour range: [1.2, 1.5, 1.4]}
  lagoon: {like: ruby, looks: "#7a2f3c over white at 3 mm", glint: {width: 30 mm, lamp: 60, lamp distance: 1500, camera distance: 600}}
  ebb: {like: aqua, looks: {picture: map.png, rectangle: [4, 4, 10, 8], over: white, thickness: 3 mm}}
  cliff: {kind: stone, reflectance: [[400, 0.08], [550, 0.1], [700, 0.12]], density: 2.7, matte: 25, thickness: 10, pores: 20 %, finish: [tumbled, sealed]}
  bottle: {kind: glass, transmittance at 3 mm: [[400, 0.2], [550, 0.6], [700, 0.3]], milkiness: [[400, 0.12], [700, 0.08]], index: 1.5, ripple: 1, ripple size: 9}
  brass: {like: jet, leaf: gold, leaf roughness: 0.1, roughness: 0.2, sheen stretch: 3}
  gilded: {like: clear, leaf: silver, leaf depth: 2}
  fused: {stack: [{glass: clear, thickness: 3}, {glass: aqua, thickness: 3}], firing: dammed}
  sea: {ladder: {from: deep-teal, to: aqua, steps: 3}}
  cinder: {like: slag, glassy share: 20 %, glassy index: 1.6, glassy roughness: 0.1, glassy spot: 5, finish: waxed}
  drawn-out: {like: aqua, streaks: {of: opal, share: 30 %, size: 9, length: 120}, wisps: {of: opal, share: 10 %, size: 14, length: 30}, seeds: {size: 1, per cm2: 3}, cords: {contrast: 20 %, size: 2}, veil: {haze: 8 %, share: 40 %, size: 15}, face: {pattern: hammered, size: 7, slope: 6 deg}, coating: {kind: dichroic, nm: 600, pairs: 3, uneven: 10 %, size: 40}}
  marble: {like: limestone, veins: {of: basalt, share: 8 %, size: 40, length: 60}, crackle: {of: basalt, share: 4 %, size: 5}}
  bloomed: {like: jet, coating: {layers: [{index: 1.38, nm: 100}]}}
  mortar: {base: grey-cement, pigments: {PB28: 2 %}, cement share: 35 %}
  varnish: {base: clear-epoxy, pigments: {PG18: 0.3 %}, thickness: 2, over: 40 %}
tints:
  kelp-joint: {like: charcoal, finish: sealed, sand: {size: 0.4, contrast: 10 %}, meniscus: 0.6, mottling: {contrast: 3 %, size: 60}}
  rose-joint: {like: sand, looks: "b08a80", uncertainty: 1 %}
  wet-sand: {kind: cement, reflectance: 0.4, texture: {contrast: 5 %, size: 1, stretch: 2}, thickness: 4, density: 1.9, cost: 12 per m2}
  lacquer: {kind: epoxy, reflectance: 30 %, glint: {width: 100, lamp: 60, lamp distance: 1500, camera distance: 600}}
  glazed: {kind: epoxy, transmittance at 2 mm: 0.5, milkiness: 0.2, index: 1.5, roughness: 0.1, sheen stretch: 1, ripple: 0, ripple size: 8, tone spread: 0, on hand: 9, matte: 0, provenance: measured, measured on: "2026-11-26", colour range: [0.3, 0.3, 0.3], glassy share: 0, glassy index: 1.5, glassy roughness: 0.1, glassy spot: 6}
  deep: {base: white-cement, pigments: {my-blue: 1 %, PBk11: 0.2 %}, cement share: 40 %, pores: 10 %}
  film: {base: clear-epoxy, pigments: {PG18: 0.3 %}, thickness: 2, over: 40 %}
drawing: {file: tide.svg, width: 300 mm, tolerance: 0.05}
fields:
  - {name: sun, opus: vermiculatum, piece: 9, joint: 1, mix: {foam-white: 70 %, sky: 30 %}, bed: wet-sand, grout: kelp-joint, zone: water}
  - {name: second, drawn: moon, opus: sectile, joint: 0.4, mix: brass, grout: none, shapes: [[[32, 132], [50, 132], [40, 150]], {straight: [[52, 132], [68, 132], [60, 150]]}, {outline: {smooth: [[35, 155], [60, 155], [50, 168]]}, material: gilded}]}
  - name: sea
    outline: {straight: [[0, 0], [300, 0], [300, 100], [0, 100]]}
    guides: [{drawn: wave}, {smooth: [[0, 10], [300, 20]]}, {closed straight: [[0, 0], [90, 0], [0, 90]]}, {closed smooth: [[10, 0], [90, 0], [0, 90]]}]
    breaks: [{straight: [[150, 0], [150, 100]]}]
    opus: musivum
    seam: mitre
    rows: along
    rows at: 15 deg
    halo: 1
    piece: [14, 10]
    joint: 1.5
    recess: 1
    wash: 5 %
    thickness: 6
    form: nipped
    setting: direct
    tilt: 2
    lippage: 0.5
    tilt patch: 200
    dome: 0.5
    lean towards: {lamp: spot, viewpoint: straight}
    lean by: 8
    mix: {shades: sea, along: 1, over: [10 %, 90 %], blend: 80 %}
    accents: {material: ruby, count: 3}
    boulders: {material: slag, count: 2, size: [16, 22], proud share: 40 %, form: pebble}
  - {name: sky, outline: {drawn: cloud}, mix: fused, piece: 12, lean towards: {point: [0, 1500, 2000]}, fill: 60 %}
  - {name: fan, opus: fans, fan: 120, piece: 12, outline: [[0, 100], [150, 100], [150, 130], [0, 130]], mix: {shades: [aqua, {sky: 60 %, celadon: 40 %}], towards: 90}, grout: deep}
  - {name: shore, opus: pebbles, set: on edge, piece: [20, 10], joint: 3, outline: [[0, 170], [100, 170], [100, 200], [0, 200]], mix: {shades: [slate, pumice], away from: edge, at: [0, 10]}}
  - {name: crazy, opus: palladianum, sizes: [12, 30], joint: 2, outline: [[200, 150], [300, 150], [300, 200], [200, 200]], mix: slate}
  - {name: rest, mix: {shades: [slate, pumice], across: {straight: [[0, 0], [300, 200]]}, at: [-50, 50]}, piece: 15, accents: [{material: ruby, count: 2}]}
stones:
  - {material: pumice, at: [270, 170], size: [38, 30, 22], turn: 20, proud: 14, form: pebble, seed: 3}
beside: {layout: other.yaml, gap: 50, side: left, lamps: lit}
room:
  size: [5000, 6000, 3000]
  wall: warm-grey
  left wall: gallery-white
  right wall: gallery-white
  opposite wall: gallery-white
  panel wall: gallery-white
  floor: concrete
  ceiling: gallery-white
  panel centre height: 1450
  lean: 2 deg
  windows:
    - {name: bay, group: day, wall: left, at: [1500, 900], size: [1000, 1200], curtain: sheer, transmittance: 50 %, lux: 8 klx, dimmed to: 80 %, panes: [2, 3], bar: 30, bar material: gallery-white}
  wall finish: stippled
  boards: 120
  skirting: 80
  joinery: gallery-white
  doors:
    - {name: hall, wall: right, at: 3000, size: [830, 2030], material: oak, handle: deep-grey}
  furniture:
    - bench
    - {name: stand, form: table}
    - {name: chest, at: [1800, 0, 1500], size: [400, 500, 400], material: oak}
daylight: {sky: clear, date: 2026-03-20, time: 16:00, latitude: 52, longitude: 4.9, utc offset: 1, facing: south, lux: 20000, sun: 30000, temperature: 9000, ground: 15 %}
set-ups:
  night: {windows: [], lamps: [{name: spot, form: bulb, at: [0, 2500, 1500], lumen: 900}]}
  noon: {lamps: [], daylight: {facing: 90, lux: 30000}}
  hall: {lamps: [], light all round: {picture: hall.hdr, unit: 40, turned: 20 deg, dimmed to: 90 %, name: hall, group: hall}}
light: own light
lamps:
  - {name: spot, group: spots, form: spot, at: [-800, 2900, 1100], aim: [0, 1450, 0], turn: 10, lumen: 700, beam angle: 24, field angle: 45, width: 50, temperature: 3000, dimmed to: 60 %, barn doors: {length: 80, left: 20, right: 20, top: 45, bottom: 30}}
  - {name: soft, at: [800, 2900, 1100], aim: [0, 1450, 0], candela: 900, illuminant: LED-B3, honeycomb: {cell: 6, depth: 12}, snoot: {length: 90, width: 70}}
  - {name: wash, form: strip, at: [0, 2950, 900], faces: [0, 0, 900], aim: [0, 1400, 0], length: 1200, width: 30, beam angle: 50, lumen: 1800, spectrum: lamp.csv}
  - {name: lamp, form: lantern, at: [1500, 1200, 900], lumen: 300, height: 300, spectrum: [[400, 0.1], [550, 1], [700, 0.8]]}
  - {name: row, form: bulb, at: [0, 2700, 2000], lumen: 200, grid: [2, 1], apart: [900, 600]}
  - {name: bought, photometry: lamp.ies, at: [800, 2800, 1400], aim: [0, 1450, 0]}
viewpoints:
  - {name: straight, distance: 1500, height: 1500, sideways: 0, view width: 760}
  - {name: low, eye: [800, 1150, 2000], look at: [0, 1400, 0]}
  - {name: past, eyes: seated, distance: 1800, walk past: {from: -1000, to: 1000, steps: 3}, focal length: 85, perspective: square}
pictures:
  - {name: a, viewpoint: straight, lamps: [spots], size: [120, 90], exposure: adapted, grain: 2 %, most samples: 512, grain seed: 3}
  - {name: b, viewpoint: low, light: night, ev: 7.5}
board:
  title: Grouts
  test piece: {field: sea, size: 60}
  rows: {grout: [white, sand]}
  columns:
    - {bed: ivory, joint: 2, recess: 1, finish: sealed, light: own light, lamps: [spots], distance: 2000, set: {fields.sea.tilt: 3}, swap: {ruby: coral}, label: first}
    - {grout: charcoal, label: second}
  reference: second
  aim: blend
  viewing distance: 900
  pixels: 100
  cells per line: 2
  grain: 5 %
  most samples: 16
  ev: 6
glare:
  bright ratio: 12
  dazzling ratio: 60
  patch ratio: 1.2
  bright spot: 2
  veil ratio: 1.4
  surround: 1
  least: 40
  rating: 19
  sparkles: [5, 30]
  contrast: [[sun, sea]]
  move:
    lamps: {spot: {from: [-900, 2900, 1100], to: [-400, 2900, 1100], aim: along}, soft: {aim: {from: [0, 1450, 0], to: [100, 1500, 0]}}}
    lean: [0, 4]
    height: [1400, 1500]
    keep: {lux: [50, 5000], evenness: 20 %}
portfolio:
  show: [straight, details, in place]
  light: {straight: own light}
  general light: 80 lx
  print: 100 mm
  dpi: 60
  grain: 5 %
  most samples: 16
  details: [{at: [150, 100], width: 80}]
  lens: {focal length: 90, f-number: 8}
  scale figures: [{what: figure, at: [1300, 940], turn: 35, height: 1700}]
  walk past: {from: -1000, to: 1000, steps: 3, distance: 1800, height: 1600}
  caption: {title: Drawn, artist: a maker, year: 2026, materials: glass, edition: unique, inventory: T-1, price: on request, site: a hall, client: a house, credit: the maker, statement: Water., date: 2026-11-27}
clips:
  seconds: 2
  frames a second: 30
  size: [64, 36]
  grain: 20 %
  most samples: 4
  viewpoint: straight
  walk past: {from: -800, to: 900, distance: 1700, height: 1550}
  dimmed: {lamps: [spot], to: 10 %}
  day: {from: 9, to: 16.5}
in photographs:
  hall: {picture: wall.png, sheet: A4 lying, corners: [[40, 25], [82, 25], [82, 55], [40, 55]], panel centre: [50 mm, 20], focal length: 28, light: own light, white: 80 %, exposure by: wall, mask: front.png, width: 100, samples: 4}
  stair: {picture: wall.png, sheet: [420, 300], corners: [[40, 25], [82, 25], [82, 55], [40, 55]], focal length: 26 , light from: [20 deg, 40], light share: 50 %, light across: 30}
take-off:
  hand: usual
  waste: {sheet glass: 22 %, smalti: 15 %, stone: 20 %, pebbles: 40 %, slag: 30 %, beads: 8 %, curves: 10 %}
  spare: 3 %
  least spare: 10
  sheet: [300, 300]
  bag: 5 kg
  buy: {aqua: {sheet: [250, 500], waste: 30 %}, slate: {bag: 10 kg}}
  bed waste: 12 %
  bed rise: 33 %
  hours: {musivum: [80, 160]}
zones:
  waste: 20 %
  small waste: 50 %
  spare grout: 250 g
  water: 25 %
  largest batch: 2 kg
  pre-seal: yes
  order: [[water, deep]]
  each: {water: {waste: 40 %, water: 22 %, spare grout: 100 g}}
  paper: A4
  overlap: 12 mm
  tape: 30 mm
hanging:
  gap: 12 mm
  points apart: 200 mm
  lever: 150 mm
  safety factor: 4
  struts: 1
  strut: [45, 20]
  strut density: 500
  place: [over a sleeping place]
"""

LAYOUTS["scan.yaml"] = """
panel: {size: [300, 200]}
drawing: {scan: page.ppm, paper: [30, 20], corners: [[0, 0], [120, 0], [120, 80], [0, 80]], width: 300, gaps: 1, specks: 2, outlines: black}
fields:
  - {name: high, outline: {scan spot: red}, piece: 12, mix: slate}
  - {name: low, outline: {scan at: [[20, 20], [40, 20]]}, piece: 12, mix: aqua}
"""

LAYOUTS["map.yaml"] = """
panel: {size: [300, 200]}
drawing: {areas: map.png, width: 300, specks: 2, colours: {sea: "#1f4a5a", foam: "#f4f4f0"}}
fields:
  - {name: sea, piece: 12, mix: {picture: map.png, from: [slate, coral], at most: {coral: 120}, place: field, error diffusion: 40 %, elsewhere: slate}}
  - {name: foam, piece: 12, opus: classicum, halo: {rows: 1, round: sea, panel edge: yes}, mix: {picture: map.png, from: aqua, place: [0, 0, 300]}}
board: {part: {at: [10, 10], size: [50, 40], field: sea}, columns: {light: [own light, dusk]}}
"""

LAYOUTS["lines.yaml"] = """
panel: {size: [12 in, 8 in]}
fields:
  - {name: all, piece: 12, opus: musivum, guides: [[[0, 100], [300, 120]]], mix: {shades: [slate, jet], along: {smooth: [[0, 0], [200, 100]]}}}
board: {around: all, margin: 5, rows: {joint: [1, 2]}, columns: {recess: [0.5, 1]}}
light: [own light, dusk]
hanging: {place: stairs}
"""

for number, (word, choices) in enumerate(
    {"bed": "[white, sand]", "finish": "[cured, sealed]", "lamps": "[spots, [left spot, right spot]]",
     "distance": "[2000, 4 m]"}.items()
):
    LAYOUTS[f"board-{number}.yaml"] = f"""
panel: {{size: [300, 200]}}
fields: [{{name: all, piece: 15, mix: aqua}}]
board: {{test piece: {{size: [60, 50]}}, columns: {{{word}: {choices}}}}}
"""

LAYOUTS["changed.yaml"] = """
like: other.yaml
panel: {seed: 4}
fields:
  - {name: all, opus: musivum, guides: [[[0, 100], [200, 120]]], mix: {shades: [slate, jet], along: {closed smooth: [[20, 20], [180, 20], [100, 150]]}}}
"""

LAYOUTS["ring.yaml"] = """
panel: {size: [200, 200]}
stock:
  speckled: {like: slate, texture: {contrast: 5 %, size: 2}}
fields:
  - {name: all, piece: 20, mix: {shades: [speckled, jet], away from: {closed straight: [[20, 20], [180, 20], [100, 150]]}, at: [0, 50]}}
"""

LAYOUTS["round.yaml"] = """
panel: {size: [300, 200]}
fields: [{name: all, piece: 15, mix: aqua}]
light all round: {picture: hall.hdr, lux: 180}
"""

LAYOUTS["divided.yaml"] = """
panel: {size: [300, 200], divided: {at: [100, 200], gap: 8, panels: [left, middle, right]}}
fields: [{name: all, piece: 15, mix: aqua}]
"""

LAYOUTS["in-two.yaml"] = """
panel: {size: [12 in, 200], divided: {at: 6 in, panels: [left, right]}}
fields: [{name: all, piece: 15, mix: aqua}]
"""

LAYOUTS["laid.yaml"] = """
panel: {size: [300, 200]}
fields: [{name: all, piece: 15, mix: aqua}]
pieces: pieces.csv
"""
