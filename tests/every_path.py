#!/usr/bin/env python3
"""Every command once on every shipped layout, at draft size: for a program built with sanitizers, whose finds end it.

every_path.py PROGRAM SCENES [SHARD/SHARDS | LAYOUT | threads] [SECONDS]

Begins no other command after so many seconds, and says what was left out. A shard is some of the layouts: 1/2 and 2/2
together are all of them; `threads` is what is done by several threads, for a program under the thread sanitizer. Prints
what a layout took, and what failed.
"""
import os
import pathlib
import shutil
import signal
import subprocess
import sys
import tempfile
import time

FOUND = ('Sanitizer', 'runtime error:')

# What every layout is put through; {0} is its name.
ON_EACH = '''
check {0}.yaml
lay {0}.yaml
stock {0}.yaml
take-off {0}.yaml
glare {0}.yaml --most-samples 1
board {0}.yaml --most-samples 1 --pixels 32
preview {0}.yaml --most-samples 1 --size 32x24 --quiet
portfolio {0}.yaml --most-samples 1 --dpi 36
model {0}.yaml --detail 2
clip {0}.yaml --size 32x18 --seconds 0.1 --most-samples 1 --quiet
page renders/{0} --layout {0}.yaml
lay {0}.yaml --pieces renders/{0}/pieces.csv --into again
'''

# What one layout is put through as well.
ONE = 'first-steps'
ON_ONE = '''
check {0}.yaml --json
lay {0}.yaml --pieces renders/{0}/pieces.json --into again
lay {0}.yaml --with faults --into again
study renders/{0}/straight.exr --layout {0}.yaml --reference renders/{0}/straight.png
preview {0}.yaml --most-samples 1 --size 32x24 --estimate
preview {0}.yaml --most-samples 1 --size 32x32 --part 1/2 --into parts --quiet
preview {0}.yaml --most-samples 1 --size 32x32 --part 2/2 --into parts --quiet
batch {0}.yaml --most-samples 1 --size 32x24 --page --quiet
batch {0}.yaml --most-samples 1 --size 32x32 --on slurm --parts 2 --into farm --dry-run
task farm/{0}.tasks 1-1
task farm/{0}.tasks 1-2
task farm/{0}.tasks 2-1
status farm/{0}.tasks
status farm/{0}.tasks --json
preview {0}.yaml --most-samples 1 --size 64x48 --picture straight --into shot --quiet
compare shot/{0}/straight.png shot/{0}/straight.exr --corners 9,7 54,7 54,40 9,40 --picture-corners 9,7 54,7 54,40 9,40 --layout {0}.yaml --into shot
'''

# Once.
ON_NONE = '''
--version
--help
keys --markdown
keys --schema
manual
completion bash
completion zsh
completion fish
marks
samples bench.yaml
unwrap low-tide.jpg --ball 400,300,200 --seconds 1/30 --width 64 --as hall.exr
match --like storm-grey --json
match --lab 60,0,0
glare kelp.yaml --most-samples 1 --move
cut opus-sampler.yaml
all first-steps.yaml --draft --without portfolio,glare --into everything
'''

# By several threads: laying, forms, tiles in bands and in passes, boards, glare, jobs of a batch.
THREADED = '''
lay opus-sampler.yaml --only pieces
preview {0}.yaml --most-samples 32 --size 160x120 --quiet
preview {0}.yaml --most-samples 8 --size 160x120 --part 1/2 --into parts --quiet
preview squall.yaml --most-samples 2 --size 64x48 --quiet
board grout-sampler.yaml --most-samples 1 --pixels 64
glare {0}.yaml --most-samples 2
batch {0}.yaml --most-samples 2 --size 64x48 --page --quiet --into jobs
'''


class Runner:
    def __init__(self, program, folder, seconds):
        self.program, self.folder, self.failures, self.left_out = program, folder, [], 0
        self.end = time.monotonic() + seconds
        self.env = {**os.environ, 'UBSAN_OPTIONS': 'halt_on_error=1:print_stacktrace=1',
                    'ASAN_OPTIONS': 'detect_leaks=0:strict_string_checks=1',
                    # Embree and OpenImageIO are not built with it: what they order among themselves it does not see.
                    'TSAN_OPTIONS': 'halt_on_error=1:ignore_noninstrumented_modules=1'}

    def run(self, words):
        if time.monotonic() > self.end:
            self.left_out += 1
            return
        done = subprocess.run([self.program, *words], cwd=self.folder, env=self.env, capture_output=True, text=True,
                              errors='replace', check=False)
        refused = done.returncode == 2 and words[0] in ('board', 'match')  # a layout without a board; a colour out of reach
        if any(word in done.stderr for word in FOUND) or not (done.returncode == 0 or refused):
            self.failures.append(f'{" ".join(words)}: {done.returncode}\n{done.stderr[-4000:]}')

    def lines(self, text, name=''):
        for line in text.strip().splitlines():
            self.run(line.format(name).split())

    def watch(self, name):
        """A save, another, and the end."""
        if time.monotonic() > self.end:
            self.left_out += 1
            return
        layout, picture = self.folder / f'{name}.yaml', self.folder / 'watched' / name / 'straight.png'
        words = ['watch', layout.name, '--size', '32x24', '--most-samples', '1', '--into', 'watched']
        with tempfile.TemporaryFile() as told, subprocess.Popen([self.program, *words], cwd=self.folder, env=self.env, stdout=told,
                                                                stderr=told) as watch:
            for _ in range(2):
                wait_until(lambda: picture.exists() or watch.poll() is not None)
                picture.unlink(missing_ok=True)
                layout.write_text(layout.read_text() + '\n# saved\n')
            watch.send_signal(signal.SIGINT)
            code = watch.wait(120)
            told.seek(0)
            said = told.read().decode(errors='replace')
        if any(word in said for word in FOUND) or code not in (0, 130):
            self.failures.append(f'{" ".join(words)}: {code}\n{said[-4000:]}')

    def join(self, name):
        for part in sorted((self.folder / 'parts' / name).glob('*.part-1-of-2.exr')):
            other = part.name.replace('part-1', 'part-2')
            self.run(['join', str(part), str(part.with_name(other)), '--into', 'joined'])


def wait_until(check, seconds=120):
    end = time.monotonic() + seconds
    while not check() and time.monotonic() < end:
        time.sleep(0.1)


def write_samples(folder):
    """A picture of a chart and two grouts in a grey light, and the file that says what lies where."""
    lab = [[float(v) for v in line.split(',')[-3:]] for line in
           (pathlib.Path(__file__).parent / 'data/chart24_lab.csv').read_text().splitlines()[2:]]
    pixels = bytearray(bytes([120, 118, 116]) * (640 * 400))

    def fill(x, y, size, colour):
        for row in range(y, y + size):
            pixels[3 * (640 * row + x):3 * (640 * row + x + size)] = bytes(colour) * size

    for k, colour in enumerate(lab):
        fill(20 + 60 * (k % 6), 20 + 60 * (k // 6), 60, srgb(*colour))
    fill(420, 40, 80, [90, 80, 70])
    fill(520, 40, 80, [160, 165, 170])
    (folder / 'bench.ppm').write_bytes(b'P6 640 400 255\n' + pixels)
    (folder / 'bench.yaml').write_text(
        'photographs:\n  - picture: bench.ppm\n    chart: {corners: [[20, 20], [380, 20], [380, 260], [20, 260]]}\n    samples:\n'
        '      - {name: dry grout, rectangle: [430, 50, 60, 60]}\n      - {name: wet grout, rectangle: [530, 50, 60, 60]}\n'
        'samples:\n  dry grout: {kind: cement}\n  wet grout: {kind: cement}\n')


def srgb(lightness, a, b):
    """CIE 15 and IEC 61966-2-1: a colour of CIELAB, its white made that of sRGB, in bytes."""
    fy = (lightness + 16) / 116
    x, y, z = (w * (f ** 3 if f > 6 / 29 else (f - 4 / 29) * 108 / 841)
               for w, f in ((0.9505, fy + a / 500), (1, fy), (1.089, fy - b / 200)))
    linear = (3.2406 * x - 1.5372 * y - 0.4986 * z, -0.9689 * x + 1.8758 * y + 0.0415 * z, 0.0557 * x - 0.204 * y + 1.057 * z)
    curve = (12.92 * v if v <= 0.0031308 else 1.055 * v ** (1 / 2.4) - 0.055 for v in (min(max(v, 0), 1) for v in linear))
    return [round(255 * v) for v in curve]


def main():
    program, scenes = os.path.abspath(sys.argv[1]), pathlib.Path(sys.argv[2])
    chosen = sys.argv[3] if len(sys.argv) > 3 else '1/1'
    seconds = float(sys.argv[4]) if len(sys.argv) > 4 else float('inf')
    with tempfile.TemporaryDirectory() as folder:
        for file in scenes.iterdir():
            if file.is_file():
                shutil.copy(file, folder)
        runner = Runner(program, pathlib.Path(folder), seconds)
        names = sorted((file.stem for file in scenes.glob('*.yaml')), key=lambda name: (name != ONE, name))
        if '/' in chosen:
            which, of = (int(n) for n in chosen.split('/'))
            names = names[which - 1::of]
        else:
            names = [chosen]
        for name in names:
            began = time.monotonic()
            if name == 'threads':
                runner.lines(THREADED, ONE)
                print(f'threads: {time.monotonic() - began:.0f} s', flush=True)
                continue
            runner.lines(ON_EACH, name)
            if name == ONE:
                runner.lines(ON_ONE, name)
                runner.join(name)
                runner.watch(name)
                write_samples(runner.folder)
                runner.lines(ON_NONE)
            print(f'{name}: {time.monotonic() - began:.0f} s', flush=True)
    left_out = f'; {runner.left_out} commands left out for want of time' if runner.left_out else ''
    print('\n'.join(runner.failures) or f'{len(names)} layouts: nothing found{left_out}')
    return bool(runner.failures)


if __name__ == '__main__':
    sys.exit(main())
