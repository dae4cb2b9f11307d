#!/usr/bin/env python3
"""Runs a gill program over the corpora beside this file and prints what it tells, misses, invents and misreads.

  python3 tests/corpus/run.py GILL [--list] [--require told=95 false=3 wrong=0 refused=6 mends=90] [--only drinks ...]

drinks/    sound drinks: a head bartender has nothing to say, so every finding is a false alarm, unless a comment line
           above the declaration (`# told: RULE`) or in the file's head (`# argued: RULE: reason`) says why it is right.
mistakes/  one deliberate mistake a declaration, named above it: `# told: RULE [or RULE]`. `# quiet: RULE` marks a
           declaration that a naive rule would tell. `any-error` is any error of the declaration, and `holds WORD` is met
           by an allergen in its facts (where a line may be read as the list that it plainly is).
hurried/   lines as people type them. NAME.expected holds, for each body line, `LINE: meaning`:
             TEXT / TEXT     these canonical lines            =   it is canonical as it stands
             may: A | B      read as A (or B), or refused     ask: A | B   two bartenders would disagree: refused,
             refuse          it must be refused                            with both in the message
           Each line is put alone into its drink, the other lines canonical, and the drink's facts and steps are compared
           with those of the drink whose lines are all canonical. What a refusal prints to write is tried as well: `mends` is
           the share of those that are right, `helped` the share of all refusals that print what is right.

Exit status 1 when a --require does not hold, 2 when the program cannot be run.
"""

import argparse
import collections
import json
import pathlib
import re
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent

# Housekeeping of a stock room and menus that a corpus of drinks does not have.
NOT_ASKED = {"not-on-menu", "unused-prep", "no-price", "no-menu-price"}


# What the words for warmth mean, in C.
WARMTH = {"hot": 90, "chilled": 4, "frozen": -18}
ROOM = 20
MOST_MENDS = 4  # how many findings of one line are followed
WARM_ALIKE = 12  # boiling and hot, cold from the tap and chilled by a little: no bartender tells these apart


class Gill:
    def __init__(self, program):
        self.program = str(pathlib.Path(program).resolve())

    def run(self, *arguments):
        try:
            done = subprocess.run([self.program, *map(str, arguments)], capture_output=True, text=True, timeout=600)
        except (OSError, subprocess.TimeoutExpired) as problem:
            sys.exit(f"run.py: {problem}")
        if done.returncode not in (0, 1):
            print(done.stderr, file=sys.stderr)
            sys.exit(2)
        return done.stdout

    def findings(self, path):
        return json.loads(self.run("check", path, "--as", "json"))["findings"]

    def facts(self, path):
        facts = json.loads(self.run("facts", path, "--as", "json"))
        return {entry["name"]: entry for kind in ("drinks", "preps") for entry in facts[kind]}

    def steps(self, path):
        """What `dump units` says of each declaration: its steps in order, and how warm what goes in is where it says so."""
        found, name = {}, None
        for line in self.run("dump", "units", path).splitlines():
            line = re.sub(r"(\s*\([^()]*\))+\s*$", "", line)
            if header := re.match(r"(?:drink|prep) (.+)", line):
                name = header[1].strip('"')
                found[name] = ([], {})
            elif name is not None and (step := re.match(r"\s+step (.+)", line)):
                found[name][0].append(step[1])
            elif name is not None and (warm := re.match(r"\s+add .*<(.+)>.*?\b(hot|chilled|frozen|at (-?[\d.]+) C)", line)):
                found[name][1][warm[1]] = float(warm[3]) if warm[3] else WARMTH[warm[2]]
        return found


class Declaration:
    def __init__(self, kind, name, line):
        self.kind, self.name, self.line, self.last = kind, name, line, line
        self.told, self.quiet = [], []


def declarations(path):
    """The declarations of a corpus file, with what the comments above each say."""
    found, told, quiet, argued = [], [], [], set()
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if mark := re.match(r"# (told|quiet|argued): (.+)", line):
            if mark[1] == "argued":
                argued.add(mark[2].split(":")[0].strip())
            else:
                (told if mark[1] == "told" else quiet).append([one.strip() for one in mark[2].split(" or ")])
        elif header := re.match(r"(drink|prep|ingredient|family|unit|house|glass) (.+)", line):
            found.append(Declaration(header[1], header[2].strip('"'), number))
            found[-1].told, found[-1].quiet = told, quiet
            told, quiet = [], []
        if found and line.startswith((" ", "\t")):
            found[-1].last = number
    return found, argued


def by_declaration(found, findings):
    """The findings of each declaration, by where they stand; none may be lost."""
    held = collections.defaultdict(list)
    for finding in findings:
        owner = next((d for d in reversed(found) if d.line <= finding["line"]), None)
        held[owner].append(finding)
    return held


class Rules:
    """Told, missed and false, a row for each rule."""

    def __init__(self):
        self.rows = collections.defaultdict(collections.Counter)
        self.sound, self.sound_told, self.sound_warned = 0, 0, 0
        self.misses, self.alarms = [], []

    def mistakes(self, gill, path):
        found, _ = declarations(path)
        held = by_declaration(found, gill.findings(path))
        facts = gill.facts(path)
        for declaration in found:
            rules = {finding["rule"] for finding in held[declaration]}
            if any(finding["severity"] == "error" for finding in held[declaration]):
                rules.add("any-error")
            known = facts.get(declaration.name, {})
            allergens = known.get("allergens", []) + known.get("allergens_may", [])
            rules |= {f"holds {word}" for word in allergens}
            where = f"{path.name}:{declaration.line}: {declaration.name}"
            for choice in declaration.told:
                row = self.rows[choice[0]]
                row["should"] += 1
                if rules & set(choice):
                    row["told"] += 1
                else:
                    row["missed"] += 1
                    told = ", ".join(sorted(rules - NOT_ASKED)) or "nothing"
                    self.misses.append((choice[0], f"{where}: told {told}"))
            for choice in declaration.quiet:
                row = self.rows[choice[0]]
                row["quiet"] += 1
                if rules & set(choice):
                    row["false"] += 1
                    self.alarms.append((choice[0], f"{where}: must be quiet"))

    def sound_drinks(self, gill, path):
        found, argued = declarations(path)
        held = by_declaration(found, gill.findings(path))
        for declaration in found:
            if declaration.kind not in ("drink", "prep"):
                continue
            self.sound += 1
            right = {rule for choice in declaration.told for rule in choice}
            false = [f for f in held[declaration] if f["rule"] not in right | argued | NOT_ASKED]
            self.sound_told += bool(false)
            self.sound_warned += any(f["severity"] != "note" for f in false)
            for rule in {f["rule"] for f in false}:
                self.rows[rule]["false"] += 1
            for finding in false:
                text = finding["message"]
                self.alarms.append((finding["rule"], f"{path.name}:{declaration.line}: {declaration.name}: {text}"))

    def figures(self):
        should = sum(row["should"] for row in self.rows.values())
        told = sum(row["told"] for row in self.rows.values())
        return {
            "told": 100 * told / should if should else 100.0,
            "false": 100 * self.sound_told / self.sound if self.sound else 0.0,
        }

    def print(self):
        print(f"{'rule':26}{'should':>8}{'told':>8}{'missed':>8}{'false':>8}")
        for rule, row in sorted(self.rows.items()):
            print(f"{rule:26}{row['should']:8}{row['told']:8}{row['missed']:8}{row['false']:8}")
        total = sum((collections.Counter(row) for row in self.rows.values()), collections.Counter())
        print(f"{'together':26}{total['should']:8}{total['told']:8}{total['missed']:8}{total['false']:8}")
        if self.sound:
            print(f"\nsound drinks: {self.sound}; with a false alarm {self.sound_told}, of these warned {self.sound_warned}")


class Line:
    """A hurried line, its expected meanings (each a list of canonical lines), and what became of it."""

    def __init__(self, number, text, meaning):
        self.number, self.text, self.outcome, self.note, self.mend = number, text, None, "", None
        self.kind, _, rest = meaning.partition(":")
        if self.kind not in ("may", "ask"):
            self.kind, rest = ("refuse", "") if meaning == "refuse" else ("read", meaning)
        self.meanings = [[one.strip() for one in choice.split(" / ")] for choice in rest.split(" | ")] if rest else []
        if meaning == "=":
            self.meanings = [[text]]
        self.meanings = [[one.strip() for one in choice] for choice in self.meanings]

    def canonical(self):
        return self.meanings[0] if self.meanings else []


def hurried_recipes(path):
    expected = {}
    for number, line in enumerate(path.with_suffix(".expected").read_text(encoding="utf-8").splitlines(), 1):
        place, _, meaning = line.partition(": ")
        if not place.isdigit() or not meaning:
            sys.exit(f"run.py: {path.stem}.expected:{number}: not `LINE: meaning`")
        expected[int(place)] = meaning.strip()
    recipes = []
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if header := re.match(r"(drink|prep) (.+)", line):
            recipes.append((header[1], header[2], []))
        elif line.startswith(" "):
            if number not in expected:
                sys.exit(f"run.py: {path.name}:{number}: no expected meaning")
            recipes[-1][2].append(Line(number, line.strip(), expected.pop(number)))
    if expected:
        sys.exit(f"run.py: {path.stem}.expected: meanings of lines that are not there: {sorted(expected)[:5]}")
    return recipes


class House:
    """A scratch house of many variants of recipes; says for each whether it was read and what came out."""

    def __init__(self, gill):
        self.gill, self.text, self.owner, self.names = gill, [], {}, []

    def add(self, kind, lines):
        """`lines` is a list of (key, text); returns the variant's name."""
        name = f"variant {len(self.names)} of the corpus"
        self.names.append(name)
        self.text.append(f'{kind} "{name}"')
        for key, text in lines:
            self.text.append(f"  {text}")
            self.owner[len(self.text)] = (name, key)
        return name

    def run(self):
        with tempfile.TemporaryDirectory() as folder:
            path = pathlib.Path(folder) / "variants.gill"
            path.write_text("\n".join(self.text) + "\n", encoding="utf-8")
            self.errors, self.warnings = collections.defaultdict(list), collections.defaultdict(list)
            for finding in self.gill.findings(path):
                if finding["line"] in self.owner and finding["severity"] != "note":
                    name, key = self.owner[finding["line"]]
                    (self.errors if finding["severity"] == "error" else self.warnings)[name].append((key, finding))
            self.facts = self.gill.facts(path)
            self.steps = self.gill.steps(path)
        return self

    def meaning(self, name):
        return meaning(self.facts.get(name), *self.steps.get(name, ([], {})))


FIGURES = {
    "mixed": ("volume_ml", "mass_g", "abv_percent", "sugar_g_per_100ml", "acid_g_per_100ml"),
    "served": ("volume_ml", "abv_percent", "sugar_g_per_100ml", "acid_g_per_100ml", "temperature_c"),
    None: ("dilution_percent", "serves", "yield_ml", "yield_g", "abv_percent", "sugar_g_per_100ml", "acid_g_per_100ml",
           "fat_g_per_100ml", "keeps_days"),
}

# Warnings that say of a line that it is not understood as it stands.
DOUBTS = {"unknown-garnish", "unlikely-amount", "unlikely-time"}

# Steps that are told apart by the figures, not by their words.
WORDS_ONLY = {"serve", "do", "add", "fill", "ice", "pack", "build"}


FRUIT = re.compile(r" (juice|peel)$")


def meaning(facts, steps, warmth):
    """What a bartender would notice: figures, what goes in and where, allergens, glass, and the steps."""
    if facts is None:
        return None
    figures = {}
    for group, keys in FIGURES.items():
        source = facts if group is None else facts.get(group) or {}
        figures |= {f"{group or 'all'} {key}": source[key] for key in keys if key in source}
    entries = sorted((entry["name"], entry.get("role", ""), bool(entry.get("optional"))) for entry in facts["ingredients"])
    amounts = {}
    for entry in facts["ingredients"]:
        key = f"{entry.get('role', '')} {entry['name']}"
        amounts[key] = amounts.get(key, 0) + (entry.get("volume_ml") or entry.get("mass_g") or entry.get("count") or 0)
    is_prep = "yield_ml" in facts
    verbs = []
    for step in steps:
        if is_prep:  # how long a prep stands, and where, shows in no figure
            step = step.replace("the fridge", "4 C").replace("the freezer", "-18 C")
            if step.startswith("do "):  # words, which change nothing
                continue
            verbs.append("stir" if step.split(" <")[0] == "dissolve" else step)  # what went into solution is in the figures
            continue
        verb = re.match(r"[a-z ]*[a-z]|", step)[0]
        if verb.split(" ")[0] not in WORDS_ONLY and not verb.startswith(("garnish", "side", "express")):
            verbs.append(re.sub(r"\b(with|to|for|at|through)\b.*", "", verb).strip())
    words = {
        "entries": entries,
        "steps": sorted(verbs),
        "glass": facts.get("glass"),
        "allergens": (facts.get("allergens"), facts.get("allergens_known")),
        "storage": facts.get("storage"),
    }
    if is_prep:
        figures |= {f"warmth {name}": warmth.get(name, ROOM) for name, *_ in entries}
    return figures | {f"amount {key}": value for key, value in amounts.items()}, words


def difference(one, other):
    """In words, the first thing that differs between two meanings; empty when nothing does."""
    if one is None or other is None:
        return "" if one is other else "no facts"
    plain = [sorted((FRUIT.sub("", name), *rest) for name, *rest in side[1]["entries"]) for side in (one, other)]
    by_fruit = one[1]["entries"] != other[1]["entries"] and plain[0] == plain[1]  # two limes squeezed, or their juice
    for key in one[1]:
        if one[1][key] != other[1][key] and not (by_fruit and key == "entries"):
            return f"{key}: {one[1][key]} for {other[1][key]}"
    for key in sorted(one[0].keys() | other[0].keys()):
        if by_fruit and key.startswith(("amount ", "warmth ")):
            continue
        first, second = one[0].get(key), other[0].get(key)
        if first is None or second is None:
            if first is not second:
                return f"{key}: {first} for {second}"
        elif abs(first - second) > (WARM_ALIKE if key.startswith("warmth") else 0.02 + 0.005 * max(abs(first), abs(second))):
            return f"{key}: {first:.4g} for {second:.4g}"
    return ""


def with_line(canonical, line=None, put=None):
    """A recipe's canonical lines, each with the number it comes from, with `put` in the place of one."""
    return [(number, text) for number, texts in canonical.items()
            for text in (put if line is not None and number == line.number else texts)]


def asks(line, finding):
    """Whether a refusal gives at least two of the answers to choose from: each by the words that tell it from the others."""
    text = f"{finding['message']} {finding.get('help') or ''}".casefold()
    answers = [set(" ".join(choice).casefold().split()) for choice in line.meanings]
    shared = set.intersection(*answers)
    told = sum(all(word in text for word in answer - shared) for answer in answers)
    return told >= 2


def mends_of(written, finding):
    """The line as it would stand after what a finding prints to write, in each way a reader may follow it: in the place of
    the whole line, or of the words that the finding marks; of several to choose from, each. A bottle that it says to declare
    once stands for what it is declared like. Nothing when it prints nothing to write."""
    text = finding.get("help") or ""
    start = finding["column"] - 3  # variants are indented by two
    marked = (written[:start], written[start + finding["length"]:])
    if text.startswith("Delete "):
        return [["".join(marked).strip()]]
    if declared := re.match(r"Declare it once, from its nearest relation: `ingredient .+? like ([^`]+)`", text):
        return [[marked[0] + declared[1] + marked[1]]]
    if not re.match(r"(Write|Put|Add|Say|Did you mean)\b", text):
        return []
    sentence = re.split(r"\.(?: |$)", re.sub(r"`[^`]*`", lambda code: code[0].replace(". ", ".\0"), text))[0]
    shown = [one.replace("\0", " ") for one in re.findall(r"`([^`]+)`", sentence)]
    if len(shown) > 1 and not re.search(r"` or `|\?|, or |` by weight, or|, or\b", sentence):
        return [shown]
    return [way for one in shown for way in ([one], [marked[0] + one + marked[1]])]


class Hurried:
    def __init__(self):
        self.lines, self.unsound = [], []

    def read(self, gill, path):
        recipes = hurried_recipes(path)
        dropped = self.sound_base(gill, path, recipes)
        house, cases = House(gill), []
        for index, (kind, _, lines) in enumerate(recipes):
            canonical = {line.number: [] if (index, line.number) in dropped else line.canonical() for line in lines}
            base = house.add(kind, with_line(canonical))
            for line in lines:
                raw = house.add(kind, with_line(canonical, line, [line.text]))
                others = line.meanings[1:] if line.kind == "may" else []
                meanings = [base, *(house.add(kind, with_line(canonical, line, choice)) for choice in others)]
                cases.append((line, kind, canonical, raw, meanings, (index, line.number) not in dropped))
        house.run()
        for line, _, _, raw, meanings, judged in cases:
            self.judge(house, line, raw, meanings, judged)
            self.lines.append((path, line))
        self.try_mends(gill, cases)

    def sound_base(self, gill, path, recipes):
        """Canonical lines that this program cannot read are left out of every variant."""
        dropped = {}
        for _ in range(5):
            house = House(gill)
            names = [house.add(kind, [(line.number, text) for line in lines if (index, line.number) not in dropped
                                      for text in line.canonical()]) for index, (kind, _, lines) in enumerate(recipes)]
            house.run()
            more = {(index, key): finding for index, name in enumerate(names) for key, finding in house.errors[name]}
            if not more:
                break
            dropped |= more
        texts = {(index, line.number): line for index, (_, _, lines) in enumerate(recipes) for line in lines}
        for key, finding in sorted(dropped.items(), key=lambda item: item[0]):
            self.unsound.append(f"{path.name}:{key[1]}: `{' / '.join(texts[key].canonical())}`: {finding['message']}")
        return dropped

    @staticmethod
    def judge(house, line, raw, meanings, judged):
        errors = [finding for key, finding in house.errors[raw] if key == line.number]
        if errors:
            line.finding = errors[0]
            asked = line.kind in ("ask", "may") and any(asks(line, finding) for finding in errors)
            line.outcome = "asked" if asked else "rightly refused" if line.kind == "refuse" else "refused"
            line.note = errors[0]["message"]
            return
        if line.kind in ("ask", "refuse"):
            line.outcome, line.note = "wrong", "accepted, and it must not be"
            return
        if not judged and line.canonical() != [line.text]:
            line.outcome, line.note = "unjudged", "the program does not read the canonical lines"
            return
        differences = [difference(house.meaning(raw), house.meaning(one)) for one in meanings]
        doubts = [finding for key, finding in house.warnings[raw] if key == line.number and finding["rule"] in DOUBTS]
        line.outcome = "right" if "" in differences else "warned" if doubts else "wrong"
        line.note = "" if line.outcome == "right" else differences[0] + "".join(f" ({one['message']})" for one in doubts)

    @staticmethod
    def try_mends(gill, cases):
        """Writes what each refusal prints, word for word, and compares as for a line that was read. A line with several mistakes is
        mended one finding after the other, as a writer does it."""
        tried = []
        for line, kind, canonical, _, _, judged in cases:
            if line.outcome != "refused" or not judged:
                continue
            line.mend = "none"
            choices = line.meanings if line.kind == "may" else line.meanings[:1]
            if choices:
                tried.append((line, kind, canonical, choices, [mend for mend in mends_of(line.text, line.finding)]))
        found = collections.defaultdict(list)
        for _ in range(MOST_MENDS):
            house, attempts = House(gill), []
            for line, kind, canonical, choices, mends in tried:
                for mend in mends:
                    meanings = [house.add(kind, with_line(canonical, line, one)) for one in choices]
                    attempts.append((line, mend, house.add(kind, with_line(canonical, line, mend)), meanings))
            house.run()
            more = collections.defaultdict(list)
            for line, mend, name, meanings in attempts:
                errors = [finding for key, finding in house.errors[name] if key == line.number]
                if errors and len(mend) == 1:
                    further = mends_of(mend[0], errors[0])
                    more[line.number] += further
                    if not further:
                        found[line.number].append(("refused again", mend))
                elif errors:
                    found[line.number].append(("refused again", mend))
                elif any(difference(house.meaning(name), house.meaning(one)) == "" for one in meanings):
                    found[line.number].append(("right", mend))
                else:
                    found[line.number].append(("another drink", mend))
            tried = [(line, kind, canonical, choices, more[line.number]) for line, kind, canonical, choices, _ in tried
                     if more[line.number] and not any(what == "right" for what, _ in found[line.number])]
        ranks = ("right", "another drink", "refused again")
        for line, *_ in cases:
            if line.mend and found[line.number]:
                line.mend, mend = min(found[line.number], key=lambda one: ranks.index(one[0]))
                line.note += f" (mend: {' / '.join(mend)})"

    def figures(self):
        count = collections.Counter(line.outcome for _, line in self.lines)
        lines = len(self.lines) or 1
        mends = collections.Counter(line.mend for _, line in self.lines if line.mend)
        printed = sum(mends.values()) - mends["none"]
        return {
            "wrong": 100 * count["wrong"] / lines,
            "refused": 100 * (count["refused"] + count["warned"]) / lines,
            "right": 100 * count["right"] / lines,
            "mends": 100 * mends["right"] / printed if printed else 100.0,
            "helped": 100 * mends["right"] / sum(mends.values()) if mends else 100.0,
        }, count, mends

    def print(self):
        figures, count, mends = self.figures()
        print(f"\nhurried: {len(self.lines)} lines")
        for outcome in ("right", "asked", "rightly refused", "refused", "warned", "wrong", "unjudged"):
            print(f"  {outcome:18}{count[outcome]:6}{100 * count[outcome] / max(len(self.lines), 1):8.1f} %")
        print("  what a refusal prints to write, written word for word:")
        for outcome in ("right", "another drink", "refused again", "none"):
            print(f"  {outcome:18}{mends[outcome]:6}{100 * mends[outcome] / max(sum(mends.values()), 1):8.1f} %")


def main():
    parser = argparse.ArgumentParser(description="Runs a gill program over the corpora beside this file.")
    parser.add_argument("gill", help="the program")
    parser.add_argument("--list", action="store_true", help="print every miss, false alarm and misread line")
    parser.add_argument("--only", nargs="+", choices=("drinks", "mistakes", "hurried"), default=["drinks", "mistakes", "hurried"])
    parser.add_argument("--require", nargs="+", default=[], metavar="FIGURE=PERCENT",
                        help="told, right, mends, helped: at least; false, wrong, refused: at most")
    arguments = parser.parse_args()
    gill, rules, hurried = Gill(arguments.gill), Rules(), Hurried()
    for folder, read in (("drinks", rules.sound_drinks), ("mistakes", rules.mistakes), ("hurried", hurried.read)):
        if folder not in arguments.only:
            continue
        files = sorted((HERE / folder).glob("*.gill"))
        if not files:
            sys.exit(f"run.py: no corpus in {folder}")
        for path in files:
            read(gill, path)
    figures = {}
    if "drinks" in arguments.only or "mistakes" in arguments.only:
        rules.print()
        figures |= rules.figures()
    if "hurried" in arguments.only:
        hurried.print()
        figures |= hurried.figures()[0]
        if hurried.unsound:
            print(f"\n{len(hurried.unsound)} canonical lines of the expected files are not read by this program")
    if arguments.list:
        for title, held in (("missed", rules.misses), ("false alarms", rules.alarms)):
            print(f"\n# {title}")
            for rule, text in sorted(held):
                print(f"{rule}: {text}")
        print("\n# hurried lines")
        for path, line in hurried.lines:
            if line.outcome not in ("right", "asked", "rightly refused"):
                mend = f" [{line.mend}]" if line.mend else ""
                print(f"{line.outcome}{mend}: {path.name}:{line.number}: `{line.text}`: {line.note}")
        print("\n# canonical lines that are not read")
        print("\n".join(hurried.unsound))
    print("\n" + ", ".join(f"{name} {value:.1f} %" for name, value in figures.items()))
    failed = False
    for demand in arguments.require:
        name, _, bound = demand.partition("=")
        if name not in figures:
            sys.exit(f"run.py: no figure `{name}` in this run; there are {', '.join(figures)}")
        at_most = name in ("false", "wrong", "refused")
        if figures[name] > float(bound) if at_most else figures[name] < float(bound):
            failed = True
            print(f"required: {name} {'at most' if at_most else 'at least'} {bound} %, and it is {figures[name]:.2f} %")
    sys.exit(1 if failed else 0)


if __name__ == "__main__":
    main()
