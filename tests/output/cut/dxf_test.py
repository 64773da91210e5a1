#!/usr/bin/env python3
"""What `cut` writes of a rectangle and a circle, read by another program's reader (ezdxf, Debian: python3-ezdxf) and
held against closed forms: Steiner's formula for the path, areas of the pieces. The SVG has the same points.

dxf_test.py PROGRAM
"""
import json
import math
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

import ezdxf

PROGRAM = sys.argv[1]
KERF, JOINT = 1.2, 2.0
LAYOUT = f'''
panel: {{name: Compass, size: [300, 200]}}
fields:
  - name: rose
    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]
    opus: sectile
    joint: {JOINT}
    mix: slate
    shapes:
      - {{outline: [[20, 20], [120, 20], [120, 90], [20, 90]], material: coral}}
      - {{outline: {[[round(210 + 50 * math.cos(math.tau * k / 720), 6), round(100 + 50 * math.sin(math.tau * k / 720), 6)]
                     for k in range(720)]}, material: aqua}}
'''


def area(points):
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1])) / 2


def length(points):
    return sum(math.dist(a, b) for a, b in zip(points, points[1:] + points[:1]))


class Cut(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = tempfile.TemporaryDirectory()
        path = pathlib.Path(cls.folder.name)
        (path / 'compass.yaml').write_text(LAYOUT)
        subprocess.run([PROGRAM, 'cut', 'compass.yaml', '--kerf', str(KERF)], cwd=path, check=True, capture_output=True)
        cls.out = path / 'renders/compass'

    @classmethod
    def tearDownClass(cls):
        cls.folder.cleanup()

    def cuts(self, name):
        document = ezdxf.readfile(self.out / name)
        self.assertEqual(document.dxfversion, 'AC1009')
        self.assertEqual([str(e) for e in document.audit().errors], [])
        lines = [e for e in document.modelspace() if e.dxftype() == 'POLYLINE']
        self.assertTrue(all(line.is_closed for line in lines))
        self.assertEqual({layer.dxf.name for layer in document.layers} - {'0', 'Defpoints'}, {'CUT', 'NAMES', 'SLAB'})
        return [[(v.dxf.location.x, v.dxf.location.y) for v in line.vertices] for line in lines if line.dxf.layer == 'CUT']

    def test_rectangle(self):
        [points] = self.cuts('cut-coral.dxf')
        a, b, d = 100 - JOINT, 70 - JOINT, KERF / 2
        self.assertAlmostEqual(length(points), 2 * (a + b) + math.tau * d, delta=0.1)
        self.assertAlmostEqual(area(points), a * b + 2 * (a + b) * d + math.pi * d * d, delta=0.1)

    def test_circle(self):
        [points] = self.cuts('cut-aqua.dxf')
        radius = 50 - JOINT / 2 + KERF / 2
        middle = [sum(p[k] for p in points) / len(points) for k in (0, 1)]
        for p in points:
            self.assertAlmostEqual(math.dist(p, middle), radius, delta=0.03)

    def test_record_and_svg_agree(self):
        said = json.loads((self.out / 'cut.json').read_text())
        by_material = {slab['material']: slab['shapes'] for slab in said['slabs']}
        self.assertAlmostEqual(by_material['coral'][0]['area_mm2'], 98 * 68, delta=0.05)
        height = said['slab_mm'][1]
        svg = (self.out / 'cut-coral.svg').read_text()
        self.assertRegex(svg, r'width="600mm" height="400mm"')
        path = re.search(r'<path id="cut\.1\.1"[^>]* d="([^"]+)"', svg)
        numbers = [float(n) for n in re.findall(r'-?\d+\.?\d*', path.group(1))]
        drawn = sorted(zip(numbers[::2], (height - y for y in numbers[1::2])))
        for a, b in zip(drawn, sorted(self.cuts('cut-coral.dxf')[0])):
            self.assertLess(math.dist(a, b), 0.01)

    def test_refusals(self):
        path = pathlib.Path(self.folder.name)
        (path / 'plain.yaml').write_text('panel: {size: [90, 60]}\nfields: [{name: sea, piece: 9, mix: aqua}]\n')
        for words, told in ((['plain.yaml'], 'expected one of opus: sectile'),
                            (['compass.yaml', '--slab', '80x60'], '--slab 80x60: found shape 1.'),
                            (['compass.yaml', '--slab', 'wide'], '--slab'),
                            (['compass.yaml', '--kerf', '-1'], '0 to 10')):
            done = subprocess.run([PROGRAM, 'cut', *words, '--into', 'none'], cwd=path, capture_output=True, text=True,
                                  check=False)
            self.assertEqual(done.returncode, 2, words)
            self.assertIn(told, done.stderr)
        self.assertFalse((path / 'none').exists())


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])
