#!/usr/bin/env python3
"""What the commands write, held against the schemas of output/manual/schemas by an independent validator (JSON Schema
draft 2020-12), and the tables of output/manual/files.md against the schemas and against what is written.

written_files_test.py PROGRAM ROOT
"""
import csv
import json
import math
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

import jsonschema

PROGRAM, ROOT = sys.argv[1], pathlib.Path(sys.argv[2])
MANUAL = ROOT / 'output/manual'
PAGE = (MANUAL / 'files.md').read_text()
SCHEMAS = {s['title']: s for s in (json.loads(f.read_text()) for f in sorted((MANUAL / 'schemas').glob('*.json')))}

LAYOUT = '''
panel: {name: Shelf, size: [120, 80], frame: {material: oak, width: 10}}
stock:
  thin: {like: deep-teal, thickness: 2, measured on: 2026-11-27, colour range: [1, 2, 1.5]}
  priced: {like: aqua, cost: 120 per m2}
fields:
  - {name: sun, outline: [[70, 20], [110, 20], [90, 60]], opus: musivum, piece: 8, joint: 1, mix: coral, bed: white,
     grout: sand, zone: bright}
  - {name: sea, opus: regulatum, piece: 9, joint: 1.2, mix: {thin: 60 %, priced: 40 %}, accents: {material: ruby, count: 2}, bed: white, grout: charcoal,
     zone: dark}
stones:
  - {material: pumice, at: [25, 25], size: [34, 30, 26], proud: 20}
room: {size: [4000, 4000, 2700], panel centre height: 1450}
lamps:
  - {name: spot, at: [500, 2600, 900], aim: [0, 1450, 0], lumen: 600, beam angle: 30}
viewpoints:
  - {name: straight, distance: 1200, height: 1500, view width: 200}
board: {test piece: {field: sea, size: 60}, columns: {grout: [white, sand, mid-grey, black, none]}, aim: blend, rows: {lamps: [spot]}}
'''

RUNS = [
    'preview shelf.yaml --size 32x24 --most-samples 2',
    'preview shelf.yaml --size 32x24 --most-samples 2 --light dusk',
    'stock shelf.yaml',
    'lay shelf.yaml',
    'take-off shelf.yaml',
    'glare shelf.yaml --most-samples 2 --move',
    'board shelf.yaml --pixels 64 --most-samples 2',
    'portfolio shelf.yaml --dpi 36 --most-samples 1 --show straight',
    'preview shelf.yaml --size 160x120 --most-samples 4 --into large',
    'compare large/shelf/straight.png large/shelf/straight.exr --corners 32,28 128,28 128,92 32,92 --layout shelf.yaml',
    'study large/shelf/straight.exr --layout shelf.yaml --reference large/shelf/straight.png',
    'samples mine.yaml',
    'model shelf.yaml --detail 1',
    'clip shelf.yaml --only dimmed --size 32x18 --seconds 0.2 --most-samples 1',
    'preview hung.yaml --picture foyer',
    'portfolio hung.yaml --dpi 36 --most-samples 1',
    'batch shelf.yaml --size 32x32 --most-samples 2 --parts 2 --page --on slurm --dry-run',
]

# The shelf in a photograph of its wall: grey, with a white sheet as a lens of 40 mm sees it 1.2 m away.
HUNG = '''
like: shelf.yaml
portfolio: {show: [straight]}
in photographs:
  foyer: {picture: wall.ppm, sheet: [100, 60], corners: [[66, 50], [134, 50], [134, 90], [66, 90]], focal length: 40, samples: 1}
'''
WALL = b'P6 200 140 255\n' + b''.join(bytes([230 if 66 <= x < 134 and 50 <= y < 90 else 150]) * 3
                                      for y in range(140) for x in range(200))

# A photograph of the chart and of a grey sample beside it, by three channels that are humps over wavelength.
SAMPLES = '''
date: 2026-11-27
photographs:
  - picture: chart.ppm
    chart: {corners: [[0, 0], [130, 0], [130, 86], [0, 86]]}
    samples:
      - {name: slab, rectangle: [140, 20, 40, 40]}
      - {name: pane, rectangle: [185, 20, 40, 40], over: white}
samples: {slab: {kind: stone}, pane: {kind: glass, thickness: 3}}
'''


def photograph():
    with (ROOT / 'tests/data/chart24_reflectance.csv').open(newline='') as file:
        rows = list(csv.reader(line for line in file if not line.startswith('#')))[1:]

    def seen(curve, middle):
        weights = [math.exp(-((nm - middle) / 35) ** 2 / 2) for nm in range(400, 701, 10)]
        return sum(w * r for w, r in zip(weights, curve)) / sum(weights)

    def byte(light):
        return round(255 * (12.92 * light if light <= 0.0031308 else 1.055 * light ** (1 / 2.4) - 0.055))
    patches = [bytes(byte(0.9 * seen([float(v) for v in row[13:]], nm)) for nm in (600, 540, 450)) for row in rows]
    grey = bytes([byte(0.3)] * 3)

    def pixel(x, y):
        column, row = x // 22, y // 22
        return patches[6 * row + column] if x % 22 < 20 and y % 22 < 20 and column < 6 and row < 4 else grey
    return b'P6 230 86 255\n' + b''.join(pixel(x, y) for y in range(86) for x in range(230))


# Of many layouts, whose jobs have scene hashes of their own.
OF_MANY = ('rakelight tasks', 'rakelight status')


# The layouts that are shipped, where a command makes of them what the small one does not: stacks to fuse, several
# zones, placed stones, shades.
SHIPPED = ['take-off {}/kelp.yaml', 'stock {}/kelp.yaml', 'take-off {}/high-tide.yaml',
           'lay {}/high-tide.yaml --with faults', 'cut {}/opus-sampler.yaml']


def run(folder, words, codes=(0,)):
    done = subprocess.run([PROGRAM, *words.split()], cwd=folder, capture_output=True, text=True, check=False)
    if done.returncode not in codes:
        raise AssertionError(f'{words}: {done.returncode}\n{done.stderr}')
    return done.stdout


def keys_of(schema, defs, before=''):
    """Every path of a schema, as files.md writes it."""
    if '$ref' in schema:
        return
    for name, value in schema.get('properties', {}).items():
        path = before + name
        yield path, value
        yield from keys_of(value, defs, path + '.')
        items = value.get('items', {})
        if items.get('type') == 'array':
            yield path + '[]', items
        yield from keys_of(items, defs, path + '[].')


def table_of(title):
    """The keys of a table of files.md."""
    link = 'schemas/' + title.removeprefix('rakelight ') + '.schema.json'
    part = PAGE[PAGE.index(link):].split('\n## ')[0]
    return re.findall(r'^\| `([^`]+)` \|', part, re.MULTILINE)


class WrittenFiles(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = tempfile.TemporaryDirectory()
        cls.path = pathlib.Path(cls.folder.name)
        (cls.path / 'shelf.yaml').write_text(LAYOUT)
        (cls.path / 'mine.yaml').write_text(SAMPLES)
        (cls.path / 'hung.yaml').write_text(HUNG)
        (cls.path / 'wall.ppm').write_bytes(WALL)
        (cls.path / 'chart.ppm').write_bytes(photograph())
        for words in RUNS:
            run(cls.path, words)
        for words in SHIPPED:
            run(cls.path, words.format(ROOT / 'scenes'))
        cls.written = [(f.name, json.loads(f.read_text())) for f in sorted(cls.path.rglob('*.json'))]
        for words, codes in (('match --like storm-grey --json', (0,)), ('match --lab 60,90,60 --json', (2,)),
                             ('match --like thin --json --layout shelf.yaml', (0, 2)),
                             ('match --glass thin --lightness 30 --json --layout shelf.yaml', (0, 2)),
                             ('match --glass aqua --lab 45,-12,-4 --json', (0, 2)), ('check shelf.yaml --json', (0,)),
                             ('stock shelf.yaml --json', (0,)),
                             ('preview shelf.yaml --size 32x24 --most-samples 2 --estimate', (0,)),
                             ('status renders/shelf.tasks --json', (0,))):
            cls.written.append((words, json.loads(run(cls.path, words, codes))))

    @classmethod
    def tearDownClass(cls):
        cls.folder.cleanup()

    def test_every_json_is_valid(self):
        seen = set()
        for name, value in self.written:
            with self.subTest(name):
                self.assertIn(value.get('format'), SCHEMAS)
                seen.add(value['format'])
                errors = jsonschema.Draft202012Validator(SCHEMAS[value['format']]).iter_errors(value)
                self.assertEqual([f'{e.json_path}: {e.message}' for e in errors], [])
        self.assertEqual(seen, set(SCHEMAS), 'a schema that nothing is held against')

    def test_all_begin_alike(self):
        for name, value in self.written:
            with self.subTest(name):
                wanted = ['format', 'version', 'program', 'layout_file', 'scene_hash']
                if value['format'] == 'rakelight pieces':  # given back by hand, whatever wrote it
                    wanted.remove('program')
                self.assertEqual(list(value)[:len(wanted)], wanted)
                if value['format'] in OF_MANY:
                    self.assertIsNone(value['layout_file'])
                elif not name.startswith('match') or '--layout' in name:
                    self.assertTrue(value['layout_file'].endswith('.yaml'))
                    self.assertRegex(value['scene_hash'], '^[0-9a-f]{16}$')

    def test_one_scene_has_one_hash(self):
        hashes = {value['scene_hash'] for _, value in self.written
                  if value['layout_file'] == 'shelf.yaml' and value['format'].split()[1] in
                  ('laying', 'pieces', 'take-off', 'glare', 'stock', 'portfolio', 'match', 'check')}
        self.assertEqual(len(hashes), 1)

    def test_schemas_are_schemas_and_closed(self):
        def closed(schema, where):
            if isinstance(schema, dict):
                if 'properties' in schema:
                    self.assertFalse(schema.get('additionalProperties', True), where)
                for key, value in schema.items():
                    closed(value, f'{where}.{key}')
        for title, schema in SCHEMAS.items():
            jsonschema.Draft202012Validator.check_schema(schema)
            closed(schema, title)

    def test_a_wrong_file_is_refused(self):
        for name, value in self.written:
            for spoilt in ({**value, 'version': 99}, {**value, 'surprise': 1},
                           {k: v for k, v in value.items() if k != 'scene_hash'}):
                self.assertFalse(jsonschema.Draft202012Validator(SCHEMAS[value['format']]).is_valid(spoilt), name)

    def test_the_page_has_every_key_of_the_schemas(self):
        for title, schema in SCHEMAS.items():
            with self.subTest(title):
                keys = [(k, v) for k, v in keys_of(schema, schema.get('$defs', {}))]
                reports = schema.get('$defs', {}).get('report')
                if reports:
                    keys += [(k, v) for k, v in keys_of(reports, {}, 'viewpoints[].')]
                told = table_of(title)
                self.assertEqual(len(told), len(set(told)), 'a key twice')
                self.assertEqual(sorted(k for k, _ in keys), sorted(t for t in told if '.NAME.' not in t))
                for key, value in keys:
                    self.assertTrue(value.get('description'), key)

    def test_the_page_has_every_column_of_the_lists(self):
        for name in ('take-off.csv', 'zones.csv', 'pieces.csv'):
            with (self.path / 'renders/shelf' / name).open(newline='') as file:
                lines = list(csv.reader(file))
            self.assertGreater(len(lines), 1)
            part = PAGE[PAGE.index(f'`{name}`, by'):]
            told = re.findall(r'`([a-z_0-9]+)`', re.sub(r'^\|([^|]*)\|.*', r'\1', part, flags=re.MULTILINE))
            for column in lines[0]:
                self.assertIn(column, told, name)
            self.assertEqual({len(line) for line in lines}, {len(lines[0])})

    def test_the_page_has_every_channel_of_the_light(self):
        header = (self.path / 'renders/shelf/straight.exr').read_bytes()[:20000]
        for channel in ('depth_mm', 'normal.x', 'first_surface_share', 'error_cd_per_m2', 'piece', 'material', 'samples',
                        'half.cd_per_m2', 'reflectance.X'):
            self.assertIn(channel.encode() + b'\0', header)
            self.assertIn(f'`{channel}`', PAGE)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])
