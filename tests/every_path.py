#!/usr/bin/env python3
"""Every command once on every shipped layout, at draft size: for a program built with sanitizers, whose finds end it.

every_path.py PROGRAM SCENES [SHARD/SHARDS | LAYOUT | threads]

A shard is some of the layouts: 1/2 and 2/2 together are all of them; `threads` is what is done by several threads, for
a program under the thread sanitizer. Prints what a layout took, and what failed.
"""
import os
import pathlib
import shutil
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
match --like storm-grey --json
match --lab 60,0,0
glare low-tide.yaml --most-samples 1 --move
cut opus-sampler.yaml
all first-steps.yaml --draft --without portfolio --into everything
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
    def __init__(self, program, folder):
        self.program, self.folder, self.failures = program, folder, []
        self.env = {**os.environ, 'UBSAN_OPTIONS': 'halt_on_error=1:print_stacktrace=1',
                    'ASAN_OPTIONS': 'detect_leaks=0:strict_string_checks=1',
                    # Embree and OpenImageIO are not built with it: what they order among themselves it does not see.
                    'TSAN_OPTIONS': 'halt_on_error=1:ignore_noninstrumented_modules=1'}

    def run(self, words):
        done = subprocess.run([self.program, *words], cwd=self.folder, env=self.env, capture_output=True, text=True,
                              errors='replace', check=False)
        refused = done.returncode == 2 and words[0] in ('board', 'match')  # a layout without a board; a colour out of reach
        if any(word in done.stderr for word in FOUND) or not (done.returncode == 0 or refused):
            self.failures.append(f'{" ".join(words)}: {done.returncode}\n{done.stderr[-4000:]}')

    def lines(self, text, name=''):
        for line in text.strip().splitlines():
            self.run(line.format(name).split())

    def join(self, name):
        for part in sorted((self.folder / 'parts' / name).glob('*.part-1-of-2.exr')):
            other = part.name.replace('part-1', 'part-2')
            self.run(['join', str(part), str(part.with_name(other)), '--into', 'joined'])


def main():
    program, scenes = os.path.abspath(sys.argv[1]), pathlib.Path(sys.argv[2])
    chosen = sys.argv[3] if len(sys.argv) > 3 else '1/1'
    with tempfile.TemporaryDirectory() as folder:
        for file in scenes.iterdir():
            if file.is_file():
                shutil.copy(file, folder)
        runner = Runner(program, pathlib.Path(folder))
        names = sorted(file.stem for file in scenes.glob('*.yaml'))
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
                runner.lines(ON_NONE)
            print(f'{name}: {time.monotonic() - began:.0f} s', flush=True)
    print('\n'.join(runner.failures) or f'{len(names)} layouts: nothing found')
    return bool(runner.failures)


if __name__ == '__main__':
    sys.exit(main())
