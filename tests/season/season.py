"""The season of tests/season/house: the folder is winter; spring/ and EDITS are what the manager of the invented bar did in March."""

import datetime
import json
import pathlib
import shutil
import subprocess

HERE = pathlib.Path(__file__).resolve().parent

# One line of winter, in its file, and what stands there in spring. The syrup stands in another file than the drinks that use it.
EDITS = (
    ("drinks/shaken.gill", "drink Minion\n", "drink Nonpareil\n  was            Minion\n"),
    ("menu_winter.gill", "    Minion        at", "    Nonpareil     at"),
    ("drinks/stirred.gill", "drink Gutter\n", "drink Gutter\n  status         retired\n"),
    ("preps.gill", "until           sugar 46 brix", "until           sugar 50 brix"),
    ("preps.gill", '"46 brix, kept cold, dated"', '"50 brix, kept cold, dated"'),
    ("drinks/stirred.gill", "Tympan rye", "Frisket rye"),
    ("drinks/hot_and_bowl.gill", "Tympan rye", "Frisket rye"),
    ("preps.gill", "Tympan rye", "Frisket rye"),
)


def lay_out(folder, spring=False):
    """Copies the house as it was in winter, or as it is in spring, into a new folder."""
    shutil.copytree(HERE / "house", folder)
    if spring:
        turn_to_spring(folder)
    return folder


def turn_to_spring(folder):
    """Does in a house of winter what was done in March."""
    for path, old, new in EDITS:
        text = (folder / path).read_text()
        assert old in text, f"{path} does not hold {old!r}"
        (folder / path).write_text(text.replace(old, new))
    for path in (HERE / "spring").glob("*.gill"):
        shutil.copy(path, folder / f"spring_{path.name}")


class Gill:
    """The program, run in a folder as people run it."""

    def __init__(self, program, folder):
        self.program, self.folder = pathlib.Path(program).resolve(), pathlib.Path(folder)

    def __call__(self, *words, status=0):
        done = subprocess.run([self.program, *map(str, words)], cwd=self.folder, capture_output=True, text=True, timeout=60, check=False)
        if done.returncode != status:
            raise AssertionError(f"gill {' '.join(map(str, words))} ends with {done.returncode}:\n{done.stdout}{done.stderr}")
        return done.stdout

    def json(self, *words):
        return json.loads(self(*words, "--as", "json"))

    def pdf(self, *words):
        """The text on the sheets of a PDF, as it reads."""
        path = self.folder / "sheet.pdf"
        self(*words, "--out", path)
        text = subprocess.run(["pdftotext", "-layout", path, "-"], capture_output=True, text=True, check=True).stdout
        path.unlink()
        return text


def day_after(day, days):
    """The day so many whole days later, the first being day 0."""
    return (datetime.date.fromisoformat(day) + datetime.timedelta(days=days)).isoformat()
