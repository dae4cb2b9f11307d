#!/usr/bin/env python3
"""What the program prints of two small houses is what the golden files beside it say, whole and to the letter.

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

NIGHTS = ["--from", "2027-10-07", "--days", "3"]
COUNTS = ["--opening", "opening.csv", "--count", "count.csv", "--received", "received.csv", "--sales", "sales.csv"]

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
    "pound_check.txt": ["check", "pound.gill"],
    "pound_model.txt": ["dump", "model", "pound.gill"],
    "pound_facts.json": ["facts", "--as", "json", "pound.gill"],
    "pound_work.txt": ["facts", "--work", "pound.gill"],
    "pound_prep.txt": ["prep", "pound.gill", *NIGHTS, "--on-hand", "count.csv"],
    "pound_prep.json": ["prep", "pound.gill", *NIGHTS, "--opens", "16:00", "--closes", "23:00", "--shift", "4", "--as", "json"],
    "pound_prep.csv": ["prep", "pound.gill", "--menu", "Fireside", "--from", "2027-10-04", "--days", "7", "--as", "csv"],
    "pound_stock.txt": ["stock", "pound.gill", *COUNTS, "--on", "2027-10-07"],
    "pound_stock.json": ["stock", "pound.gill", *COUNTS, "--on", "2027-10-07", "--as", "json"],
    "pound_stock.csv": ["stock", "pound.gill", "--on", "2027-10-07", "--count", "opening.csv", "--as", "csv"],
    "pound_batch.txt": ["batch", "Long Pound", "--house", "pound.gill", "--serves", "24", "--bottle", "700 ml", "--diluted"],
    "pound_batch.json": ["batch", "Weir Fizz", "--house", "pound.gill", "--volume", "4 l", "--within", "6 h", "--as", "json"],
    "pound_batch_of_a_prep.txt": ["batch", "milk punch base", "--house", "pound.gill", "--volume", "3 l", "--bottle", "700 ml"],
    "pound_cost.txt": ["cost", "pound.gill", "--on", "2027-10-07", "--if", "tunnel rum +15%"],
    "pound_cost.json": ["cost", "pound.gill", "--on", "2027-10-07", "--menu", "Evenings", "--as", "json"],
    "pound_cost.csv": ["cost", "pound.gill", "--on", "2027-10-07", "--as", "csv"],
    "pound_tune.txt": ["tune", "Tunnel Daiquiri", "--house", "pound.gill", "--sugar", "8..9", "--acid", "0.8..1"],
    "pound_calibrate.txt": ["calibrate", "pound.gill"],
}
# What the commands above read.
INPUTS = {"house.gill", "pound.gill", "opening.csv", "count.csv", "received.csv", "sales.csv"}
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
    stray = {path.name for path in FOLDER.iterdir()} - set(OUTPUTS) - INPUTS
    if stray:
        print(f"no command prints these golden files: {', '.join(sorted(stray))}")
        failed += 1
    print(f"{len(OUTPUTS)} outputs, {failed} failed")
    return 1 if failed else 0


sys.exit(main())
