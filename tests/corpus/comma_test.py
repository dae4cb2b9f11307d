"""A comma hides nothing: two body lines of a sound drink written on one line, with a comma between them, are read as the two
lines, or refused. Never does the drink check clean with other facts.

    python3 comma_test.py GILL SOURCE_FOLDER
"""
import json
import pathlib
import random
import subprocess
import sys
import tempfile

PAIRS = 1500
# Lines that hold words by right: what follows a comma there is part of them.
WORDS = ("do ", "serve ", "guest ", "right when ", "tag ", "author ", "station ", "source ", "expect ", "allow ", "batched ",
         "family ", "size ", "serves ", "cup ", "since ", "status ", "tasted ", "caution ", "colour ", "was ", "until ", "swap ",
         "without ", "method ", "alcohol ", "|", "#")


def drinks(folder):
    """Every drink of the corpus that is like no other: its name and body lines."""
    for path in sorted(folder.glob("*.gill")):
        name, body = None, []
        for line in path.read_text(encoding="utf-8").splitlines() + ["end"]:
            if line[:1] not in ("", " ", "\t", "#", "|"):
                if name:
                    yield name, body
                name, body = None, []
                if line.startswith("drink ") and " like " not in line:
                    name = line[len("drink "):].split(" #")[0].strip()
            elif name and line.strip() and line.strip()[0] not in "#|":
                body.append(line.split(" #")[0].strip())


def run(gill, command, folder):
    result = subprocess.run([gill, command, str(folder), "--as", "json"], capture_output=True, text=True, check=False)
    assert result.returncode in (0, 1), result.stderr
    return json.loads(result.stdout)


def meaning(drink):
    """What a drink comes to, without its name and place."""
    return {key: value for key, value in drink.items() if key not in ("name", "file", "line", "ingredients")} | {
        "ingredients": sorted((entry["name"], entry.get("mass_g") or 0) for entry in drink["ingredients"])}


def main():
    gill, source = sys.argv[1], pathlib.Path(sys.argv[2])
    chance = random.Random(1309)
    cases = []
    for name, body in drinks(source / "tests/corpus/drinks"):
        lines = [i for i, line in enumerate(body) if not line.startswith(WORDS)]
        cases += [(name, body, i, j) for i, j in zip(lines, lines[1:]) if j == i + 1]
    cases = chance.sample(cases, min(PAIRS, len(cases)))
    house, originals = [], {}
    for number, (name, body, i, j) in enumerate(cases):
        joined = body[:i] + [f"{body[i]}, {body[j]}"] + body[j + 1:]
        house.append(f"drink joined {number}\n" + "".join(f"  {line}\n" for line in joined))
        originals.setdefault(name, "drink original %d\n" % len(originals) + "".join(f"  {line}\n" for line in body))
    names = {name: f"original {k}" for k, name in enumerate(originals)}
    with tempfile.TemporaryDirectory() as folder:
        pathlib.Path(folder, "house.gill").write_text("".join(originals.values()) + "".join(house), encoding="utf-8")
        facts = {drink["name"]: drink for drink in run(gill, "facts", folder)["drinks"]}
        lines = pathlib.Path(folder, "house.gill").read_text(encoding="utf-8").splitlines()
        refused = set()
        for finding in run(gill, "check", folder)["findings"]:
            if finding["severity"] != "error":
                continue
            at = finding["line"] - 1
            while not lines[at].startswith("drink "):
                at -= 1
            refused.add(lines[at][len("drink "):])
    wrong = []
    for number, (name, body, i, j) in enumerate(cases):
        joined = f"joined {number}"
        if joined in refused:
            continue
        if meaning(facts[joined]) != meaning(facts[names[name]]):
            wrong.append(f"{name}: `{body[i]}, {body[j]}` is read as another drink, without a word")
    for line in wrong[:40]:
        print(line)
    read = len(cases) - len(wrong) - sum(f"joined {n}" in refused for n in range(len(cases)))
    print(f"{len(cases)} pairs of lines joined by a comma: {read} read as the two, "
          f"{len(cases) - read - len(wrong)} refused, {len(wrong)} misread")
    assert len(cases) > 500, "the corpus was not read"
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
