"""The page of the manual, as it is installed: `man` and `mandoc` read it without a warning, and it tells of every command and option that
the help knows, and of no other. Left out where neither is installed."""

import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import unittest

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
# The page carries no date: it is the program's of that version, and the same bytes come out of every build.
WITHOUT_DATE = "missing date"


def shown_help(*command):
    return subprocess.run([PROGRAM, *command, "--help"], capture_output=True, text=True, check=True, timeout=60).stdout


class Manual(unittest.TestCase):
    def setUp(self):
        self.prefix = pathlib.Path(self.enterContext(tempfile.TemporaryDirectory())) / "prefix"
        subprocess.run(["cmake", "--install", PROGRAM.parent, "--prefix", self.prefix, "--component", "documents"], check=True, capture_output=True, timeout=60)
        self.page = self.prefix / "share/man/man1/gill.1"

    @unittest.skipUnless(shutil.which("mandoc"), "mandoc is not installed")
    def test_mandoc_finds_nothing(self):
        told = subprocess.run(["mandoc", "-T", "lint", "-W", "warning", self.page], capture_output=True, text=True, timeout=60).stdout
        self.assertEqual([line for line in told.splitlines() if WITHOUT_DATE not in line], [])

    @unittest.skipUnless(shutil.which("man") and shutil.which("groff"), "man is not installed")
    def test_man_warns_of_nothing(self):
        done = subprocess.run(["man", "--warnings", "-l", "-Tutf8", "-Z", self.page], capture_output=True, text=True, timeout=60, env={"PATH": "/usr/bin:/bin", "LC_ALL": "C.UTF-8", "MANROFFSEQ": ""})
        self.assertEqual((done.returncode, done.stderr), (0, ""))

    @unittest.skipUnless(shutil.which("mandoc"), "mandoc is not installed")
    def test_it_tells_of_every_command_and_option_and_of_no_other(self):
        text = subprocess.run(["mandoc", "-T", "utf8", self.page], capture_output=True, text=True, check=True, timeout=60).stdout
        text = re.sub(r".\x08", "", text)
        sections = dict(re.findall(r"^   gill ([a-z]+)\n(.*?)(?=^   gill |^[A-Z])", text, re.MULTILINE | re.DOTALL))
        commands = re.findall(r"^  ([a-z]+) {2,}", shown_help().split("Subcommands:")[1], re.MULTILINE)
        self.assertEqual(list(sections), commands)
        for command in commands:
            shown = shown_help(command).split("Examples:")
            wanted = set(re.findall(r"^  (?:-h,)?(--[a-z-]+)", shown[0], re.MULTILINE)) - {"--help"}
            self.assertEqual(set(re.findall(r"^       (--[a-z-]+)", sections[command].split("Examples:")[0], re.MULTILINE)), wanted, command)
            # What stands below the options stands here, too, to the letter.
            bare = lambda words: re.sub(r"\s+", " ", words).strip()
            self.assertIn(bare(shown[1]), bare(sections[command]), command)

    def test_the_guide_lies_beside_it(self):
        self.assertTrue((self.prefix / "share/doc/gill/guide/index.html").exists())


unittest.main(argv=sys.argv[:1], verbosity=1)
