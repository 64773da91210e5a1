#!/usr/bin/env python3
"""Commands that are killed at any moment, or have no room, no right to write or nobody to tell: what claims to be finished
is whole, the same command afterwards gives the same bytes, nothing is left lying about, and trouble with output is told
with its reason and exit code 3.

trouble_test.py PROGRAM MISFORTUNE [TIMES [COMMAND ..]]   kills each command, or those named, so many times; MISFORTUNE is
the library that tests/support/misfortune.cpp makes, which also cuts the power
"""
import os
import pathlib
import random
import re
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import unittest

PROGRAM = sys.argv[1]
MISFORTUNE = sys.argv[2]
TIMES = int(sys.argv[3]) if len(sys.argv) > 3 else 3
CHOSEN = sys.argv[4:]
sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent))
from every_path import write_samples  # pylint: disable=wrong-import-position

LAYOUT = '''
panel: {name: Shelf, size: [120, 80]}
fields:
  - {name: fish, outline: [[20, 20], [60, 20], [40, 50]], opus: sectile, joint: 1,
     shapes: [{outline: [[20, 20], [60, 20], [40, 50]], material: foam-white}], mix: foam-white}
  - {name: sea, opus: regulatum, piece: 14, joint: 1.2, mix: {deep-teal: 60 %, coral: 40 %}}
lamps:
  - {name: spot, at: [500, 2600, 900], aim: [0, 1450, 0], lumen: 600, beam angle: 30}
  - {name: bulb, form: bulb, at: [-900, 2300, 1200], lumen: 500}
viewpoints:
  - {name: straight, distance: 1200, height: 1500, view width: 200}
board: {test piece: {field: sea, size: 40}, columns: {grout: [white, none]}, pixels: 64, most samples: 16}
'''
PREVIEW = 'preview shelf.yaml --size 64x160 --most-samples 48 --grain 0.05% --save-every 0.01'

FARM = 'batch shelf.yaml --size 64x160 --most-samples 4 --on slurm --parts 2 --into farm --dry-run'

# What each needs to be there before it, and where it writes.
COMMANDS = {
    'preview': ([], PREVIEW),
    'part': ([], PREVIEW + ' --part 1/2'),
    'join': ([PREVIEW + ' --part 1/2', PREVIEW + ' --part 2/2'],
             'join renders/shelf/straight.part-1-of-2.exr renders/shelf/straight.part-2-of-2.exr --into renders/shelf'),
    'lay': ([], 'lay shelf.yaml'),
    'stock': ([], 'stock shelf.yaml'),
    'take-off': ([], 'take-off shelf.yaml'),
    'glare': ([], 'glare shelf.yaml --most-samples 2'),
    'board': ([], 'board shelf.yaml'),
    'portfolio': ([], 'portfolio shelf.yaml --dpi 36 --most-samples 1 --show straight'),
    'model': ([], 'model shelf.yaml --detail 1'),
    'clip': ([], 'clip shelf.yaml --only dimmed --size 64x36 --seconds 0.2 --most-samples 1 --quiet'),
    'page': ([PREVIEW], 'page renders/shelf'),
    'batch': ([], 'batch jobs.txt'),
    'task': ([FARM], 'task farm/shelf.tasks 1-1'),
    'status': ([FARM, 'task farm/shelf.tasks 1-1'], 'status farm/shelf.tasks'),
    'study': ([PREVIEW], 'study renders/shelf/straight.exr --layout shelf.yaml'),
    'compare': ([PREVIEW], 'compare renders/shelf/straight.png renders/shelf/straight.exr --corners 9,9 54,9 54,150 9,150 '
                           '--picture-corners 9,9 54,9 54,150 9,150 --layout shelf.yaml --into shot'),
    'cut': ([], 'cut shelf.yaml'),
    'marks': ([], 'marks'),
    'samples': ([], 'samples bench.yaml'),
    'unwrap': ([], 'unwrap bench.ppm --ball 200,200,150 --seconds 1/30 --width 64 --as hall.exr'),
    'all': ([], 'all shelf.yaml --draft --without portfolio,glare,preview,board,take-off'),
}


class Trouble(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.outer = tempfile.TemporaryDirectory()
        cls.path = pathlib.Path(cls.outer.name)
        cls.chance = random.Random(11)

    @classmethod
    def tearDownClass(cls):
        cls.outer.cleanup()

    def fresh(self, name, before=()):
        folder = self.path / name
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir()
        (folder / 'shelf.yaml').write_text(LAYOUT)
        (folder / 'jobs.txt').write_text('preview shelf.yaml --size 48x36 --most-samples 4\nlay shelf.yaml --only colours\n')
        write_samples(folder)
        for words in before:
            self.assertEqual(self.start(folder, words).wait(), 0, words)
        return folder

    @staticmethod
    def start(folder, words, **more):
        more.setdefault('stdout', subprocess.DEVNULL)
        more.setdefault('stderr', subprocess.DEVNULL)
        return subprocess.Popen([PROGRAM, *words.split()], cwd=folder, **more)

    def told(self, folder, words, **more):
        done = subprocess.run([PROGRAM, *words.split()], cwd=folder, capture_output='stdout' not in more, text=True,
                              check=False, **({} if 'stdout' not in more else {'stderr': subprocess.PIPE}), **more)
        return done.returncode, done.stderr

    @staticmethod
    def bytes_in(folder):
        """What is in every file, but for the machine and seconds that the state of a task notes."""
        return {str(f.relative_to(folder)): f.read_bytes().rsplit(b' ', 4)[0] if f.parent.name == 'state' else f.read_bytes()
                for f in sorted(folder.rglob('*')) if f.is_file()}

    @staticmethod
    def says_it_goes_on(there):
        """The state of a task, or a picture that a slow machine shows while it is traced: whole, and it says that it is
        not finished."""
        if re.fullmatch(rb'(left|running|done|failed) [0-9a-f]{16}', there):
            return True
        return there.startswith(b'\x89PNG') and there.endswith(b'IEND\xaeB`\x82') and b'; not finished: ' in there

    @staticmethod
    def befallen(what):
        return {**os.environ, 'LD_PRELOAD': MISFORTUNE, 'MISFORTUNE': what}

    def bases_and_wholes(self):
        """For every command: its name, its words, a folder before it and what is there after it, and its seconds."""
        for name in CHOSEN or COMMANDS:
            before, words = COMMANDS[name]
            base = self.fresh('base', before)
            whole = self.path / 'whole'
            shutil.rmtree(whole, ignore_errors=True)
            shutil.copytree(base, whole)
            began = time.monotonic()
            self.assertEqual(self.start(whole, words).wait(), 0, words)
            yield name, words, base, self.bytes_in(whole), time.monotonic() - began

    def again_as_whole(self, folder, words, whole, where):
        code, said = self.told(folder, words)
        self.assertEqual(code, 0, where + said)
        again = self.bytes_in(folder)
        self.assertEqual(sorted(again), sorted(whole), where + 'files differ after the same command')
        for file in whole:
            self.assertEqual(again[file], whole[file], where + file + ' differs after the same command')

    def copy_of(self, base):
        folder = self.path / 'killed'
        shutil.rmtree(folder, ignore_errors=True)
        shutil.copytree(base, folder)
        return folder

    def test_killed_at_any_moment(self):
        kills, early, late, kept = 0, 0, 0, 0
        for name, words, base, whole, takes_s in self.bases_and_wholes():
            for _ in range(TIMES):
                folder = self.copy_of(base)
                how = self.chance.choice([signal.SIGKILL, signal.SIGTERM, signal.SIGINT])
                # Often near the end, where files are written.
                share = self.chance.choice([self.chance.uniform(0, 1.05), self.chance.uniform(0.8, 1.05)])
                started = self.start(folder, words)
                time.sleep(share * takes_s)
                started.send_signal(how)
                code = started.wait()
                kills += 1
                late += code == 0
                where = f'{name}, {how.name} at {share:.2f}: '
                for file, there in self.bytes_in(folder).items():
                    last = file.rsplit('/', 1)[-1]
                    if '/.' in '/' + file or '.begun-' in last:
                        kept += 1
                        meant = '.begun-' in last or '/.clip-' in '/' + file  # what the same command goes on from
                        self.assertTrue(how == signal.SIGKILL or meant, where + file + ' is left')
                        continue
                    self.assertIn(file, whole, where + 'an unknown file')
                    if not self.says_it_goes_on(there):
                        self.assertEqual(there, whole[file], where + file + ' is broken')
                self.again_as_whole(folder, words, whole, where)
        print(f'{kills} kills, {late} after the end, {kept} temporary or begun files met and cleared')

    def test_the_power_goes(self):
        """At the n-th write, fsync or rename, all bytes not yet fsynced lost: a file under its own name is whole or as
        it was, and the same command afterwards gives the same bytes."""
        cuts = 0
        for name, words, base, whole, _ in self.bases_and_wholes():
            if name == 'all':
                continue  # its jobs are processes of their own, tried above; its page shows what those that went on made
            was, at = self.bytes_in(base), 1
            while True:
                folder, where = self.copy_of(base), f'{name}, power cut at {at}: '
                code = self.start(folder, words, env=self.befallen(f'cut {at}')).wait()
                if code == 0:
                    break
                self.assertEqual(abs(code), signal.SIGKILL if name != 'batch' else abs(code), where)
                cuts += 1
                for file, there in self.bytes_in(folder).items():
                    last = file.rsplit('/', 1)[-1]
                    if '/.' not in '/' + file and '.begun-' not in last and not self.says_it_goes_on(there):
                        self.assertIn(there, (whole.get(file), was.get(file)), where + file + ' is broken')
                self.again_as_whole(folder, words, whole, where)
                at += 1 + int(at * self.chance.uniform(2, 6) * 3 / TIMES)
        print(f'{cuts} power cuts')

    def test_a_quota(self):
        for name in ('preview', 'lay', 'take-off', 'board'):
            folder = self.fresh('quota')
            code, said = self.told(folder, COMMANDS[name][1], env=self.befallen('quota 3000'))
            self.assertEqual(code, 3, f'{name}: {said}')
            self.assertIn('quota exceeded', said, name)
            self.assertFalse([f for f in self.bytes_in(folder) if f.rsplit('/', 1)[-1].startswith('.')], name)

    def test_a_clock_that_runs_backwards(self):
        for name in ('preview', 'lay', 'take-off', 'batch'):
            here, there = self.fresh('here'), self.fresh('there')
            self.assertEqual(self.start(here, COMMANDS[name][1]).wait(), 0)
            self.assertEqual(self.start(there, COMMANDS[name][1], env=self.befallen('clock')).wait(), 0)
            self.assertEqual(self.bytes_in(there), self.bytes_in(here), name)

    def test_a_folder_that_vanishes(self):
        """While it is being filled: the reason and code 3, or the work was already done; nothing half-written."""
        gone = 0
        for name in ('preview', 'board', 'portfolio', 'glare'):
            folder = self.fresh('vanishing')
            started = self.start(folder, COMMANDS[name][1], stderr=subprocess.PIPE, text=True)
            renders = folder / 'renders'
            while not renders.exists() and started.poll() is None:
                time.sleep(0.001)
            time.sleep(0.05)
            shutil.rmtree(renders, ignore_errors=True)
            said = started.communicate()[1]
            self.assertIn(started.returncode, (0, 3), f'{name}: {said}')
            if started.returncode == 3:
                gone += 1
                self.assertRegex(said, 'renders.*No such file or directory', name)
            self.assertFalse([f for f in self.bytes_in(folder) if f.rsplit('/', 1)[-1].startswith('.')], name)
        self.assertGreater(gone, 0, 'every command had finished before its folder went')

    def test_no_room(self):
        """Every file longer than so many bytes is refused by the system, as on a full disk."""
        for name in ('preview', 'part', 'lay', 'stock', 'take-off', 'board', 'portfolio', 'model', 'clip', 'page', 'join',
                     'glare'):
            before, words = COMMANDS[name]
            folder = self.fresh('full', before)
            was = self.bytes_in(folder)
            for limit in (0, 2000):
                code, said = self.told(
                    folder, words, restore_signals=False,  # SIGXFSZ stays ignored
                    preexec_fn=lambda room=limit: resource.setrlimit(resource.RLIMIT_FSIZE, (room, room)))
                self.assertEqual(code, 3, f'{name} {limit}: {said}')
                self.assertRegex(said, 'File too large|full', f'{name} {limit}')
                now = self.bytes_in(folder)
                self.assertFalse([f for f in now if f.rsplit('/', 1)[-1].startswith('.')], name)
                for file in was:
                    self.assertEqual(now[file], was[file], f'{name}: {file}')

    def test_a_full_disk(self):
        folder = self.fresh('small')
        disk = folder / 'renders'
        disk.mkdir()
        if subprocess.run(['mount', '-t', 'tmpfs', '-o', 'size=48k', 'none', str(disk)], capture_output=True,
                          check=False).returncode != 0:
            self.skipTest('a small disk cannot be made here')
        try:
            for name in ('preview', 'lay', 'take-off'):
                code, said = self.told(folder, COMMANDS[name][1])
                self.assertEqual(code, 3, f'{name}: {said}')
                self.assertRegex(said, 'No space left|full', name)
                self.assertFalse([f for f in self.bytes_in(folder) if f.rsplit('/', 1)[-1].startswith('.')], name)
        finally:
            subprocess.run(['umount', str(disk)], check=False)

    def test_a_folder_that_cannot_be_written(self):
        folder = self.fresh('closed')
        (folder / 'a-file').write_text('')
        places = ['a-file', '/proc/nowhere']
        if os.geteuid() != 0:
            (folder / 'locked').mkdir(mode=0o500)
            places.append('locked')
        for place in places:
            for name in ('preview', 'lay', 'stock', 'take-off', 'board', 'portfolio', 'model', 'clip', 'glare'):
                code, said = self.told(folder, f'{COMMANDS[name][1]} --into {place}')
                self.assertEqual(code, 3, f'{name} into {place}: {said}')
                self.assertIn(place, said)

    def test_nobody_to_tell(self):
        """Standard output closed, full, or a pipe that nobody reads: told with code 3, or the work is done."""
        for name in ('lay', 'stock', 'preview', 'check', 'keys'):
            words = COMMANDS[name][1] if name in COMMANDS else {'check': 'check shelf.yaml', 'keys': 'keys'}[name]
            whole = self.fresh('whole')
            self.assertEqual(self.start(whole, words).wait(), 0)
            for how in ('closed', 'full', 'unread'):
                folder = self.fresh('untold')
                if how == 'closed':
                    done = subprocess.run(['sh', '-c', f'exec "$0" {words} >&-', PROGRAM], cwd=folder, text=True,
                                          stderr=subprocess.PIPE, check=False)
                elif how == 'full':
                    with open('/dev/full', 'w') as full:
                        done = subprocess.run([PROGRAM, *words.split()], cwd=folder, text=True, stdout=full,
                                              stderr=subprocess.PIPE, check=False)
                else:
                    read, write = os.pipe()
                    os.close(read)
                    done = subprocess.run([PROGRAM, *words.split()], cwd=folder, text=True, stdout=write,
                                          stderr=subprocess.PIPE, check=False)
                    os.close(write)
                there = self.bytes_in(folder)
                self.assertFalse([f for f in there if f.rsplit('/', 1)[-1].startswith('.')], f'{name}, {how}')
                if done.returncode == 0:
                    self.assertEqual(there, self.bytes_in(whole), f'{name}, {how}')
                    self.assertNotEqual(how, 'full', f'{name}: nothing was told of a full standard output')
                elif how != 'unread' or done.returncode != -signal.SIGPIPE:
                    self.assertEqual(done.returncode, 3, f'{name}, {how}: {done.stderr}')
                    self.assertNotEqual(done.stderr, '', f'{name}, {how}')

    def test_a_log_that_is_full(self):
        """What cannot be said on standard error is no reason to stop."""
        whole = self.fresh('whole')
        self.assertEqual(self.start(whole, COMMANDS['preview'][1]).wait(), 0)
        for how in ('2>/dev/full', '2>&-'):
            folder = self.fresh('unsaid')
            code = subprocess.run(['sh', '-c', f'exec "$0" {COMMANDS["preview"][1]} >/dev/null {how}', PROGRAM],
                                  cwd=folder, check=False).returncode
            self.assertEqual(code, 0, how)
            self.assertEqual(self.bytes_in(folder), self.bytes_in(whole), how)
            code = subprocess.run(['sh', '-c', f'exec "$0" nonsense {how}', PROGRAM], cwd=folder, check=False).returncode
            self.assertEqual(code, 2, how)

    def test_decimal_commas(self):
        locales = self.path / 'locales'
        locales.mkdir()
        if not shutil.which('localedef') or subprocess.run(
                ['localedef', '-i', 'de_DE', '-f', 'UTF-8', str(locales / 'de_DE.UTF-8')], capture_output=True,
                check=False).returncode > 1 or not (locales / 'de_DE.UTF-8').exists():
            self.skipTest('no locale with decimal commas can be made here')
        foreign = {**os.environ, 'LOCPATH': str(locales), 'LC_ALL': 'de_DE.UTF-8', 'LANG': 'de_DE.UTF-8'}
        for name in ('preview', 'lay', 'take-off', 'board', 'glare', 'portfolio', 'model'):
            here, there = self.fresh('here'), self.fresh('there')
            self.assertEqual(self.start(here, COMMANDS[name][1]).wait(), 0)
            self.assertEqual(self.start(there, COMMANDS[name][1], env=foreign).wait(), 0)
            self.assertEqual(self.bytes_in(there), self.bytes_in(here), name)

    def test_two_at_once(self):
        for name in ('preview', 'lay', 'board', 'portfolio', 'model'):
            words = COMMANDS[name][1]
            whole = self.fresh('whole')
            self.assertEqual(self.start(whole, words).wait(), 0)
            folder = self.fresh('both')
            both = [self.start(folder, words), self.start(folder, words)]
            self.assertEqual([p.wait() for p in both], [0, 0], name)
            self.assertEqual(self.bytes_in(folder), self.bytes_in(whole), name)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])
