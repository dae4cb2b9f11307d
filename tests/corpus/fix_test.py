"""`check --fix` changes only what cannot mean anything else. Lines of sound drinks are damaged by slips of the hand (a letter left
out, struck twice, wrong, or changed over with its neighbour; two lines run into one) and mended: each line is then what it was, in
its facts and steps, or it is left as it stood, with its finding. Never is it another drink without a word.

    python3 fix_test.py GILL SOURCE_FOLDER
"""
import pathlib
import random
import string
import sys
import tempfile

import run

CASES = 900
LETTERS = string.ascii_lowercase
# Words by right: a slip in them is nobody's to mend.
WORDS = ("do ", "serve ", "guest ", "right when ", "tag ", "author ", "station ", "source ", "expect ", "allow ", "family ",
         "swap ", "without ", "method ", "alcohol ", "since ", "was ", "status ", "tasted ", "|", "#")


def drinks(folder):
    for path in sorted(folder.glob("*.gill")):
        body = []
        for line in [*path.read_text(encoding="utf-8").splitlines(), "end"]:
            if line[:1] not in ("", " ", "\t", "#", "|"):
                if len(body) > 2:
                    yield body
                body = [] if line.startswith("drink ") and " like " not in line else None
            elif body is not None and line.strip() and line.strip()[0] not in "#|":
                body.append(line.split(" #")[0].strip())


def slip(chance, line):
    """The line with one slip in one of its words, or nothing where no word is long enough to slip in."""
    places = [i for i, c in enumerate(line) if c.isascii() and c.isalpha() and i > 0]
    words = [i for i in places if line[i - 1].isalpha()]
    if not words:
        return None
    at = chance.choice(words)
    kind = chance.choice(("left out", "twice", "wrong", "changed over"))
    if kind == "left out":
        return line[:at] + line[at + 1:]
    if kind == "twice":
        return line[:at] + line[at] + line[at:]
    if kind == "wrong":
        return line[:at] + chance.choice(LETTERS) + line[at + 1:]
    return line[:at - 1] + line[at] + line[at - 1] + line[at + 1:]


def damaged(chance, body):
    """A body with one of its lines damaged, and that line's place; nothing where the line holds words by right."""
    place = chance.randrange(len(body))
    if body[place].startswith(WORDS):
        return None
    if chance.random() < 0.15 and place + 1 < len(body) and not body[place + 1].startswith(WORDS):
        line = f"{body[place]} {body[place + 1]}"
        return [*body[:place], line, *body[place + 2:]], place
    line = slip(chance, body[place])
    if line is None or line == body[place]:
        return None
    return [*body[:place], line, *body[place + 1:]], place


def main():
    gill, source = run.Gill(sys.argv[1]), pathlib.Path(sys.argv[2])
    chance = random.Random(1312)
    bodies = list(drinks(source / "tests/corpus/drinks"))
    text, cases, originals = [], [], {}

    def add(name, body):
        text.append(f"drink {name}")
        first = len(text) + 1
        text.extend(f"  {line}" for line in body)
        text.append("")
        return first

    while len(cases) < CASES:
        number = chance.randrange(len(bodies))
        harmed = damaged(chance, bodies[number])
        if harmed is None:
            continue
        if number not in originals:
            originals[number] = f"original {number}"
            add(originals[number], bodies[number])
        body, place = harmed
        name = f"harmed {len(cases)}"
        first = add(name, body)
        cases.append((name, originals[number], bodies[number], body[place], first + place))
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "house.gill"
        path.write_text("\n".join(text) + "\n", encoding="utf-8")
        gill.run("check", path, "--fix")
        after = path.read_text(encoding="utf-8").splitlines()
        told = {finding["line"] for finding in gill.findings(path)
                if finding["severity"] == "error" or finding["rule"] in run.DOUBTS}
        facts, steps = gill.facts(path), gill.steps(path)
    assert len(after) == len(text), "a correction changes words, and no lines"
    meaning = {name: run.meaning(facts.get(name), *steps.get(name, ([], {}))) for name in facts}
    count = {"mended": 0, "still told": 0, "means the same": 0}
    wrong = []
    for name, original, body, harmed, line in cases:
        stands = after[line - 1].strip()
        same = run.difference(meaning.get(name), meaning[original]) == ""
        if line in told:
            count["still told"] += 1
        elif same:
            count["mended" if stands != harmed else "means the same"] += 1
        elif stands != harmed:
            wrong.append(f"`{harmed}` was mended to `{stands}`: {run.difference(meaning.get(name), meaning[original])}")
        elif harmed not in KNOWN_WORDS:
            wrong.append(f"`{harmed}` is read, and is another drink: {run.difference(meaning.get(name), meaning[original])}")
    for line in wrong[:60]:
        print(line)
    print(f"{len(cases)} damaged lines: " + ", ".join(f"{words} {number}" for words, number in count.items()) + f", wrong {len(wrong)}")
    assert count["mended"] > CASES / 5, "corrections were tried"
    return 1 if wrong else 0


# Slips that make another word of the trade: no reader can tell.
KNOWN_WORDS = set()


if __name__ == "__main__":
    sys.exit(main())
