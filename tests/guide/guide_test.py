"""The guide (grammar/guide): every example is tried by the program as it stands on its page.

The pages are CommonMark; README.md lists them in their order. The info string of a fence says what an example must do:

  ```gill                  a small house, whole: no error, and no warning that is not a caution of safety
  ```gill drink            the body of one drink: no error (also prep, ingredient, house, glass, ice, family, unit, menu, prices)
  ```gill finds RULE …     gives these findings; any other error fails
  ```gill same             means the same as the example before it: figures, parts and steps equal
  ```gill in FILE.gill     kept as FILE.gill in the page's folder, for the commands that follow
  ```gill pending          what the program does not do yet: tried, listed, no failure. Take the word away when it holds.
  ```console               `$ ` starts a command, run in the page's folder; below it what it prints, `…` for anything
  ```text                  not run

Words combine: ```gill drink finds wrong-kind pending.
"""

import dataclasses
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

# The arguments that ctest gives: the program, the project's folder.
PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
GUIDE = SOURCE / "grammar/guide"
sys.path.insert(0, str(SOURCE / "tests/lint"))
from clearing_words import CLEARS  # noqa: E402

DECLARATIONS = ("house", "ingredient", "prep", "drink", "glass", "ice", "family", "unit", "prices", "menu")
SAFETY = re.compile(r'^(?:LINT|STAGE)_RULE\(\w+, "([a-z-]+)", \w+, safety,', re.MULTILINE)


class GuideError(Exception):
    """An example does not do what its page says."""


@dataclasses.dataclass
class Fence:
    page: str
    line: int
    language: str
    words: list
    text: str

    def __str__(self):
        return f"{self.page}:{self.line}: ```{' '.join([self.language, *self.words])}"

    def after(self, word):
        """The words that follow one of the info string, up to the next that has a meaning of its own."""
        found = []
        if word in self.words:
            for other in self.words[self.words.index(word) + 1 :]:
                if other in (*DECLARATIONS, "finds", "same", "in", "pending"):
                    break
                found.append(other)
        return found

    @property
    def pending(self):
        return "pending" in self.words

    @property
    def declaration(self):
        return next((word for word in self.words if word in DECLARATIONS), None)

    def as_house(self):
        if not self.declaration:
            return self.text
        if self.declaration == "unit":
            return self.text
        body = "".join("  " + line if line.strip() else line for line in self.text.splitlines(keepends=True))
        return f"{self.declaration} Example\n{body}"


def read_fences(page, text):
    fences, open_fence = [], None
    for number, line in enumerate(text.splitlines(keepends=True), 1):
        mark = re.match(r"^```(\S*)[ ]*(.*)$", line.rstrip("\n"))
        if open_fence and mark:
            fences.append(open_fence)
            open_fence = None
        elif mark:
            open_fence = Fence(page, number, mark[1], mark[2].split(), "")
        elif open_fence:
            open_fence.text += line
    if open_fence:
        raise GuideError(f"{open_fence} is never closed")
    return fences


def pages():
    """The pages in the order in which the contents page links to them."""
    return re.findall(r"\]\(([a-z-]+\.md)\)", (GUIDE / "README.md").read_text())


def run(*arguments, cwd=None):
    done = subprocess.run([PROGRAM, *map(str, arguments)], capture_output=True, cwd=cwd, timeout=60)
    return done.returncode, done.stdout.decode(), done.stderr.decode()


def findings(house):
    status, out, err = run("check", house, "--as", "json")
    if status not in (0, 1):
        raise GuideError(err)
    return json.loads(out)["findings"]


def told(finding):
    return f"  line {finding['line']}: {finding['severity']}: {finding['message']} [{finding['rule']}] {finding['help'] or ''}"


def without_places(value):
    """Facts less what says where and how a thing was written."""
    if isinstance(value, dict):
        return {key: without_places(part) for key, part in value.items() if key not in ("file", "line", "as_written")}
    if isinstance(value, list):
        return [without_places(part) for part in value]
    return value


class PageRunner:
    """Tries the fences of one page in their order."""

    def __init__(self, folder, safety_rules):
        self.folder = pathlib.Path(folder)
        self.bench = self.folder / ".bench"
        self.safety_rules = safety_rules
        self.previous = None

    def house(self, name, text):
        # The folder's name is the house's: the same for both of a pair.
        path = self.bench / name / "house" / "guide.gill"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
        return path.parent

    def try_fence(self, fence):
        """Raises GuideError when the fence does not do what it says."""
        if fence.language == "console":
            return self.try_commands(fence)
        if fence.language != "gill":
            return None
        before, self.previous = self.previous, fence if "same" not in fence.words else self.previous
        if "same" in fence.words:
            if before is None:
                raise GuideError("nothing stands before it to be the same as")
            return self.try_same(before, dataclasses.replace(fence, words=[*before.words, *fence.words]))
        return self.try_house(fence)

    def try_house(self, fence):
        house = self.house("one", fence.as_house())
        for name in fence.after("in"):
            house = (self.folder / name).parent
            house.mkdir(parents=True, exist_ok=True)
            (self.folder / name).write_text(fence.text)
        found, wanted = findings(house), fence.after("finds")
        missing = [rule for rule in wanted if rule not in [finding["rule"] for finding in found]]
        if missing:
            raise GuideError(f"does not find {', '.join(missing)}\n" + "\n".join(map(told, found)))
        wrong = [
            finding
            for finding in found
            if finding["rule"] not in wanted
            and (
                finding["severity"] == "error"
                or (finding["severity"] == "warning" and not fence.declaration and not wanted and finding["rule"] not in self.safety_rules)
            )
        ]
        if wrong:
            raise GuideError("\n".join(map(told, wrong)))

    def try_same(self, before, fence):
        one, two = self.house("one", before.as_house()), self.house("two", fence.as_house())
        for house in (one, two):
            errors = [finding for finding in findings(house) if finding["severity"] == "error"]
            if errors:
                raise GuideError("in one of the pair:\n" + "\n".join(map(told, errors)))
        facts = [without_places(json.loads(run("facts", house, "--as", "json")[1])) for house in (one, two)]
        if not (facts[0]["drinks"] or facts[0]["preps"] or facts[0]["ingredients"]):
            raise GuideError("declares nothing that has figures")
        if facts[0] != facts[1]:
            raise GuideError("figures differ:\n" + "\n".join(differences(*facts)))
        status, out, err = run("diff", one, two, "--as", "json")
        sides = ("format", "version", "house", "old", "new")
        changed = {key: value for key, value in json.loads(out).items() if key not in sides and value}
        if changed:
            raise GuideError(f"another meaning: {json.dumps(changed)[:600]}")

    def try_commands(self, fence):
        commands = re.split(r"^\$ ", fence.text, flags=re.MULTILINE)
        if commands[0].strip():
            raise GuideError("a console example starts with `$ `")
        for command in commands[1:]:
            line, _, expected = command.partition("\n")
            environment = dict(os.environ, PATH=f"{PROGRAM.parent}:{os.environ['PATH']}", NO_COLOR="1", LC_ALL="C.UTF-8")
            environment |= {f"GIT_{who}_{what}": "guide@example.org" for who in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")}
            done = subprocess.run(
                ["bash", "-c", line], cwd=self.folder, env=environment, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, timeout=100
            )
            printed = done.stdout.decode()
            if not matches(expected, printed):
                raise GuideError(f"`{line}` printed:\n{printed}")


def matches(expected, printed):
    """True where the text is as expected: `…` alone on a line stands for any lines, within a line for anything in it."""
    pattern = ""
    for line in expected.strip("\n").split("\n"):
        if line.strip() == "…":
            pattern += r"(?:.*\n)*?"
        else:
            pattern += re.escape(line.rstrip()).replace("…", ".*") + r"[ ]*\n"
    if not expected.strip():
        return True
    return re.fullmatch(pattern, printed.strip("\n") + "\n") is not None


def differences(one, two, path=""):
    """Where two values of JSON part, a line each."""
    if isinstance(one, dict) and isinstance(two, dict):
        for key in one.keys() | two.keys():
            yield from differences(one.get(key), two.get(key), f"{path}.{key}")
    elif isinstance(one, list) and isinstance(two, list) and len(one) == len(two):
        for index, (left, right) in enumerate(zip(one, two)):
            yield from differences(left, right, f"{path}[{index}]")
    elif one != two:
        yield f"  {path}: {one} and {two}"


def safety_rules():
    rules = set(SAFETY.findall(next((SOURCE / "compiler").rglob("registry.def")).read_text()))
    assert len(rules) > 15, "the registry of rules is not where it was"
    return rules


class Guide(unittest.TestCase):
    def test_the_contents_page_lists_every_page_once(self):
        self.assertEqual(sorted(pages()), sorted(path.name for path in GUIDE.glob("*.md") if path.name != "README.md"))

    def test_every_example_does_what_its_page_says(self):
        waiting, ready, tried = [], [], 0
        for page in pages():
            with tempfile.TemporaryDirectory() as folder:
                runner, pending = PageRunner(folder, safety_rules()), False
                for fence in read_fences(page, (GUIDE / page).read_text()):
                    # What must be the same as an example that waits, waits with it.
                    pending = fence.pending or (pending and "same" in fence.words)
                    tried += 1
                    with self.subTest(str(fence)):
                        try:
                            runner.try_fence(fence)
                            if pending:
                                ready.append(str(fence))
                        except GuideError as problem:
                            if not pending:
                                self.fail(f"{fence}\n{fence.text}\n{problem}")
                            waiting.append(f"{fence}\n{problem}")
        print(f"\n{tried} examples. {len(waiting)} wait for the program:")
        for entry in waiting:
            print(" ", entry.split("\n")[0])
            if os.environ.get("GUIDE_WHY"):
                print("\n".join("      " + line for line in entry.split("\n")[1:]))
        if ready:
            print("These hold; where their pair does as well, take `pending` away:")
            for entry in ready:
                print(" ", entry)
        self.assertGreater(tried, 100)

    def test_links_lead_to_pages_that_are_there(self):
        for path in GUIDE.glob("*.md"):
            text = re.sub(r"^```.*?^```", "", path.read_text(), flags=re.MULTILINE | re.DOTALL)
            for link in re.findall(r"\]\(([^)]+)\)", text):
                with self.subTest(f"{path.name}: {link}"):
                    self.assertTrue(link.startswith("https://") or (path.parent / link.split("#")[0]).is_file())

    def test_every_word_of_the_language_has_an_example(self):
        """Read from the program's own tables: the steps, the property lines, the kinds of ingredient, the base units."""
        tables = "\n".join(path.read_text() for path in (SOURCE / "compiler/analysis").glob("*.cpp"))
        steps = set(re.findall(r'\{Verb::\w+,\s+"([a-z ]+)"', tables))
        properties = set(re.findall(r'^ +\{"([a-zA-Z ]+)",\s+(?:\[|read_|ignore)', tables, re.MULTILINE))
        self.assertGreater(len(steps), 40)
        self.assertGreater(len(properties), 60)
        examples = "\n".join(
            fence.text for page in pages() for fence in read_fences(page, (GUIDE / page).read_text()) if fence.language == "gill"
        )
        spelt_two_ways = {"color": "colour", "sulfites": "sulphites"}
        for word in sorted(steps | properties):
            with self.subTest(word):
                self.assertRegex(examples, rf"(?m)^ *{re.escape(spelt_two_ways.get(word, word))}\b")

    def test_nothing_clears_anything(self):
        """The absence of a finding is not a judgement."""
        for path in GUIDE.glob("*.md"):
            for number, line in enumerate(path.read_text().splitlines(), 1):
                with self.subTest(f"{path.name}:{number}"):
                    self.assertNotRegex(line, CLEARS)


class TheTestItself(unittest.TestCase):
    """An example that is wrong must not pass for right."""

    def try_page(self, text):
        with tempfile.TemporaryDirectory() as folder:
            runner = PageRunner(folder, safety_rules())
            for fence in read_fences("page.md", text):
                runner.try_fence(fence)

    def refuses(self, text):
        with self.assertRaises(GuideError):
            self.try_page(text)

    def test_a_right_page_is_taken(self):
        self.try_page("```gill drink\n60 ml vodka\nstir 30 s\nstrain\n```\n```gill same\n60 ml vodka\nstir 30 s\nstrain\n```\n")

    def test_an_error_a_warning_a_missing_finding_and_an_open_fence_are_refused(self):
        self.refuses("```gill drink\n60 mll vodka\n```\n")
        self.refuses("```gill\ndrink X\n  60 ml vodka\n  stir 30 s\n  strain\n```\n")
        self.refuses("```gill drink finds wrong-kind\n60 ml vodka\n```\n")
        self.refuses("```gill drink finds no-glass\n60 ml vodka\nshake 30 ml\n```\n")
        self.refuses("```gill drink\n60 ml vodka\n")

    def test_a_pair_that_differs_in_a_figure_a_step_or_a_garnish_is_refused(self):
        body = "60 ml vodka\nstir 30 s\nstrain\ngarnish olive\n"
        for other in (
            body.replace("60", "59"),
            body.replace("strain", "fine strain"),
            body.replace("olive", "lemon twist"),
            body.replace("30 s", "20 s"),
        ):
            self.refuses(f"```gill drink\n{body}```\n```gill same\n{other}```\n")

    def test_a_command_that_prints_something_else_is_refused(self):
        self.try_page("```console\n$ echo one; echo two\none\ntwo\n```\n")
        self.try_page("```console\n$ echo one; echo two; echo three\no…e\n…\nthree\n```\n")
        self.refuses("```console\n$ echo one\ntwo\n```\n")


unittest.main(argv=sys.argv[:1], verbosity=1)
