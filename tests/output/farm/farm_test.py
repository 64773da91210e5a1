#!/usr/bin/env python3
"""Work handed to many machines, for real: Slurm with two nodes, GNU Parallel over ssh. Machines fail, tasks are killed,
all is called back and handed out again: the same bytes as on one machine, and nothing that was done is done twice.

farm_test.py PROGRAM slurm|parallel
"""
import json
import os
import pathlib
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import unittest

import studio

PROGRAM, KIND = os.path.abspath(sys.argv[1]), sys.argv[2]
PARTS = 5

# Each of five parts is a second or three of work for one processor.
LAYOUT = '''
panel: {name: Tide, size: [120, 90]}
fields: [{name: sea, opus: tessellatum, piece: 12, joint: 2, mix: slate}]
pictures: [{name: straight, size: [48, 1280], grain: 0.1 %, most samples: 64}]
'''
# Names that a shell would take to pieces.
FOLDER = "o'dd $HOME {} \n\"name\""
FILE = "ti'de.yaml"
LIST = f'preview "{FILE}" --save-every 0\nlay "{FILE}" --only pieces\n'


def tree(folder):
    """Finished files and their bytes."""
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob('*')) if p.is_file()}


class Farm(unittest.TestCase):
    def setUp(self):
        self.root = pathlib.Path(tempfile.mkdtemp(prefix='rakelight-farm-'))
        self.root.chmod(0o755)
        self.addCleanup(shutil.rmtree, self.root, ignore_errors=True)
        self.work = self.root / FOLDER
        self.work.mkdir()
        (self.work / FILE).write_text(LAYOUT)
        (self.work / 'night.txt').write_text(LIST)
        self.tasks = self.work / 'renders/night.tasks'
        self.env = dict(os.environ)
        self.killed = 0

    def rakelight(self, *words, code=0):
        done = subprocess.run([PROGRAM, *words], cwd=self.work, env=self.env, capture_output=True, text=True, check=False)
        self.assertEqual(done.returncode, code, f'{words}\n{done.stdout}{done.stderr}')
        return done.stdout

    def batch(self, *words, code=0):
        return self.rakelight('batch', 'night.txt', '--page', '--on', KIND, '--parts', str(PARTS), '--threads', '1',
                              *words, code=code)

    def status(self):
        return json.loads(self.rakelight('status', str(self.tasks), '--json'))

    def stand(self):
        """Counts of all tasks and of the parts, and everything that was said, to be read when it goes wrong."""
        status = self.status()
        return {**{k: status[k] for k in ('tasks', 'done', 'running', 'failed', 'left')}, 'parts': status['jobs'][0]['done']}

    def logs(self):
        return '\n'.join(f'--- {f.name}\n{f.read_text()}' for f in sorted((self.tasks / 'logs').glob('*')))

    def wait_for(self, what, check, seconds=60):
        try:
            return studio.wait_for(what, lambda: check(self.stand()), seconds)
        except AssertionError as e:
            raise AssertionError(f'{e}: {self.stand()}\n{self.logs()}') from None

    def check_result(self):
        self.assertEqual(self.stand(), {'tasks': PARTS + 3, 'done': PARTS + 3, 'running': 0, 'failed': 0, 'left': 0,
                                        'parts': PARTS}, self.logs())
        # One machine, another folder, the same names.
        single = self.root / 'single'
        single.mkdir()
        for name in (FILE, 'night.txt'):
            shutil.copy(self.work / name, single)
        subprocess.run([PROGRAM, 'batch', 'night.txt', '--page'], cwd=single, check=True, capture_output=True)
        ours, theirs = tree(self.work / 'renders/ti-de'), tree(single / 'renders/ti-de')
        self.assertEqual(sorted(ours), sorted(theirs))
        self.assertEqual([name for name in ours if ours[name] != theirs[name]], [])
        # A part says its name when it is done: once, or not at all if it was killed between its last byte and that word.
        told = re.findall(r'part-(\d+)-of-\d+\.exr$', self.logs(), re.MULTILINE)
        self.assertEqual(len(set(told)), len(told), self.logs())
        self.assertGreaterEqual(len(told), PARTS - self.killed, self.logs())

    def check_nothing_is_left_to_do(self):
        before = tree(self.tasks / 'logs')
        self.assertIn('0 tasks to do', self.batch())
        self.assertEqual(tree(self.tasks / 'logs'), before)


class OnSlurm(Farm):
    def setUp(self):
        if why := studio.why_not('slurm'):
            self.skipTest(why)
        super().setUp()
        self.slurm = studio.Slurm(self.root / 'slurm')
        self.addCleanup(self.slurm.stop)
        self.env = self.slurm.env

    def test_machines_and_tasks_that_fail(self):
        self.batch()
        self.wait_for('two tasks', lambda n: n['running'] == 2)
        # A task in the middle: its process is gone, and with it the join that needs it.
        victim = self.slurm.on_node('one')
        self.assertTrue(victim)
        for pid in victim:
            studio.end(pid, signal.SIGKILL)
        self.killed += 1
        # A machine: what ran on it is queued again by itself.
        self.wait_for('a part on two', lambda n: n['running'] >= 1 and self.slurm.on_node('two'))
        self.slurm.kill_node('two')
        self.killed += 1
        self.wait_for('a part', lambda n: n['parts'] >= 1 and n['running'] >= 1)
        self.slurm.start_node('two')
        # All of it is called back, and handed out again.
        self.slurm.ask('scancel', *(self.tasks / 'slurm-jobs').read_text().split())
        self.wait_for('rest', lambda n: n['running'] == 0 and not self.slurm.ask('squeue', '-h').strip())
        stand = self.stand()
        self.assertLess(stand['done'], stand['tasks'])
        out = self.batch()
        self.assertIn(f'{PARTS + 3 - stand["done"]} tasks to do', out)
        self.wait_for('the end', lambda n: n['done'] == n['tasks'], 90)
        self.check_result()
        self.check_nothing_is_left_to_do()

    def test_another_scene_is_refused(self):
        self.batch('--dry-run')
        self.assertFalse((self.tasks / 'slurm-jobs').exists())
        (self.work / FILE).write_text(LAYOUT.replace('joint: 2', 'joint: 3'))
        done = studio.run([PROGRAM, 'task', self.tasks, '1-1'], cwd=self.work)
        self.assertEqual(done.returncode, 2, done.stderr)
        self.assertIn('has changed', done.stderr)
        self.assertEqual(self.status()['failures'][0]['task'], '1-1')


class OnParallel(Farm):
    def setUp(self):
        if why := studio.why_not('parallel'):
            self.skipTest(why)
        super().setUp()
        (self.root / 'ssh').mkdir()
        self.sshd = studio.Sshd(self.root / 'ssh')
        self.addCleanup(self.sshd.stop)
        self.addCleanup(lambda: [studio.end(pid) for pid in self.running()])
        (self.work / 'machines').write_text(self.sshd.machine() + '\n' + self.sshd.machine('localhost') + '\n')

    def test_machines_and_tasks_that_fail(self):
        words = ('--machines', 'machines')
        out = (self.root / 'out').open('w')
        with subprocess.Popen([PROGRAM, 'batch', 'night.txt', '--page', '--on', KIND, '--parts', str(PARTS), '--threads',
                               '1', *words], cwd=self.work, stdout=out, stderr=out, start_new_session=True) as farm:
            studio.wait_for('a task', lambda: (self.tasks / 'state/1-1').exists())
            self.wait_for('a part, and others', lambda n: n['parts'] >= 1 and n['running'] >= 1)
            # A task in the middle: it is begun again elsewhere.
            for pid in self.running():
                studio.end(pid, signal.SIGKILL)
                self.killed += 1
                break
            self.wait_for('more parts', lambda n: n['parts'] >= 2 and n['running'] >= 1)
            os.killpg(farm.pid, signal.SIGTERM)  # the first lets what runs end, the second does not
            os.killpg(farm.pid, signal.SIGTERM)
        for pid in self.running():  # what ssh leaves behind
            studio.end(pid)
        self.wait_for('rest', lambda n: n['running'] == 0)
        stand = self.stand()
        self.assertLess(stand['done'], stand['tasks'])
        self.batch(*words)
        self.check_result()
        self.check_nothing_is_left_to_do()

    def running(self):
        return [pid for pid in studio.marked(f'RAKELIGHT_TASKS={self.tasks}') if
                pathlib.Path(f'/proc/{pid}/comm').read_text().strip() == 'rakelight']


if __name__ == '__main__':
    case = {'slurm': OnSlurm, 'parallel': OnParallel}[KIND]
    result = unittest.TextTestRunner(verbosity=2).run(unittest.defaultTestLoader.loadTestsFromTestCase(case))
    if result.skipped and result.testsRun == len(result.skipped):
        print('skipped:', result.skipped[0][1])
        sys.exit(77)
    sys.exit(not result.wasSuccessful())
