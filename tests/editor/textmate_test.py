"""The TextMate grammar, read by the engine that reads it in editors (vscode-textmate with Oniguruma): its colours of the demo house and of
damaged lines are those of the language server, and stand in textmate/house.told and textmate/damaged.told (GILL_UPDATE=1 writes them)."""

import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
import unittest

from colours import DAMAGED, demo_files, disagreements

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
HERE = SOURCE / "tests/editor/textmate"
GRAMMAR = SOURCE / "grammar/editors/textmate/gill.tmLanguage.json"
sys.path.insert(0, str(SOURCE / "grammar/editors"))
import write_words  # noqa: E402

# From the scope's beginning; the longest first.
KIND_OF_SCOPE = {
    "comment": "comment",
    "keyword.other.declaration": "keyword",
    "support.type.property-name": "property",
    "support.function.step": "step",
    "constant.numeric": "number",
    "support.type.unit": "unit",
    "string": "text",
    "punctuation.definition.string": "text",
    "entity.name.type.declaration": "declared",
}


def coloured(files):
    done = subprocess.run(["node", HERE / "colour.js", GRAMMAR, *files], capture_output=True, text=True, timeout=120)
    if done.returncode or done.stderr:
        raise AssertionError(done.stderr)
    return json.loads(done.stdout)


def as_told(path, lines):
    """A file with each stretch that has a scope of its own in brackets behind its scope: `[keyword.other.declaration drink]`."""
    told = []
    for text, stretches in zip(path.read_text().split("\n"), lines):
        units = text.encode("utf-16-le")
        words = [(units[2 * begin : 2 * end].decode("utf-16-le"), scope) for begin, end, scope in stretches]
        told.append("".join(one if scope.startswith(("source.", "meta.")) else f"[{scope.removesuffix('.gill')} {one}]" for one, scope in words))
    return "\n".join(told).rstrip("\n") + "\n"


@unittest.skipUnless(shutil.which("node") and (HERE / "node_modules/vscode-textmate").exists(), "the engine of TextMate grammars is not installed")
class TextMate(unittest.TestCase):
    maxDiff = None

    def is_as_kept(self, told, name):
        kept = HERE / name
        if os.environ.get("GILL_UPDATE"):
            kept.write_text(told)
        self.assertEqual(told, kept.read_text())

    def test_the_demo_house_is_coloured_as_it_was(self):
        files = demo_files(SOURCE)
        self.assertGreater(len(files), 10)
        self.is_as_kept("".join(f"==== {path.relative_to(SOURCE)}\n{as_told(path, lines)}" for path, lines in zip(files, coloured(files))), "house.told")

    def test_damaged_lines_are_coloured_as_they_were(self):
        self.is_as_kept(as_told(DAMAGED, coloured([DAMAGED])[0]), "damaged.told")

    def test_the_server_colours_the_same(self):
        words = write_words.words_of(PROGRAM)
        files = [*demo_files(SOURCE), DAMAGED]
        folder = self.enterContext(tempfile.TemporaryDirectory())
        for path, lines in zip(files, coloured(files)):
            text = path.read_text().split("\n")

            def kind_at(line, column):
                at = len(text[line][:column].encode("utf-16-le")) // 2
                scope = next(scope for begin, end, scope in lines[line] if begin <= at < end)
                return next((kind for start, kind in KIND_OF_SCOPE.items() if scope.startswith(start)), None)

            with self.subTest(path.name):
                self.assertEqual(disagreements(PROGRAM, folder, path, kind_at, words), [])


class Words(unittest.TestCase):
    def test_the_editors_files_hold_the_programs_words(self):
        for name, text in write_words.files(PROGRAM).items():
            self.assertEqual((SOURCE / "grammar/editors" / name).read_text(), text, f"{name}: run grammar/editors/write_words.py")


unittest.main(argv=sys.argv[:1], verbosity=2)
