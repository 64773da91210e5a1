#!/usr/bin/env python3
"""A layout whose names are made to do harm: nothing is written outside its folder, nothing of one command is written over
by another, no name becomes a script in the page, a drawing or a PDF, or a formula in a table.

hostile_names_test.py PROGRAM
"""
import csv
import html.parser
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest
import xml.dom.minidom

PROGRAM = sys.argv[1]

LAYOUT = r'''
panel: {name: "</title><script>alert(1)</script>", size: [120, 80]}
stock:
  "=cmd|' /C calc'!A0": {like: deep-teal, cost: 120 per m2}
  "@SUM(1)": {like: coral}
fields:
  - {name: "../../up", outline: [[70, 20], [110, 20], [90, 60]], opus: musivum, piece: 8, joint: 1, mix: "@SUM(1)",
     grout: sand, zone: "+1+1"}
  - {name: "-2+3<img src=x onerror=alert(2)>", piece: 9, joint: 1.2, mix: "=cmd|' /C calc'!A0", grout: charcoal,
     zone: "../../../zone\"><b>"}
lamps:
  - {name: "<b onclick=alert(3)>", group: "g\"'><script>1</script>", at: [500, 2600, 900], aim: [0, 1450, 0],
     lumen: 600, beam angle: 30}
viewpoints:
  - {name: "../v<script>", distance: 1200, height: 1500, view width: 200}
set-ups:
  "a b": {lamps: [{name: x, at: [500, 2600, 900], aim: [0, 1450, 0], lumen: 600, beam angle: 30}]}
  "a-b": {lamps: [{name: x, at: [500, 2600, 900], aim: [0, 1450, 0], lumen: 300, beam angle: 30}]}
pictures:
  - {name: "../../../evil</script><script>alert(4)//", viewpoint: "../v<script>", size: [48, 36], most samples: 2}
board: {title: "<script>t</script>", test piece: {field: "../../up", size: 60}, columns: {grout: [white, none]},
        pixels: 64, most samples: 2}
portfolio: {show: [straight], dpi: 36, most samples: 1,
            caption: {title: "<script>p</script>", artist: "(x) Tj ET /JavaScript <script>"}}
'''


class Tags(html.parser.HTMLParser):
    def __init__(self):
        super().__init__()
        self.found, self.handlers, self.runs, self.links, self.policy = set(), [], [], [], ''

    def handle_starttag(self, tag, attributes):
        self.found.add(tag)
        given = dict(attributes)
        self.handlers += [name for name in given if name.startswith('on')]
        if tag == 'script' and given.get('type') not in ('application/json', 'text/plain'):
            self.runs.append(given.get('nonce'))
        if given.get('http-equiv') == 'Content-Security-Policy':
            self.policy = given['content']
        self.links += [given[name] for name in ('href', 'src', 'action', 'data') if given.get(name)]


class HostileNames(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.outer = tempfile.TemporaryDirectory()
        cls.path = pathlib.Path(cls.outer.name) / 'a' / 'b' / 'c' / 'd'
        cls.path.mkdir(parents=True)
        (cls.path / 'evil.yaml').write_text(LAYOUT)
        cls.run_it('all', 'evil.yaml', '--draft')
        cls.made = cls.path / 'renders/evil'

    @classmethod
    def tearDownClass(cls):
        cls.outer.cleanup()

    @classmethod
    def run_it(cls, *words, code=0):
        done = subprocess.run([PROGRAM, *words], cwd=cls.path, capture_output=True, text=True, check=False)
        if done.returncode != code:
            raise AssertionError(f'{words}: {done.returncode}\n{done.stderr}')
        return done

    def test_nothing_is_written_outside(self):
        for file in pathlib.Path(self.outer.name).rglob('*'):
            if file.is_file() and file.name != 'evil.yaml':
                self.assertIn(self.made, file.parents)
            self.assertNotIn('..', file.relative_to(self.outer.name).parts)

    def test_page(self):
        for name in ('index.html', 'client.html'):
            if name == 'client.html':
                self.run_it('page', 'renders/evil', '--for', 'client')
            tags = Tags()
            tags.feed((self.made / name).read_text())
            self.assertEqual(tags.handlers, [])
            self.assertFalse(tags.found & {'b', 'iframe', 'object', 'embed', 'base', 'form', 'link'}, tags.found)
            self.assertEqual(len(tags.runs), 1)
            self.assertRegex(tags.policy, f"script-src 'nonce-{tags.runs[0]}'")
            for rule in ("default-src 'none'", "img-src data:;", "base-uri 'none'", "form-action 'none'"):
                self.assertIn(rule, tags.policy)
            for link in tags.links:
                self.assertFalse(re.match(r'(?!data:image/|data:application/pdf)[a-z]+:|//', link, re.I), link[:80])

    def test_drawings(self):
        drawings = list(self.made.rglob('*.svg'))
        self.assertGreater(len(drawings), 5)
        for file in drawings:
            for element in xml.dom.minidom.parse(str(file)).getElementsByTagName('*'):
                self.assertNotIn(element.tagName, ('script', 'foreignObject', 'a', 'iframe'))
                for name, value in element.attributes.items():
                    self.assertFalse(name.lower().startswith('on'), file.name)
                    self.assertNotRegex(value, '(?i)^(javascript|https?):(?!//www.w3.org|//www.inkscape)')

    def test_pdfs(self):
        sheets = list(self.made.rglob('*.pdf'))
        self.assertGreater(len(sheets), 2)
        for file in sheets:
            names = re.sub(rb'\((?:\\.|[^\\()])*\)', b'', file.read_bytes())
            for act in (b'/JavaScript', b'/OpenAction', b'/Launch', b'/URI', b'/AA '):
                self.assertNotIn(act, names, file.name)

    def test_tables(self):
        cells = 0
        for file in self.made.glob('*.csv'):
            with file.open(newline='') as table:
                for cell in (cell for row in csv.reader(table) for cell in row):
                    cells += 1
                    if cell and cell[0] in '=+-@\t\r':
                        float(cell)  # a number is no formula
        self.assertGreater(cells, 500)
        # And the pieces come back as they were.
        before = (self.made / 'pieces.csv').read_bytes()
        self.run_it('lay', 'evil.yaml', '--pieces', 'renders/evil/pieces.csv', '--into', 'again')
        self.assertEqual((self.path / 'again/evil/pieces.csv').read_bytes(), before)

    def test_no_file_is_written_over(self):
        # A set-up and another whose names differ in what a file name cannot hold.
        for command in ('stock', 'glare'):
            said = self.run_it(command, 'evil.yaml', '--light', 'a b', '--light', 'a-b', code=2).stderr
            self.assertIn('would be written to the same file', said)
        # A picture called as a sheet of another command.
        for name in ('board', 'laying', 'stock', 'glare-straight', 'map-2', 'portfolio straight'):
            before = {f: f.read_bytes() for f in self.made.rglob('*') if f.is_file()}
            (self.path / 'evil.yaml').write_text(LAYOUT.replace('../../../evil</script><script>alert(4)//', name))
            said = self.run_it('preview', 'evil.yaml', '--size', '32x24', '--most-samples', '1', code=2).stderr
            self.assertIn('give it another name', said)
            self.assertEqual({f: f.read_bytes() for f in self.made.rglob('*') if f.is_file()}, before)
        (self.path / 'evil.yaml').write_text(LAYOUT)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])
