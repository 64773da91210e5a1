"""A studio of a few machines on this one: Slurm with two nodes (slurm.conf(5), munged(8)), an sshd on the loopback
interface (sshd_config(5)). Everything lies in a folder of the test; what is started is ended by its own number.
"""
import os
import pathlib
import shutil
import signal
import socket
import subprocess
import time

NEEDED = {'slurm': ['munged', 'slurmctld', 'slurmd', 'sbatch', 'scontrol', 'squeue', 'scancel'],
          'parallel': ['parallel', 'sshd', 'ssh-keygen', 'ssh']}


def why_not(kind):
    """Why such a studio cannot be set up here; empty where it can."""
    if os.geteuid() != 0:
        return 'only root can start its daemons'
    missing = [name for name in NEEDED[kind] if not shutil.which(name, path=PATH)]
    return f'not installed: {", ".join(missing)}' if missing else ''


PATH = os.environ.get('PATH', '') + ':/usr/sbin:/sbin'


def free_port():
    with socket.socket() as probe:
        probe.bind(('127.0.0.1', 0))
        return probe.getsockname()[1]


def wait_for(what, check, seconds=60):
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        found = check()
        if found:
            return found
        time.sleep(0.1)
    raise AssertionError(f'waited {seconds} s for {what}')


def run(words, **how):
    return subprocess.run([str(w) for w in words], capture_output=True, text=True, check=False, **how)


def alive(pid):
    try:
        return pathlib.Path(f'/proc/{pid}/stat').read_text().rsplit(')', 1)[1].split()[0] != 'Z'
    except OSError:
        return False


def end(pid, how=signal.SIGTERM, seconds=10):
    """Ends a process of ours."""
    try:
        os.kill(pid, how)
        limit = time.monotonic() + seconds
        while alive(pid) and time.monotonic() < limit:
            time.sleep(0.05)
        if alive(pid):
            os.kill(pid, signal.SIGKILL)
    except ProcessLookupError:
        pass


def marked(mark):
    """Processes with this text in their environment: ours alone, since it names a folder of the test."""
    found = []
    for proc in pathlib.Path('/proc').glob('[0-9]*'):
        try:
            if mark.encode() in (proc / 'environ').read_bytes().split(b'\0'):
                found.append(int(proc.name))
        except OSError:
            continue
    return found


class Slurm:
    """Two nodes, `one` and `two`, of one processor each."""

    def __init__(self, folder):
        self.folder = pathlib.Path(folder)
        self.env = {**os.environ, 'PATH': PATH, 'SLURM_CONF': str(self.folder / 'slurm.conf')}
        for name in ('munge', 'log', 'state'):
            (self.folder / name).mkdir(parents=True)
        self._munge()
        ports = [free_port() for _ in range(3)]
        host = socket.gethostname().split('.')[0]
        self._write(host, ports)
        self._start('slurmctld', '-f', self.folder / 'slurm.conf')
        for node in ('one', 'two'):
            self.start_node(node)
        wait_for('two idle nodes', lambda: self.ask('sinfo', '-h', '-t', 'idle', '-o', '%D').strip() == '2', 30)

    def _munge(self):
        key = self.folder / 'munge.key'
        key.write_bytes(os.urandom(1024))
        key.chmod(0o400)
        for path in (key, self.folder / 'munge'):
            shutil.chown(path, 'munge', 'munge')
        inside = self.folder / 'munge'
        self._check(run(['runuser', '-u', 'munge', '--', 'munged', f'--key-file={key}', '--force',
                         f'--socket={inside}/munge.sock', f'--pid-file={inside}/munged.pid',
                         f'--log-file={inside}/munged.log', f'--seed-file={inside}/munged.seed'], env=self.env))

    def _write(self, host, ports):
        t = self.folder
        (t / 'slurm.conf').write_text(f'''ClusterName=studio
SlurmctldHost={host}(127.0.0.1)
SlurmctldPort={ports[0]}
SlurmUser=root
SlurmdUser=root
AuthType=auth/munge
AuthInfo=socket={t}/munge/munge.sock,cred_expire=5
CredType=cred/munge
StateSaveLocation={t}/state
SlurmdSpoolDir={t}/spool-%n
SlurmctldPidFile={t}/slurmctld.pid
SlurmdPidFile={t}/slurmd-%n.pid
SlurmctldLogFile={t}/log/ctld.log
SlurmdLogFile={t}/log/%n.log
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
SelectType=select/cons_tres
SchedulerType=sched/backfill
SchedulerParameters=bf_interval=1,sched_interval=1,sched_min_interval=100000
MpiDefault=none
JobAcctGatherType=jobacct_gather/none
KillWait=5
ReturnToService=2
NodeName=one NodeHostname={host} NodeAddr=127.0.0.1 Port={ports[1]} CPUs=1 State=UNKNOWN
NodeName=two NodeHostname={host} NodeAddr=127.0.0.1 Port={ports[2]} CPUs=1 State=UNKNOWN
PartitionName=main Nodes=ALL Default=YES MaxTime=INFINITE State=UP
''')

    def _check(self, done):
        if done.returncode != 0:
            raise AssertionError(f'{done.args}: {done.returncode}\n{done.stdout}{done.stderr}')
        return done.stdout

    def _start(self, *words):
        self._check(run(words, env=self.env))

    def start_node(self, node):
        self._start('slurmd', '-f', self.folder / 'slurm.conf', '-N', node)

    def ask(self, *words):
        return self._check(run(words, env=self.env))

    def on_node(self, node):
        """Processes of tasks that run on a node."""
        return [pid for pid in marked(f'SLURMD_NODENAME={node}') if pid in marked(f'SLURM_CONF={self.folder}/slurm.conf')]

    def kill_node(self, node):
        """As when its plug is pulled: nothing on it says goodbye."""
        number = int((self.folder / f'slurmd-{node}.pid').read_text())
        steps = [int(p.name) for p in pathlib.Path('/proc').glob('[0-9]*') if self._is_step(p, node)]
        for pid in [number, *steps, *self.on_node(node)]:
            end(pid, signal.SIGKILL)
        self.ask('scontrol', 'update', f'nodename={node}', 'state=down', 'reason=pulled')

    def _is_step(self, proc, node):
        try:
            if not (proc / 'comm').read_text().startswith('slurmstepd'):
                return False
            return any(str(self.folder / f'spool-{node}') in os.readlink(fd) for fd in (proc / 'fd').iterdir())
        except OSError:
            return False

    def stop(self):
        run(['scancel', '--full', '-u', 'root'], env=self.env)
        for name in ('slurmd-one.pid', 'slurmd-two.pid', 'slurmctld.pid', 'munge/munged.pid'):
            file = self.folder / name
            if file.exists():
                end(int(file.read_text()))
        for pid in marked(f'SLURM_CONF={self.folder}/slurm.conf'):
            if pid != os.getpid():
                end(pid, signal.SIGKILL)


class Sshd:
    """An sshd on a port of the loopback interface that lets one key in, as root."""

    def __init__(self, folder):
        self.folder = pathlib.Path(folder)
        self.port = free_port()
        for name in ('host', 'own'):
            run(['ssh-keygen', '-q', '-t', 'ed25519', '-N', '', '-f', self.folder / name], env={**os.environ, 'PATH': PATH})
        (self.folder / 'allowed').write_text((self.folder / 'own.pub').read_text())
        (self.folder / 'sshd_config').write_text(f'''ListenAddress 127.0.0.1
Port {self.port}
HostKey {self.folder}/host
AuthorizedKeysFile {self.folder}/allowed
PidFile {self.folder}/sshd.pid
StrictModes no
UsePAM no
PasswordAuthentication no
PermitRootLogin prohibit-password
MaxStartups 50
''')
        pathlib.Path('/run/sshd').mkdir(exist_ok=True)
        self.process = subprocess.Popen([shutil.which('sshd', path=PATH), '-D', '-f', str(self.folder / 'sshd_config'),
                                         '-E', str(self.folder / 'sshd.log')])
        wait_for('sshd', self._answers, 20)

    def _answers(self):
        with socket.socket() as probe:
            return probe.connect_ex(('127.0.0.1', self.port)) == 0

    def machine(self, name='127.0.0.1'):
        """A line of the file of machines."""
        return (f'ssh -p {self.port} -i {self.folder}/own -o StrictHostKeyChecking=no -o UserKnownHostsFile=/dev/null'
                f' -o LogLevel=ERROR root@{name}')

    def stop(self):
        self.process.terminate()
        self.process.wait(timeout=10)
