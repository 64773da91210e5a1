#!/usr/bin/env python3
"""`rakelight watch` as an artist has it: a layout is edited while the program looks at it. After each save the files are
those that `preview` writes of the same layout, to the byte; mistakes are told and leave them as they are; a signal ends it.

watch_test.py PROGRAM
"""
import os
import pathlib
import queue
import signal
import subprocess
import sys
import tempfile
import threading
import time
import unittest

PROGRAM = sys.argv[1]
LAYOUT = '''panel: {name: Shelf, size: [120, 80]}
fields:
  - {name: sun, outline: [[0, 0], [40, 0], [40, 80], [0, 80]], piece: 12, joint: 1.2, mix: {slate: 100 %}, grout: sand}
  - {name: sea, opus: regulatum, piece: 14, joint: 1.2, mix: {deep-teal: 60 %, coral: 40 %}}
lamps:
  - {name: spot, at: [500, 2600, 900], aim: [0, 1450, 0], lumen: 600, beam angle: 30}
'''
SMALL = ['--size', '48x36', '--most-samples', '16']
NAMES = ['straight.png', 'straight.exr', 'straight.json']
PATIENCE = 120


class Watched:
    """The program at work, and its lines as they come."""

    def __init__(self, folder, *words):
        self.process = subprocess.Popen([PROGRAM, 'watch', 'shelf.yaml', *words], cwd=folder, stdout=subprocess.PIPE,
                                        stderr=subprocess.STDOUT, text=True)
        self.lines = queue.Queue()
        self.told = []
        threading.Thread(target=self.read, daemon=True).start()

    def read(self):
        for line in self.process.stdout:
            self.lines.put(line.rstrip())

    def until(self, word):
        """The lines up to the next that holds a word."""
        lines, end = [], time.monotonic() + PATIENCE
        while True:
            try:
                lines.append(self.lines.get(timeout=max(end - time.monotonic(), 0.01)))
            except queue.Empty:
                raise AssertionError(f'waited for {word!r} after {self.told + lines}') from None
            if word in lines[-1]:
                self.told += lines
                return lines

    def end(self, how=signal.SIGINT):
        self.process.send_signal(how)
        return self.process.wait(PATIENCE)


class Watch(unittest.TestCase):
    def setUp(self):
        self.holder = tempfile.TemporaryDirectory()
        self.folder = pathlib.Path(self.holder.name)
        self.layout = self.folder / 'shelf.yaml'
        self.layout.write_text(LAYOUT)
        self.watched = None

    def tearDown(self):
        if self.watched and self.watched.process.poll() is None:
            self.watched.process.kill()
            self.watched.process.wait()
        if self.watched:
            self.watched.process.stdout.close()
        self.holder.cleanup()

    def start(self, *words):
        self.watched = Watched(self.folder, *words)

    def edit(self, old, new):
        text = self.layout.read_text()
        self.assertIn(old, text)
        self.layout.write_text(text.replace(old, new))

    def files(self, into='renders'):
        return [(self.folder / into / 'shelf' / name).read_bytes() for name in NAMES]

    def expect_as_preview(self):
        subprocess.run([PROGRAM, 'preview', 'shelf.yaml', *SMALL, '--into', 'afresh', '--quiet'], cwd=self.folder, check=True,
                       capture_output=True)
        self.assertEqual(self.files(), self.files('afresh'))

    def test_each_save_is_rendered(self):
        self.start(*SMALL)
        self.watched.until('Waiting')
        self.expect_as_preview()
        saves = [('lumen: 600', 'lumen: 900', 'lamps.spot.lumen: 600 -> 900', 'Kept: all but lights'),
                 ('grout: sand', 'grout: charcoal', 'fields.sun.grout: sand -> charcoal', 'Kept: all pieces and their forms'),
                 ('piece: 12, joint: 1.2', 'piece: 12, joint: 1.6', 'fields.sun.joint: 1.2 -> 1.6', '1 of 2 fields are kept'),
                 ('name: Shelf', 'name: Ledge', 'panel.name: Shelf -> Ledge', 'Laid:')]
        for old, new, changed, kept in saves:
            self.edit(old, new)
            lines = self.watched.until('Waiting')
            self.assertIn(f'Changed: {changed}', lines)
            self.assertTrue(any(kept in line for line in lines), lines)
            self.assertTrue(any('a first look' in line for line in lines), lines)
            self.expect_as_preview()
        # As editors save that write beside and rename.
        (self.folder / 'new').write_text(self.layout.read_text().replace('lumen: 900', 'lumen: 700'))
        (self.folder / 'new').rename(self.layout)
        self.assertIn('Changed: lamps.spot.lumen: 900 -> 700', self.watched.until('Waiting'))
        self.expect_as_preview()
        self.assertEqual(self.watched.end(), 0)
        self.assertEqual(sorted(file.name for file in (self.folder / 'renders/shelf').iterdir()), sorted(NAMES))

    def test_mistakes_leave_the_pictures(self):
        self.start(*SMALL)
        self.watched.until('Waiting')
        before = self.files()
        for old, wrong, told in [('grout: sand', 'grout: sandd', 'shelf.yaml:3:'),       # a word
                                 ('panel: {', 'panel: [', 'shelf.yaml:'),                 # no YAML
                                 ('piece: 14', 'piece: 900', 'shelf.yaml:4:'),           # found in laying
                                 ('lamps:', 'stock from: no.yaml\nlamps:', 'no.yaml')]:  # a file that is not there
            self.edit(old, wrong)
            lines = self.watched.until('Nothing is rendered')
            self.assertTrue(any(told in line for line in lines), lines)
            self.assertEqual(self.files(), before)
            self.edit(wrong, old)
            self.watched.until('Waiting')
            self.assertEqual(self.files(), before)
        self.assertEqual(self.watched.end(signal.SIGTERM), 0)

    def test_a_missing_file_appears(self):
        self.edit('lamps:', 'stock from: mine.yaml\nlamps:')
        self.start(*SMALL)
        self.watched.until('Nothing is rendered')
        self.assertFalse((self.folder / 'renders/shelf/straight.png').exists())
        (self.folder / 'mine.yaml').write_text('stock: {mine: {like: coral}}\n')
        self.watched.until('Waiting')
        self.expect_as_preview()
        self.edit('coral: 40 %', 'mine: 40 %')
        self.watched.until('Waiting')
        (self.folder / 'mine.yaml').write_text('stock: {mine: {like: slate}}\n')
        self.assertIn('Changed: stock.mine.like: coral -> slate', self.watched.until('Waiting'))
        self.expect_as_preview()
        self.assertEqual(self.watched.end(), 0)

    def test_a_save_stops_what_is_rendered(self):
        self.start('--size', '480x360', '--grain', '0.01%', '--most-samples', '1000000')
        for lumen in (700, 800):
            self.watched.until('a first look')
            self.edit(f'lumen: {lumen - 100}', f'lumen: {lumen}')
            self.assertIn(f'Changed: lamps.spot.lumen: {lumen - 100} -> {lumen}', self.watched.until('a first look'))
            self.layout.write_text(self.layout.read_text() + '# a word\n')
            self.watched.until('nothing in the layout has changed')
        self.assertEqual(self.watched.end(signal.SIGTERM), 0)
        left = {file.name for file in (self.folder / 'renders/shelf').iterdir()}
        self.assertLessEqual(left, {'straight.png', 'straight.begun-passes.bin'})

    def test_a_look_is_not_taken_for_finished(self):
        def preview(*words):
            return subprocess.run([PROGRAM, 'preview', 'shelf.yaml', *SMALL, *words], cwd=self.folder, check=True,
                                  capture_output=True, text=True)
        preview()
        self.edit('lumen: 600', 'lumen: 900')
        self.start(*SMALL, '--looks-only')
        self.watched.until('Waiting')
        self.assertEqual(self.watched.end(), 0)
        self.edit('lumen: 900', 'lumen: 600')  # as the film is that still lies there
        left = {file.name for file in (self.folder / 'renders/shelf').iterdir()}
        self.assertEqual(left, {'straight.png', 'straight.exr'})
        again = preview('--skip-finished', '--dry-run')
        self.assertIn('to render', again.stdout)
        self.assertNotIn('damaged', again.stderr)
        subprocess.run([PROGRAM, 'page', 'renders/shelf'], cwd=self.folder, check=True, capture_output=True)

    def test_words_that_no_save_would_mend_end_it(self):
        for words in (['--size', 'large'], ['--grain', 'fine']):
            self.start(*words)
            self.assertEqual(self.watched.process.wait(PATIENCE), 2)
        self.layout.unlink()
        self.start()
        self.assertEqual(self.watched.process.wait(PATIENCE), 2)

    def test_what_cannot_be_written_ends_it(self):
        (self.folder / 'renders').write_text('a file where the folder should be')
        self.start(*SMALL)
        self.assertEqual(self.watched.process.wait(PATIENCE), 3)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1] + sys.argv[2:])
