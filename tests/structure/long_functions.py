#!/usr/bin/env python3
"""Counts the functions below compiler/ that are longer than so many lines, and names them with the longest classes.

    tests/structure/long_functions.py [LINES]      40 where nothing else is asked

Code is clang-formatted: a body ends at the first closing bracket that stands as far in as its head. No test: how long a function may be
is a matter of what it does (a switch over all methods is long and plain), so this is looked at, not held."""

import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
LONGEST_SHOWN = 8
# What ends the line before a head, and what a bracket may open that is no function.
ENDS = re.compile(r"([;{}:>]|^public:|^private:)$")
LAMBDA = re.compile(r"(?<!operator)\[[&=\w, ]*\]\(")
OTHER = re.compile(r"(if|for|while|switch|else|do|return|namespace|extern|enum|union)\b|\}|(const )?auto&? \w+ = ")


def blocks(text):
    """Each class and function of a source: (its lines, whether it is a class, its head, the line where it begins)."""
    lines = text.splitlines()
    for at, line in enumerate(lines):
        if not line.endswith("{"):
            continue
        first = at
        while first > 0 and lines[first - 1].strip() and not ENDS.search(lines[first - 1].strip()) and not lines[first - 1].strip().startswith(("//", "#")):
            first -= 1
        indent = len(lines[first]) - len(lines[first].lstrip())
        head = " ".join(part.strip() for part in lines[first : at + 1])
        last = next((i for i in range(at + 1, len(lines)) if re.match(rf" {{{indent}}}\}}", lines[i])), None)
        if last is None or OTHER.match(head):
            continue
        if re.match(r"(struct|class)\b", head) and "(" not in head:
            yield last - first + 1, True, head, first + 1
        elif re.search(r"\)( const| noexcept| override| ->[^(]*?| : .*)*\s*\{$", head) and indent in (0, 2) and not LAMBDA.search(head):
            yield last - at + 1, False, head, first + 1


def main():
    most = int(sys.argv[1]) if len(sys.argv) > 1 else 40
    found = [
        (length, is_class, f"{path.relative_to(ROOT)}:{line}  {head[:90]}")
        for path in sorted((ROOT / "compiler").rglob("*"))
        if path.suffix in (".cpp", ".h")
        for length, is_class, head, line in blocks(path.read_text())
    ]
    functions = sorted((one for one in found if not one[1]), reverse=True)
    print(f"{len(functions)} functions, {sum(length > most for length, _, _ in functions)} over {most} lines:")
    for length, _, where in functions:
        if length > most:
            print(f"{length:5}  {where}")
    print("the longest classes:")
    for length, _, where in sorted((one for one in found if one[1]), reverse=True)[:LONGEST_SHOWN]:
        print(f"{length:5}  {where}")


if __name__ == "__main__":
    main()
