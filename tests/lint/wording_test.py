"""Nothing is ever cleared: every command in every form is run over the demo house and over houses that break the safety
rules, and no output may hold a word that clears. Forms are read from the program's own help, so that a new one is looked at,
too; a new command has to be added here."""

import html
import json
import re
import shutil
import subprocess

from clearing_words import CLEARS, WORDS
from program import SOURCE, HouseCase, gill, main

DEMO = SOURCE / "specs"
# Words that a page of code holds for the browser.
QUAINT = [line.strip() for line in (SOURCE / "tests/lint/quaint_words.txt").read_text().splitlines() if line.strip() and not line.startswith("#")]
# Exponents, and a figure without a width or a unit behind one that has it: forms that nobody reads at a bar.
STRANGE_FIGURE = re.compile(r"(?<![\w.#])\d(?:\.\d+)?e[+-]?\d+(?![\w])")
CODE = re.compile(r"<(style|script)\b.*?</\1>|<[^>]*>", re.DOTALL | re.IGNORECASE)


def readable(path, data):
    """What a person reads of a file that the program wrote."""
    if path.suffix == ".pdf" or data.startswith(b"%PDF"):
        return subprocess.run(["pdftotext", "-layout", "-", "-"], input=data, capture_output=True, check=True).stdout.decode()
    if path.suffix in (".js", ".css"):
        return ""
    text = data.decode()
    return html.unescape(CODE.sub(" ", text)) if path.suffix in (".html", ".htm", ".svg") else text


class Wording(HouseCase):
    def forms(self, command):
        found = re.search(r"--as TEXT:\{([a-z,]+)\}", gill(command, "--help").stdout)
        return found[1].split(",") if found else [None]

    def commands(self):
        return re.findall(r"^  ([a-z]+) {2,}", gill("--help").stdout.split("Subcommands:")[1], re.MULTILINE)

    def runs(self, command, house):
        """The arguments with which a command is run on a house, its form aside; None for one that never ends by itself."""
        other = SOURCE / "tests/lint/classics/shaken.gill"
        drink, prep = self.named(house, "drinks"), self.named(house, "preps")
        on_house = {"check", "facts", "book", "cards", "labels", "menu", "prep", "stock", "cost", "calibrate"}
        if command in on_house:
            return [[house]] + ([[house, "--work"]] if command == "facts" else [])
        return {
            "diff": [[house, other], [other, house], [house, other, "--for", "staff"]],
            "batch": [[name, "--house", house, "--volume", "3 l"] for name in drink[:2] + prep[:2]]
            + [[name, "--house", house, "--serves", 20, "--diluted"] for name in drink[:2]],
            "tune": [[name, "--house", house, "--strength", "..12"] for name in drink[:2]],
            "why": [[]] + [[rule] for rule in re.findall(r"^  ([a-z-]+) ", gill("why").stdout, re.MULTILINE)],
            "guide": [[]] + [[topic] for topic in re.findall(r"^  ([a-z-]+) ", gill("guide").stdout, re.MULTILINE)],
            "dump": [[stage, house] for stage in ("names", "units", "model")],
            "new": [[self.folder / f"new-{command}-{house.name}"]],
            "tidy": [["--check", house], ["--diff", house]],
            "completions": [[shell] for shell in ("bash", "zsh", "fish")],
            "watch": [],
            # What it says to an editor is looked through in tests/editor.
            "lsp": [],
        }[command]

    def named(self, house, kind):
        facts = json.loads(gill("facts", house, "--as", "json").stdout)
        return [one["name"] for one in facts[kind] if "stdlib" not in str(one.get("file", ""))]

    def houses(self):
        yield DEMO
        # All that the safety rules find, in one house: the examples of their pages under names of their own.
        examples = self.folder / "examples"
        examples.mkdir()
        registry = (SOURCE / "compiler/diagnostics/registry.def").read_text()
        for rule in re.findall(r'"([a-z-]+)", \w+, safety,', registry):
            shutil.copy(SOURCE / f"tests/lint/{rule}.gill", examples / f"{rule}.gill")
        drinks = "".join(f"    {name} at 10 EUR\n" for name in self.named(examples, "drinks"))
        (examples / "menu.gill").write_text("menu Bench\n  runs 2026-01-01 .. 2026-12-31\n  section All\n" + drinks)
        yield examples

    def outputs(self):
        for house in self.houses():
            for command in self.commands():
                if command == "new" and house != DEMO:
                    continue
                for arguments in self.runs(command, house):
                    for form in self.forms(command) if command != "why" else [None]:
                        yield from self.output(command, arguments, form)

    def output(self, command, arguments, form):
        target = self.folder / "made"
        if target.is_dir():
            shutil.rmtree(target)
        elif target.exists():
            target.unlink()
        named = [command, *map(str, arguments)] + (["--as", form] if form else [])
        if command in ("book", "cards", "labels") or form in ("pdf", "labels"):
            named += ["--out", str(target)]
        done = gill(*named)
        self.assertIn(done.returncode, (0, 1), f"{named}: {done.stderr}")
        label = " ".join(named).replace(str(SOURCE), "")
        yield label, done.stdout if form != "html" else readable(target.with_suffix(".html"), done.stdout.encode()), done.stderr
        made = [target] if target.is_file() else sorted(path for path in target.rglob("*") if path.is_file()) if target.is_dir() else []
        for path in made:
            yield f"{label} -> {path.name}", readable(path, path.read_bytes()), ""

    def test_the_list_of_words_that_clear_is_read(self):
        self.assertGreater(len(WORDS), 30)

    def test_the_words_that_clear_are_found_where_they_stand(self):
        for text in ("this is Safe to drink", "free from nuts", "approved for all", "tests passed", "✓ egg"):
            self.assertTrue(CLEARS.search(text), text)
        for text in ("thujone-free in the United States", "alcohol-free", "approved 2026-09-01", "Food Safety and Hygiene", "without a declared"):
            self.assertIsNone(CLEARS.search(text), text)

    def test_no_command_clears_anything_or_speaks_quaintly_in_any_form(self):
        looked_at = 0
        for label, *texts in self.outputs():
            for text in texts:
                looked_at += len(text) > 100
                small = " ".join(text.lower().split())
                for phrase in QUAINT:
                    if phrase in small:
                        with self.subTest(label):
                            self.fail(f"`{phrase}` in: …{small[max(0, small.index(phrase) - 80) : small.index(phrase) + 80]}…")
                is_for_people = not re.search(r"--as (?:json|csv|sarif|script)|\bdump\b", label)
                for found in STRANGE_FIGURE.finditer(text) if is_for_people else ():
                    with self.subTest(label):
                        self.fail(f"`{found[0]}` in: …{text[max(0, found.start() - 80) : found.end() + 80]}…")
                for found in CLEARS.finditer(text):
                    with self.subTest(label):
                        self.fail(f"`{found[0]}` in: …{text[max(0, found.start() - 80) : found.end() + 80]}…")
        self.assertGreater(looked_at, 150)

    def test_help_clears_nothing(self):
        for command in self.commands():
            shown = gill(command, "--help").stdout
            self.assertIsNone(CLEARS.search(shown), command)
            self.assertEqual([phrase for phrase in QUAINT if phrase in " ".join(shown.lower().split())], [], command)

    def test_no_finding_of_the_fixtures_speaks_quaintly(self):
        told = " ".join((SOURCE / "tests/lint/fixtures.told").read_text().lower().split())
        self.assertEqual([phrase for phrase in QUAINT if phrase in told], [])

    def test_the_phrases_and_figures_that_nobody_says_are_found(self):
        self.assertGreater(len(QUAINT), 15)
        for text in ("about 1e+03 ml", "2.5e-05 g"):
            self.assertTrue(STRANGE_FIGURE.search(text), text)
        for text in ("page 3e", "#1e3a2f", "0x1e5", "12 each"):
            self.assertIsNone(STRANGE_FIGURE.search(text), text)


main()
