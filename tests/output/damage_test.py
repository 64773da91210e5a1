#!/usr/bin/env python3
"""Damage on disk is found: bytes are flipped in parts of a picture, in rows of a begun one and in finished files, each
byte drawn at random over the whole file. A damaged file is refused by its name, or rendered again, or the flipped byte
carried nothing and the picture is the same to the bit: nothing wrong is ever taken for right.

damage_test.py PROGRAM [PLACES]      so many places in all; 700 takes some minutes
"""
import pathlib
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import unittest

PROGRAM = sys.argv[1]
PLACES = int(sys.argv[2]) if len(sys.argv) > 2 else 60

LAYOUT = '''
panel: {name: Shelf, size: [120, 80]}
fields: [{name: sea, opus: regulatum, piece: 14, joint: 1.2, mix: {deep-teal: 60 %, coral: 40 %}}]
lamps:
  - {name: spot, at: [500, 2600, 900], aim: [0, 1450, 0], lumen: 600, beam angle: 30}
  - {name: bulb, form: bulb, at: [-900, 2300, 1200], lumen: 500}
'''
DRAFT = ['preview', 'shelf.yaml', '--size', '48x36', '--most-samples', '2']
NAMES = [f'renders/shelf/straight.{e}' for e in ('png', 'exr', 'json')]


class Damage(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.path = pathlib.Path(self.folder.name)
        (self.path / 'shelf.yaml').write_text(LAYOUT)
        self.chance = random.Random(5)

    def tearDown(self):
        self.folder.cleanup()

    def run_it(self, *words):
        return subprocess.run([PROGRAM, *words], cwd=self.path, capture_output=True, text=True, errors='replace',
                              check=False)

    def make(self, *words):
        done = self.run_it(*words)
        self.assertEqual(done.returncode, 0, done.stderr)

    def bytes_of(self, names):
        return [(self.path / name).read_bytes() for name in names]

    def flip(self, file):
        """Flips some bits of one byte. Returns the whole contents."""
        whole = file.read_bytes()
        at = self.chance.randrange(len(whole))
        wrong = bytearray(whole)
        wrong[at] ^= self.chance.randrange(1, 256)
        file.write_bytes(wrong)
        return whole, at

    def tell(self, what, count):
        print(f'{what}: ' + ', '.join(f'{n} {word}' for word, n in sorted(count.items())))

    def test_parts_that_are_joined(self):
        for share in ('1/2', '2/2'):
            self.make(*DRAFT, '--part', share)
        parts = sorted((self.path / 'renders/shelf').glob('*.exr'))
        self.assertEqual(len(parts), 2)
        self.make('join', *map(str, parts), '--into', 'whole')
        names = [f'whole/straight.{e}' for e in ('png', 'exr', 'json')]
        whole = self.bytes_of(names)
        count = {'refused': 0, 'carried nothing': 0}
        for _ in range(PLACES // 3):
            part = self.chance.choice(parts)
            right, at = self.flip(part)
            done = self.run_it('join', *map(str, parts), '--into', 'whole')
            if done.returncode == 0:
                self.assertEqual(self.bytes_of(names), whole, f'{part.name} at {at}')
                count['carried nothing'] += 1
            else:
                self.assertEqual(done.returncode, 3, f'{part.name} at {at}: {done.stderr}')
                self.assertIn(part.name, done.stderr)
                self.assertEqual(self.bytes_of(names), whole)
                count['refused'] += 1
            part.write_bytes(right)
        self.tell('parts', count)
        self.assertGreater(count['refused'], 0.9 * (PLACES // 3))

    def test_passes_that_are_gone_on_from(self):
        whole_run = ['preview', 'shelf.yaml', '--size', '64x320', '--most-samples', '48', '--grain', '0.05%', '--save-every',
                     '0.01']
        self.make(*whole_run)
        whole = self.bytes_of(NAMES)
        for name in NAMES:
            (self.path / name).unlink()
        started = subprocess.Popen([PROGRAM, *whole_run, '--threads', '1'], cwd=self.path, stderr=subprocess.DEVNULL,
                                   stdout=subprocess.DEVNULL)
        begun = []
        while not begun and started.poll() is None:
            time.sleep(0.02)
            begun = sorted((self.path / 'renders/shelf').glob('*.begun-*'))
        started.send_signal(signal.SIGINT)
        self.assertEqual(started.wait(), 130)
        begun = sorted((self.path / 'renders/shelf').glob('*.begun-*'))
        kept = {file: file.read_bytes() for file in begun}
        count = {'named and rendered again': 0, 'carried nothing': 0}
        for _ in range(max(PLACES // 6, 3)):
            for file, right in kept.items():
                file.write_bytes(right)
            _, at = self.flip(self.chance.choice(begun))
            done = self.run_it(*whole_run)
            self.assertEqual(done.returncode, 0, done.stderr)
            self.assertEqual(self.bytes_of(NAMES), whole, f'at {at}')
            count['named and rendered again' if 'cannot use' in done.stderr else 'carried nothing'] += 1
        self.tell('begun passes', count)
        self.assertGreater(count['named and rendered again'], count['carried nothing'])

    def test_finished_files(self):
        self.make(*DRAFT)
        whole = self.bytes_of(NAMES)
        count = {'named and rendered again': 0}
        for _ in range(PLACES // 3):
            file = self.path / self.chance.choice(NAMES)
            _, at = self.flip(file)
            page = self.run_it('page', 'renders/shelf')
            self.assertEqual(page.returncode, 2, f'{file.name} at {at}: {page.stderr}')
            self.assertIn('straight.', page.stderr)
            again = self.run_it(*DRAFT, '--skip-finished')
            self.assertEqual(again.returncode, 0, again.stderr)
            self.assertEqual(self.bytes_of(NAMES), whole, f'{file.name} at {at}')
            self.assertIn('damaged', again.stderr)
            count['named and rendered again'] += 1
        self.tell('finished files', count)
        self.make('page', 'renders/shelf')

    def test_what_is_whole_is_left_alone(self):
        self.make(*DRAFT)
        again = self.run_it(*DRAFT, '--skip-finished')
        self.assertIn('nothing has changed', again.stderr)

    def test_prints_that_are_kept(self):
        words = ['portfolio', 'shelf.yaml', '--dpi', '36', '--most-samples', '1', '--show', 'straight', '--skip-finished']
        self.make(*words)
        names = ['renders/shelf/portfolio-straight.png', 'renders/shelf/proposal.pdf', 'renders/shelf/portfolio.json']
        whole = self.bytes_of(names)
        for _ in range(max(PLACES // 30, 2)):
            file = self.path / names[0]
            _, at = self.flip(file)
            again = self.run_it(*words)
            self.assertEqual(again.returncode, 0, again.stderr)
            self.assertEqual(self.bytes_of(names), whole, f'at {at}')
            self.assertIn('damaged', again.stderr)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])
