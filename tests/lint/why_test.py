"""`gill why`: every rule's page on the terminal, the list of rules, and what is said of a name that no rule has."""

import os
import pty
import re

from program import PROGRAM, SOURCE, HouseCase, gill, main

REGISTRY = (SOURCE / "compiler/diagnostics/registry.def").read_text()
RULES = re.findall(r'^(?:LINT|STAGE)_RULE\(\w+, "([a-z-]+)", (\w+), (\w+), .*, "(.*)"\)$', REGISTRY, re.MULTILINE)


def words(text):
    return text.split()


class Why(HouseCase):
    def test_every_rules_page_is_shown_word_for_word_within_the_width(self):
        self.assertGreater(len(RULES), 70)
        for name, *_ in RULES:
            with self.subTest(name):
                page = (SOURCE / "compiler/lint/rules" / (name.replace("-", "_") + ".md")).read_text()
                done = gill("why", name)
                self.assertEqual((done.returncode, done.stderr), (0, ""))
                without_fences = "\n".join(line for line in page.split("\n") if not line.startswith("```"))
                self.assertEqual(words(done.stdout), words(without_fences.removeprefix("# ")))
                prose = [line for line in done.stdout.split("\n") if not line.startswith("    ")]
                self.assertLessEqual(max(map(len, prose)), 80)

    def test_an_example_stands_as_it_is_written(self):
        self.assertIn("\n    drink Night Porter\n      glass    coupe\n", gill("why", "no-chill").stdout)

    def test_why_alone_lists_every_rule_with_its_severity_by_group(self):
        listed = gill("why").stdout
        groups = listed.split("\n\n")
        for name, severity, group, _ in RULES:
            with self.subTest(name):
                own = [text for text in groups if text.startswith(group + "\n")]
                self.assertEqual(len(own), 1)
                self.assertRegex(own[0], rf"(?m)^  {name} +{severity} ")
        self.assertLessEqual(max(map(len, listed.split("\n"))), 80)

    def test_a_rule_is_found_as_findings_print_it(self):
        page = gill("why", "raw-egg").stdout
        for typed in ("[raw-egg]", "RAW-EGG", "raw_egg"):
            self.assertEqual(gill("why", typed).stdout, page)

    def test_an_unknown_rule_is_refused_with_the_nearest_names(self):
        for typed, offers in [("raw-eg", ["`raw-egg`"]), ("egg", ["`raw-egg`", "`hot-egg`", "`egg-not-dry-shaken`"])]:
            done = gill("why", typed)
            self.assertEqual((done.returncode, done.stdout), (2, ""))
            self.assertIn(f"there is no rule `{typed}`; did you mean ", done.stderr)
            for offer in offers:
                self.assertIn(offer, done.stderr)
        done = gill("why", "zzzzzzzz")
        self.assertEqual(done.returncode, 2)
        self.assertIn("`gill why` lists them", done.stderr)

    def test_the_documents_list_every_rule(self):
        listed = set(re.findall(r"`([a-z-]+)`", (SOURCE / "DEVELOPERS.md").read_text()))
        self.assertEqual([name for name, *_ in RULES if name not in listed], [])


class Colour(HouseCase):
    """Colour on a terminal alone, and never where NO_COLOR is set."""

    def on_a_terminal(self, arguments, **more):
        environment = {key: value for key, value in os.environ.items() if key != "NO_COLOR"} | {"TERM": "xterm"} | more
        child, terminal = pty.fork()
        if child == 0:
            os.execve(PROGRAM, [str(PROGRAM), *map(str, arguments)], environment)
        text = b""
        while True:
            try:
                piece = os.read(terminal, 65536)
            except OSError:
                break
            if not piece:
                break
            text += piece
        os.waitpid(child, 0)
        return text.decode().replace("\r\n", "\n")

    def test_findings_and_pages_are_coloured_on_a_terminal_alone(self):
        self.write("house.gill", "drink X\n  shake 30 ml\n")
        for arguments in (["check", self.folder], ["why", "raw-egg"]):
            with self.subTest(arguments):
                self.assertIn("\x1b[", self.on_a_terminal(arguments))
                self.assertNotIn("\x1b[", self.on_a_terminal(arguments, NO_COLOR="1"))
                self.assertNotIn("\x1b[", gill(*arguments, env={"TERM": "xterm"}).stdout)
        for form in ("json", "sarif"):
            self.assertNotIn("\x1b[", self.on_a_terminal(["check", self.folder, "--as", form]))

    def test_colour_changes_no_word(self):
        self.write("house.gill", "drink X\n  shake 30 ml\n")
        coloured = self.on_a_terminal(["check", self.folder])
        self.assertEqual(re.sub(r"\x1b\[[0-9;]*m", "", coloured), gill("check", self.folder).stdout)


main()
