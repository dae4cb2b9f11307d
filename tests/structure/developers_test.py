"""DEVELOPERS.md says what is there: folders, paths, commands, presets, rules and test programs that it names are held to the
tree and to the built program."""

import json
import pathlib
import re
import subprocess
import sys
import unittest

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2])
TEXT = (SOURCE / "DEVELOPERS.md").read_text()
CODE = re.findall(r"`([^`\n]+)`", TEXT)
COMPILER = SOURCE / "compiler"


def table_folders():
    """The folders that the table of the pipeline names, in its order."""
    table = TEXT.split("| folder |", 1)[1].split("\n\n", 1)[0]
    return [name for row in table.splitlines()[2:] for name in re.findall(r"`([a-z_]+)`", row.split("|")[1])]


def is_path(code):
    """Whether words of code name a file or folder of the project, and none that is made."""
    if code[0].isdigit() or not re.fullmatch(r"[\w.+*-]+(/[\w.+*-]+)*/?", code) or code.startswith(("build", "out/", "node_modules")):
        return False
    return "/" in code or bool(re.search(r"\.(h|cpp|py|def|gill|md|txt|css|js)$", code))


def exists(code):
    """From the top, from compiler/ or from tests/; a name without a folder may stand anywhere below compiler/ or tests/."""
    for root in (SOURCE, COMPILER, SOURCE / "tests"):
        if any(True for _ in root.glob(code.rstrip("/"))):
            return True
    return "/" not in code.rstrip("/") and any(any(True for _ in root.rglob(code)) for root in (COMPILER, SOURCE / "tests"))


class Developers(unittest.TestCase):
    def test_the_table_of_the_pipeline_names_every_folder_of_the_compiler_once(self):
        there = {path.name for path in COMPILER.iterdir() if path.is_dir()} - {"cmake", "scripts", "precompiled"}
        named = [name for name in table_folders() if name != "precompiled"]
        self.assertEqual(sorted(named), sorted(there))

    def test_every_path_that_is_named_exists(self):
        paths = sorted({code for code in CODE if is_path(code)})
        self.assertGreater(len(paths), 20)
        self.assertEqual([path for path in paths if not exists(path)], [])

    def test_a_path_that_is_nowhere_is_told(self):
        self.assertTrue(is_path("model/no_such_file.cpp"))
        self.assertFalse(exists("model/no_such_file.cpp"))
        self.assertFalse(exists("no_such_file.h"))
        self.assertTrue(exists("diagnostics/registry.def"))

    def test_every_command_that_is_named_is_the_programs(self):
        shown = subprocess.run([PROGRAM, "--help"], capture_output=True, text=True, check=True).stdout
        commands = set(re.findall(r"^  ([a-z]+) {2,}", shown.split("Subcommands:")[1], re.MULTILINE))
        named = {found[1] for code in CODE if (found := re.match(r"(?:gill|build/gill) ([a-z]+)\b", code))}
        self.assertGreater(len(named), 2)
        self.assertEqual(named - commands, set())

    def test_every_dump_that_is_shown_is_the_programs(self):
        shown = re.findall(r"```dump (\w+)\n(.*?)```", TEXT, re.DOTALL)
        self.assertEqual([stage for stage, _ in shown], ["tree", "names", "units", "model"])
        for stage, lines in shown:
            house = SOURCE / "tests/golden/outputs/house.gill"
            printed = subprocess.run([PROGRAM, "dump", stage, house.name], cwd=house.parent, capture_output=True, text=True, check=True)
            for line in lines.splitlines():
                self.assertIn(line, printed.stdout.splitlines())

    def test_every_test_program_that_is_named_is_made_of_a_folder(self):
        for name in re.findall(r"build/tests/test_(\w+)", TEXT):
            self.assertTrue((SOURCE / "tests" / name).is_dir() or (SOURCE / "tests/unit" / name).is_dir(), name)

    def test_every_preset_that_is_named_is_one(self):
        presets = {one["name"] for one in json.loads((SOURCE / "CMakePresets.json").read_text())["configurePresets"]}
        named = re.search(r"^Presets: (.*)\.$", TEXT, re.MULTILINE)[1]
        self.assertEqual(set(re.findall(r"\b([\w-]+)`", named)), presets)

    def test_every_rule_that_stands_in_the_list_is_registered(self):
        registry = (COMPILER / "diagnostics/registry.def").read_text()
        rules = set(re.findall(r'^\w+\(.*?"([a-z-]+)", \w+, \w+,', registry, re.MULTILINE))
        section = TEXT.split("## The rules", 1)[1].split("\nA finding can", 1)[0]
        listed = re.findall(r"`([a-z-]+)`", section[section.index("- **") :])
        self.assertGreater(len(rules), 50)
        self.assertEqual(sorted(listed), sorted(rules))


unittest.main(argv=sys.argv[:1], verbosity=2)
