"""The Debian package: made, unpacked, run, completed from and read.

Judges: dpkg and ldd for dependencies; bash, zsh and fish for completion; man and lexgrog for the pages; `--help`, which
the program is typed by, for names of commands and options.

package_test.py CPACK BUILD VERSION [unittest arguments]            in a folder, in seconds
package_test.py --clean-root CPACK BUILD VERSION                    in a bare Debian 12, in a minute or two; code 77
                                                                    where there can be none
"""
import os
import pty
import re
import select
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import unittest
from pathlib import Path

SKIPPED = 77
EXAMPLES = "usr/share/doc/rakelight/examples"
PREVIEW = ["--size", "60x40", "--most-samples", "16", "--quiet"]


def run(*words, **options):
    return subprocess.run([str(w) for w in words], capture_output=True, text=True, **options)


def said(*words, **options):
    done = run(*words, **options)
    assert done.returncode == 0, f"{words} ended with {done.returncode}\n{done.stdout}{done.stderr}"
    return done.stdout


def made_package(cpack, build, folder):
    said(cpack, "-G", "DEB", "-B", folder / "made", cwd=build)
    return next((folder / "made").glob("*.deb"))


class Package(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = Path(tempfile.mkdtemp(prefix="rakelight-package-"))
        cls.addClassCleanup(shutil.rmtree, cls.folder)
        cls.deb = made_package(CPACK, BUILD, cls.folder)
        cls.root = cls.folder / "root"
        said("dpkg-deb", "-x", cls.deb, cls.root)
        cls.program = cls.root / "usr/bin/rakelight"
        listed = said(cls.program, "--help").split("Commands", 1)[1].split("\n\n")[0]
        cls.commands = re.findall(r"^  (\S+)", listed, re.M)
        cls.helps = {c: said(cls.program, c, "--help") for c in cls.commands}

    def options(self, command):
        """Long options as its help lists them."""
        return set(re.findall(r"^  (?:-\w, )?(--[\w-]+)", self.helps[command], re.M))

    def test_version_stands_in_one_place(self):
        self.assertEqual(said("dpkg-deb", "-f", self.deb, "Version").strip(), VERSION)
        self.assertEqual(said(self.program, "--version").splitlines()[0], f"rakelight {VERSION}")

    def test_depends_on_every_library(self):
        depends = said("dpkg-deb", "-f", self.deb, "Depends")
        named = set(re.findall(r"(?:^|, )([a-z0-9.+-]+)", depends))
        self.assertNotIn("not found", said("ldd", self.program))
        needed = re.findall(r"NEEDED\s+(\S+)", said("objdump", "-p", self.program))
        self.assertGreater(len(needed), 8)
        places = dict(re.findall(r"(\S+) => (\S+)", said("ldd", self.program)))
        for library in needed:
            if library not in places:
                continue  # the loader itself
            where = Path(places[library])
            owner = run("dpkg", "-S", where)
            if owner.returncode != 0:  # a merged /usr
                owner = run("dpkg", "-S", where.resolve())
            self.assertIn(owner.stdout.split(":")[0], named, f"{library} of {owner.stdout}")

    def test_every_example_is_in_order(self):
        layouts = sorted((self.root / EXAMPLES).glob("*.yaml"))
        self.assertGreaterEqual(len(layouts), 8)
        for layout in layouts:
            with self.subTest(layout.name):
                said(self.program, "check", layout)

    def test_first_steps_are_rendered(self):
        said(self.program, "preview", self.root / EXAMPLES / "first-steps.yaml", *PREVIEW, cwd=self.folder)
        for name in ["straight.png", "straight.exr", "straight.json"]:
            self.assertGreater((self.folder / "renders/first-steps" / name).stat().st_size, 500, name)

    def test_licences(self):
        text = (self.root / "usr/share/doc/rakelight/copyright").read_text()
        self.assertIn("Permission is hereby granted, free of charge", text)  # MIT
        self.assertIn("Neither the name of", text)  # BSD-3-Clause
        self.assertIn("Redistributions in binary form must reproduce", text)

    @unittest.skipUnless(shutil.which("man"), "no man")
    def test_man_pages(self):
        pages = self.root / "usr/share/man/man1"
        if not pages.exists():
            self.skipTest("built without pandoc")
        expected = {"rakelight.1.gz"} | {f"rakelight-{c}.1.gz" for c in self.commands}
        self.assertEqual({p.name for p in pages.iterdir()}, expected)
        names = said("lexgrog", *sorted(pages.iterdir()))
        self.assertEqual(names.count("\n"), len(expected))
        env = dict(os.environ, MANWIDTH="80", LC_ALL="C.UTF-8", MAN_KEEP_FORMATTING="")
        for command in [None, *self.commands]:
            name = "rakelight" + (f"-{command}" if command else "")
            with self.subTest(name):
                done = run("man", "--warnings", "-l", pages / f"{name}.1.gz", env=env)
                self.assertEqual((done.returncode, done.stderr), (0, ""))
                text = done.stdout.replace("\u2010\n", "").replace("\u2010", "-")
                for section in ["NAME", "SYNOPSIS", "OPTIONS", "EXIT STATUS"]:
                    self.assertRegex(text, rf"(?m)^{section}$")
                for option in self.options(command) if command else ["--help", "--version"]:
                    self.assertRegex(text, rf"(?m)^       (-\w, )?{option}\b")

    def test_completion_of_bash(self):
        script = self.root / "usr/share/bash-completion/completions/rakelight"

        def offered(*words, cwd=self.root / EXAMPLES):
            line = 'source "$1"; shift; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _rakelight; printf "%s\\n" "${COMPREPLY[@]}"'
            done = run("bash", "-c", line, "bash", script, "rakelight", *words, cwd=cwd)
            self.assertEqual(done.stderr, "")
            return set(done.stdout.split())

        self.assertEqual(offered(""), set(self.commands))
        self.assertEqual(offered("previ"), {"preview"})
        for command in self.commands:
            self.assertEqual(offered(command, "--"), self.options(command), command)
        self.assertEqual(offered("preview", "fi"), {"first-steps.yaml"})
        self.assertNotIn("squall.png", offered("preview", "squ"))
        self.assertEqual(offered("preview", "first-steps.yaml", "--into", "ex", cwd=self.root / EXAMPLES / ".."), {"examples"})
        self.assertEqual(offered("completion", ""), {"bash", "zsh", "fish"})

    @unittest.skipUnless(shutil.which("fish"), "no fish")
    def test_completion_of_fish(self):
        script = self.root / "usr/share/fish/vendor_completions.d/rakelight.fish"
        env = dict(os.environ, HOME=str(self.folder))

        def offered(line):
            text = said("fish", "--no-config", "-c", f"source {script}; complete -C '{line}'", cwd=self.root / EXAMPLES, env=env)
            return {row.split("\t")[0] for row in text.splitlines()}

        self.assertEqual(offered("rakelight "), set(self.commands))
        for command in self.commands:
            self.assertEqual(offered(f"rakelight {command} --"), self.options(command), command)
        self.assertIn("first-steps.yaml", offered("rakelight preview fi"))
        self.assertEqual(offered("rakelight completion "), {"bash", "zsh", "fish"})

    @unittest.skipUnless(shutil.which("zsh"), "no zsh")
    def test_completion_of_zsh(self):
        """A tab typed on a terminal, until all that is expected stands there."""
        script = self.root / "usr/share/zsh/vendor-completions/_rakelight"
        said("zsh", "-n", script)
        for line, expected in [("rakelight ", self.commands), *((f"rakelight {c} --", self.options(c)) for c in ("preview", "match"))]:
            with self.subTest(line):
                missing = zsh_does_not_offer(script.parent, line, expected)
                self.assertFalse(missing, f"{line}: {missing}")


def zsh_does_not_offer(folder, line, expected):
    child, terminal = pty.fork()
    if child == 0:
        os.environ.update(TERM="dumb", COLUMNS="200", LINES="100")
        os.execvp("zsh", ["zsh", "-f", "-i"])
    begin = f"fpath=({folder} $fpath); autoload -U compinit; compinit -u -D; LISTMAX=1000; bindkey '^I' list-choices; echo rea''dy\n"
    os.write(terminal, begin.encode())
    text, typed, end = "", False, time.monotonic() + 60
    missing = set(expected)
    while missing and time.monotonic() < end:
        if select.select([terminal], [], [], 0.2)[0]:
            text += os.read(terminal, 65536).decode(errors="replace")
        if not typed and "\nready" in text.replace("\r", ""):
            os.write(terminal, (line + "\t").encode())
            text, typed = "", True
        missing = {word for word in missing if not typed or not re.search(rf"(?m)^{word}\s", text.replace("\r", ""))}
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    os.close(terminal)
    return missing


def in_clean_root():
    if os.geteuid() != 0:
        print("not root: no clean root can be made")
        return SKIPPED
    if not shutil.which("mmdebstrap"):
        print("no mmdebstrap: no clean root can be made")
        return SKIPPED
    folder = Path(tempfile.mkdtemp(prefix="rakelight-root-"))
    try:
        deb, root = made_package(CPACK, BUILD, folder), folder / "root"
        bare = run("mmdebstrap", "--quiet", "--mode=root", "--variant=apt", "bookworm", root)
        if bare.returncode != 0:
            print("no Debian to be had from the network:", bare.stderr[-500:])
            return SKIPPED
        shutil.copy(deb, root / "tmp/rakelight.deb")
        # With a /proc of its own, which goes away with the process.
        inside = ["unshare", "--mount", "--pid", "--fork", f"--mount-proc={root / 'proc'}", "chroot"]
        said(*inside, root, "sh", "-c", "apt-get update -qq && apt-get install -y -qq --no-install-recommends /tmp/rakelight.deb")
        # As one who may write nowhere but in a folder of his own.
        print(said(*inside, "--userspec=nobody:nogroup", root, "sh", "-c",
                   "export HOME=/tmp && cd $(mktemp -d) && rakelight --version && "
                   f"rakelight preview /{EXAMPLES}/first-steps.yaml {' '.join(PREVIEW)} && test -s renders/first-steps/straight.png && "
                   f"rakelight lay /{EXAMPLES}/kelp.yaml --only colours --px-per-mm 1 && test -s renders/kelp/laying.png"))
        left = said(*inside, root, "sh", "-c", "dpkg --purge rakelight >/dev/null; find / -xdev -path /proc -prune -o -name '*rakelight*' "
                    "-not -path '/tmp/*' -not -path '/var/*' -print")
        assert left == "", f"purged, but there is {left}"
        return 0
    finally:
        shutil.rmtree(folder, ignore_errors=True)


if __name__ == "__main__":
    clean = sys.argv[1] == "--clean-root"
    CPACK, BUILD, VERSION = sys.argv[1 + clean : 4 + clean]
    if clean:
        sys.exit(in_clean_root())
    unittest.main(argv=[sys.argv[0], *sys.argv[4:]])
