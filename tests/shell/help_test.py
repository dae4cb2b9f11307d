"""`--help` of every command: it shows examples, and every example does what it says when it is typed, in a folder with the demo house."""

import os
import pathlib
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import unittest

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
# What the examples find beside the house.
BESIDE = {
    "monday.csv": "name,amount,unit\nlemon,40,\nquince cordial,2,l\n",
    "sunday.csv": "name,amount,unit\nlemon,12,\nquince cordial,1,l\n",
    "till.csv": "drink,portions\nFustian,30\n",
    "old-specs.txt": "Mill Sour\n60 ml gin\n30 ml lemon juice\n15 ml simple syrup\nshake, strain\n",
}
# These serve until they are ended, once they have said so.
SERVING = {"watch": "127.0.0.1", "lsp": None}


def shown_help(*command):
    return subprocess.run([PROGRAM, *command, "--help"], capture_output=True, text=True, check=True, timeout=60).stdout


def commands():
    return re.findall(r"^  ([a-z]+) {2,}", shown_help().split("Subcommands:")[1], re.MULTILINE)


def examples(command):
    """The lines to type below `Examples:`, up to the next empty line."""
    block = re.search(r"^Examples:\n(.*?)\n\n", shown_help(command) + "\n\n", re.MULTILINE | re.DOTALL)
    return [re.split(r" {2,}", line.strip())[0] for line in block[1].split("\n") if line.startswith("  gill ")] if block else []


class Help(unittest.TestCase):
    def setUp(self):
        self.folder = pathlib.Path(self.enterContext(tempfile.TemporaryDirectory()))
        shutil.copytree(SOURCE / "specs", self.folder / "specs")
        for name, text in BESIDE.items():
            (self.folder / name).write_text(text)
        (self.folder / "bin").mkdir()
        (self.folder / "bin/gill").symlink_to(PROGRAM)
        self.environment = {**os.environ, "PATH": f"{self.folder / 'bin'}:{os.environ['PATH']}", "HOME": str(self.folder)}
        for key in ("AUTHOR", "COMMITTER"):
            self.environment |= {f"GIT_{key}_NAME": "Bench", f"GIT_{key}_EMAIL": "bench@example.org"}
        self.sh("git init -q . && git add specs && git commit -qm before")
        shutil.copytree(self.folder / "specs", self.folder / "specs-before")
        changed = self.folder / "specs/drinks/shaken.gill"
        changed.write_text(changed.read_text().replace("1/2 oz         lemon juice", "2/3 oz         lemon juice"))
        self.sh("git commit -qam after")

    def sh(self, line):
        return subprocess.run(["bash", "-c", line], cwd=self.folder, env=self.environment, stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=120)

    def test_every_command_shows_an_example_of_its_own(self):
        for command in commands():
            with self.subTest(command):
                shown = examples(command)
                self.assertTrue(shown)
                self.assertTrue(all(line.split()[1] == command for line in shown), shown)

    def test_every_line_of_the_help_fits_the_page(self):
        for command in commands():
            for line in shown_help(command).split("\n"):
                self.assertLessEqual(len(line), 190, line)

    def test_every_example_works(self):
        ran = 0
        for command in commands():
            for line in examples(command):
                with self.subTest(line):
                    ran += 1
                    if command in SERVING:
                        self.serves(line, SERVING[command])
                        continue
                    done = self.sh(line)
                    # What fails on warnings, or where something would change, says so by 1.
                    allowed = (0, 1) if "--strict" in line else (0,)
                    self.assertIn(done.returncode, allowed, done.stdout[-600:] + done.stderr[-600:])
                    for made in re.findall(r"(?:--out |>)(\S+)", line):
                        self.assertTrue((self.folder / made).exists(), made)
        self.assertGreater(ran, 35)

    def serves(self, line, word):
        with subprocess.Popen(["bash", "-c", f"exec {line}"], cwd=self.folder, env=self.environment, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True) as server:
            try:
                if word:
                    self.assertTrue(any(word in told for told in server.stdout), line)
                self.assertIsNone(server.poll())
            finally:
                server.send_signal(signal.SIGTERM)


unittest.main(argv=sys.argv[:1], verbosity=1)
