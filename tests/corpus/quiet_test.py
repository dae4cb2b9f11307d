"""A line that is refused takes with it what hangs on it: of each drink of the corpus and the demo house one line after the
other is damaged so that it is refused, and nothing may be told of the drink that was not told before.

    python3 quiet_test.py GILL SOURCE_FOLDER
"""

import collections
import json
import pathlib
import re
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent

# Two ways to be refused: a name that nobody knows, and a word that starts no line.
DAMAGE = (
    (re.compile(r"^(\s*(?:about )?[\d./ ]+(?:ml|cl|g|oz|dashes|dash|leaves|barspoons?|tsp)\s+)\S.*$"), r"\1qqxx zzyv"),
    (re.compile(r"^(\s*)(\S.*)$"), r"\1qqxx \2"),
)
MOST_SHOWN = 20
# An `allow` that is refused allows nothing, and a failed `expect` is told all the same.
NOT_DAMAGED = ("allow", "expect")
TOLD_ALL_THE_SAME = {"unmet-expectation"}


def drinks(path):
    """The drinks of a file that are like no other: their name's line and body, and what the file declares beside them."""
    others, found, current = [], [], None
    for line in path.read_text(encoding="utf-8").splitlines():
        if line and not line[0].isspace() and not line.startswith("#"):
            current = None
            if re.match(r"drink ", line) and " like " not in line:
                current = []
                found.append(current)
                continue
        if current is None:
            others.append(line)
        elif line.strip() and not line.strip().startswith(("#", "|")):
            current.append(line)
    return found, others


class House:
    def __init__(self):
        self.lines, self.owner = [], {}

    def add(self, key, body):
        self.lines.append(f'drink "variant {key[0]} {key[1]} {key[2]}"')
        self.owner[len(self.lines)] = (key, -1)
        for number, line in enumerate(body):
            self.lines.append("  " + line.strip())
            self.owner[len(self.lines)] = (key, number)

    def findings(self, gill, others):
        with tempfile.TemporaryDirectory() as folder:
            (pathlib.Path(folder) / "variants.gill").write_text("\n".join(self.lines) + "\n", encoding="utf-8")
            (pathlib.Path(folder) / "others.gill").write_text("\n".join(others) + "\n", encoding="utf-8")
            done = subprocess.run([gill, "check", folder, "--as", "json"], capture_output=True, text=True, timeout=600)
        told = collections.defaultdict(list)
        for finding in json.loads(done.stdout)["findings"]:
            if finding["file"].endswith("variants.gill") and finding["line"] in self.owner:
                key, number = self.owner[finding["line"]]
                told[key].append((number, finding))
        return told


def check_file(gill, path):
    """What is told of damaged drinks that was not told of the sound ones, and how many lines were damaged."""
    found, others = drinks(path)
    house = House()
    for index, body in enumerate(found):
        house.add((index, -1, 0), body)
        for number in range(len(body)):
            if body[number].strip().startswith(NOT_DAMAGED):
                continue
            for way, (pattern, put) in enumerate(DAMAGE):
                if pattern.match(body[number]):
                    house.add((index, number, way), [*body[:number], pattern.sub(put, body[number]), *body[number + 1:]])
    told = house.findings(gill, others)
    new, damaged = [], 0
    for key in {owner for owner, _ in house.owner.values()}:
        index, line, _ = key
        if line < 0 or not any(number == line and finding["severity"] == "error" for number, finding in told[key]):
            continue  # it is still read: `do`, a text
        damaged += 1
        before = {finding["rule"] for _, finding in told[(index, -1, 0)]} | TOLD_ALL_THE_SAME
        new += [f"{path.name}: `{found[index][line].strip()}` refused, and {finding['rule']} is told: {finding['message']}"
                for number, finding in told[key] if number != line and finding["rule"] not in before]
    return new, damaged


def main():
    gill, source = sys.argv[1], pathlib.Path(sys.argv[2])
    files = sorted((source / "tests/corpus/drinks").glob("*.gill")) + sorted((source / "specs").rglob("*.gill"))
    new, damaged = [], 0
    for path in files:
        more, count = check_file(gill, path)
        new, damaged = new + more, damaged + count
    print(f"{damaged} lines of {len(files)} files were refused one by one; {len(new)} findings are new")
    if damaged < 2000:
        sys.exit("failed: too few lines were damaged for the test to mean anything")
    if new:
        print("\n".join(sorted(new)[:MOST_SHOWN]))
        sys.exit("failed: a refused line is judged all the same")


if __name__ == "__main__":
    main()
