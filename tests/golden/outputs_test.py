#!/usr/bin/env python3
"""What the program prints of a small house is what the golden files beside it say, whole and to the letter.

    outputs_test.py GILL PROJECT          compares
    GILL_UPDATE=1 outputs_test.py ...     rewrites the golden files: the review of that diff is the test

What the stages make of a small house (model, facts, findings) is held by tests/unit/driver. PDF is compared as the text that stands in it, line by line as it reads on the sheet."""

import os
import pathlib
import subprocess
import sys
import tempfile

GILL, PROJECT = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2])
FOLDER = PROJECT / "tests/golden/outputs"
UPDATE = os.environ.get("GILL_UPDATE") == "1"

# A golden file, and the command whose output it holds; `PDF` stands for a file whose text is taken.
OUTPUTS = {
    "check.json": ["check", "--as", "json", "house.gill"],
    "facts.csv": ["facts", "--as", "csv", "house.gill"],
    "work.txt": ["facts", "--work", "--only", "Keeper's Sour", "house.gill"],
    "cost.txt": ["cost", "house.gill", "--on", "2026-11-25"],
    "batch.txt": ["batch", "Keeper's Sour", "--serves", "10", "--house", "house.gill"],
    "cards.txt": ["cards", "house.gill", "--out", "PDF"],
    "labels.txt": ["labels", "house.gill", "--made", "2027-03-04", "--out", "PDF"],
    "menu.txt": ["menu", "house.gill", "--as", "pdf", "--out", "PDF"],
}
# Only these may print nothing.
MAY_BE_EMPTY = set()


def printed(words):
    """What a command prints, or the text of the PDF that it writes."""
    with tempfile.TemporaryDirectory() as folder:
        pdf = pathlib.Path(folder) / "sheet.pdf"
        done = subprocess.run([GILL, *[str(pdf) if word == "PDF" else word for word in words]], cwd=FOLDER,
                              capture_output=True, text=True, timeout=60, check=False)
        if done.returncode != 0:
            sys.exit(f"gill {' '.join(words)} ends with {done.returncode}:\n{done.stdout}{done.stderr}")
        if "PDF" not in words:
            return done.stdout
        return subprocess.run(["pdftotext", "-layout", pdf, "-"], capture_output=True, text=True, check=True).stdout


def main():
    failed = 0
    for name, words in OUTPUTS.items():
        path, got = FOLDER / name, printed(words)
        if UPDATE:
            path.write_text(got)
        wanted = path.read_text() if path.exists() else None
        if wanted is None:
            print(f"{name}: there is no such golden file; GILL_UPDATE=1 writes it")
        elif not wanted.strip() and name not in MAY_BE_EMPTY:
            print(f"{name}: the golden file is empty")
        elif got != wanted:
            print(f"{name}: `gill {' '.join(words)}` prints otherwise (- golden, + now)")
            difference = subprocess.run(["diff", "-u0", path, "-"], input=got, capture_output=True, text=True, check=False)
            print("\n".join(difference.stdout.splitlines()[2:60]))
        else:
            continue
        failed += 1
    stray = {path.name for path in FOLDER.iterdir()} - set(OUTPUTS) - {"house.gill"}
    if stray:
        print(f"no command prints these golden files: {', '.join(sorted(stray))}")
        failed += 1
    print(f"{len(OUTPUTS)} outputs, {failed} failed")
    return 1 if failed else 0


sys.exit(main())
