"""What `gill new` lays beside a house: git reads its attributes, the hook looks at what is staged and at nothing else, and what a build server
runs leaves its findings as SARIF and the book."""

import configparser
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
BROKEN = "drink Bench Sour\n  glass  coupe\n\n  60 ml  lemom juice\n\n  stir 20 s\n  strain\n  garnish  none\n"


class NewHouse(unittest.TestCase):
    def setUp(self):
        self.folder = pathlib.Path(self.enterContext(tempfile.TemporaryDirectory()))
        (self.folder / "bin").mkdir()
        (self.folder / "bin/gill").symlink_to(PROGRAM)
        self.environment = {**os.environ, "PATH": f"{self.folder / 'bin'}:{os.environ['PATH']}", "HOME": str(self.folder)}
        for key in ("AUTHOR", "COMMITTER"):
            self.environment |= {f"GIT_{key}_NAME": "Bench", f"GIT_{key}_EMAIL": "bench@example.org"}

    def run_in(self, folder, *command):
        return subprocess.run(command, cwd=folder, env=self.environment, stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=120)

    def repository(self, inside="."):
        """A repository with a new house in it, the hook turned on as the guide says; its top and the house."""
        top = self.folder / "top"
        house = top / inside
        top.mkdir()
        made = self.run_in(top, "gill", "new", inside if inside != "." else "../top")
        self.assertEqual((made.returncode, made.stderr), (0, ""))
        for command in (["init", "-q"], ["config", "core.hooksPath", f"{inside}/.githooks" if inside != "." else ".githooks"], ["add", "-A"]):
            self.assertEqual(self.run_in(top, "git", *command).returncode, 0)
        return top, house

    def commit(self, top):
        return self.run_in(top, "git", "commit", "-qm", "A drink")

    def test_git_and_editors_read_what_lies_beside_it(self):
        top, house = self.repository()
        told = self.run_in(top, "git", "check-attr", "diff", "eol", "--", "drinks.gill").stdout
        self.assertEqual(told, "drinks.gill: diff: gill\ndrinks.gill: eol: lf\n")
        layout = configparser.ConfigParser()
        layout.read_string("[top]\n" + (house / ".editorconfig").read_text())
        self.assertEqual((layout["*.gill"]["indent_style"], layout["*.gill"]["indent_size"]), ("space", "2"))
        (house / "out").mkdir()
        (house / "out/book.html").touch()
        self.assertEqual(self.run_in(top, "git", "check-ignore", "out/book.html").stdout, "out/book.html\n")

    def test_git_tells_a_change_by_its_meaning(self):
        top, house = self.repository()
        self.assertEqual(self.commit(top).returncode, 0)
        for line in re.findall(r"git (config diff\S+ '[^']+')", (house / ".gitattributes").read_text()):
            self.assertEqual(self.run_in(top, "sh", "-c", f"git {line}").returncode, 0)
        drinks = house / "drinks.gill"
        first = re.search(r"^  (\d+) ml", drinks.read_text(), re.MULTILINE)
        drinks.write_text(drinks.read_text().replace(first[0], f"  {int(first[1]) + 5} ml", 1))
        self.assertIn("→", self.run_in(top, "git", "--no-pager", "diff").stdout)

    def test_the_hook_lets_a_sound_house_pass_and_stops_an_error(self):
        for inside in (".", "the bar"):
            with self.subTest(inside):
                if (self.folder / "top").exists():
                    (self.folder / "top").rename(self.folder / "first")
                top, house = self.repository(inside)
                first = self.commit(top)
                self.assertEqual(first.returncode, 0, first.stderr)
                (house / "bench.gill").write_text(BROKEN)
                # It lies in the folder and is not staged: what is committed is sound.
                (house / "notes.txt").write_text("A note.\n")
                self.run_in(top, "git", "add", f"{inside}/notes.txt")
                self.assertEqual(self.commit(top).returncode, 0)
                self.run_in(top, "git", "add", "-A")
                stopped = self.commit(top)
                self.assertNotEqual(stopped.returncode, 0)
                self.assertIn("lemom juice", stopped.stdout + stopped.stderr)
                # Mended in the folder alone, it is still the staged one that is looked at.
                (house / "bench.gill").write_text(BROKEN.replace("lemom", "lemon"))
                self.assertNotEqual(self.commit(top).returncode, 0)
                self.assertEqual(self.run_in(top, "git", "commit", "-qnm", "All the same").returncode, 0)

    def test_the_hook_stops_what_is_not_tidy(self):
        top, house = self.repository()
        self.assertEqual(self.commit(top).returncode, 0)
        drinks = house / "drinks.gill"
        drinks.write_text(re.sub(r"^  (\d+) ml +", r" \1ml  ", drinks.read_text(), count=1, flags=re.MULTILINE))
        self.run_in(top, "git", "add", "-A")
        stopped = self.commit(top)
        self.assertNotEqual(stopped.returncode, 0)
        self.assertIn("drinks.gill", stopped.stdout + stopped.stderr)
        self.run_in(top, "gill", "tidy", ".")
        self.run_in(top, "git", "add", "-A")
        # Tidied, it is what was committed before.
        self.assertEqual(self.run_in(top, "git", "diff", "--cached", "--quiet").returncode, 0)

    def test_what_a_build_server_runs(self):
        top, house = self.repository()
        recipe = (house / ".forgejo/workflows/house.yml").read_text()
        line = re.search(r"run: (.*)", recipe)[1]
        done = self.run_in(top, "sh", "-c", line)
        self.assertEqual(done.returncode, 0, done.stdout + done.stderr)
        kept = re.findall(r"path: (.*)", recipe)
        self.assertEqual(len(kept), 2)
        for path in kept:
            self.assertTrue((top / path).exists(), path)
        self.assertEqual(json.loads((top / kept[0]).read_text())["version"], "2.1.0")
        self.assertTrue((top / kept[1] / "index.html").exists())
        (house / "bench.gill").write_text(BROKEN)
        self.assertEqual(self.run_in(top, "sh", "-c", line).returncode, 1)
        results = json.loads((top / kept[0]).read_text())["runs"][0]["results"]
        self.assertIn("unknown-name", [one["ruleId"] for one in results])


unittest.main(argv=sys.argv[:1], verbosity=1)
