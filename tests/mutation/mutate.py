#!/usr/bin/env python3
"""Breaks the code on purpose, one small change at a time, and sees whether a test notices.

    tests/mutation/mutate.py --sample 60 --seed 1          a sample over all rooms
    tests/mutation/mutate.py --rooms model --sample 15     of one room
    tests/mutation/mutate.py --again                       the survivors of the results once more

Builds the test programs in build-by-source/ first, then works on a copy of them and of the sources in build-mutation/, so that the
sources may be edited meanwhile (what tests read from tests/ is not copied: leave golden files and houses alone). A mutant costs
the compiling of its one source and the linking of the test programs that hold its room: the mutated object stands before the
archives, so the linker never looks for the one inside. The programs of TESTED_BY run in their order without the tests of LEFT_OUT,
and the first failure ends it. What does not compile is no mutant. Results are kept after each one, so a run that was stopped goes on
where it was. Not part of tests/run: a mutant takes seconds to a minute."""

import argparse
import difflib
import itertools
import json
import pathlib
import random
import re
import resource
import shlex
import shutil
import signal
import subprocess
import sys
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
MADE = ROOT / "build-by-source"
WORK = ROOT / "build-mutation"
TREE, BUILD = WORK / "tree", WORK / "build"
ROOMS = ["model", "units", "costing", "stock", "batch", "plan", "lint", "importer"]
# The programs that hold a room to something, by their names below build-by-source/tests, in the order in which they are run.
TESTED_BY = {
    "model": ["physics", "model", "costing", "batch", "lint", "driver", "accuracy"],
    "units": ["units", "golden", "model", "driver"],
    "costing": ["costing", "stock", "plan"],
    "stock": ["stock"],
    "batch": ["batch"],
    "plan": ["plan"],
    "lint": ["lint", "driver"],
    "importer": ["importer", "driver"],
}
# Tests of size, and of what others show sooner: they take longer than all the rest of their program. What they alone would notice
# counts as not noticed.
LEFT_OUT = {
    "driver": ["*five thousand preps*", "*through any program of steps", "twenty thousand drinks*"],
    "lint": ["a page's first example*"],
}
PATIENCE = 10  # a program that works so many times as long as it did unchanged hangs (processor time: other work does not count)
MEMORY = 4 << 30  # a program that wants more bytes than this is stopped


# What is changed. Code is clang-formatted, so a binary operator stands between spaces and a template's bracket does not.
COMPARISONS = {"<": "<=", "<=": "<", ">": ">=", ">=": ">", "==": "!=", "!=": "=="}
ARITHMETIC = {"+": "-", "-": "+", "*": "/", "/": "*", "+=": "-=", "-=": "+="}


def blanked(text):
    """The text with comments, literals and preprocessor lines blank, so that places stay."""
    form = re.compile(r'//[^\n]*|/\*.*?\*/|R"\w*\(.*?\)\w*"|"(?:[^"\\\n]|\\.)*"|\'(?:[^\'\\\n]|\\.)+\'|^#[^\n]*', re.DOTALL | re.MULTILINE)
    return form.sub(lambda found: re.sub(r"[^\n]", " ", found[0]), text)


def closing(code, at):
    """Where the bracket that opens at `at` closes."""
    depth = 0
    for i in range(at, len(code)):
        depth += (code[i] == "(") - (code[i] == ")")
        if depth == 0:
            return i
    return None


def changes(text):
    """All changes of a source: (operator, begin, end, replacement)."""
    code = blanked(text)
    for operator, table in (("comparison", COMPARISONS), ("arithmetic", ARITHMETIC), ("logic", {"&&": "||", "||": "&&"})):
        for old, new in table.items():
            for found in re.finditer(rf"(?<=[\w)\]}}] ){re.escape(old)}(?= [\w(\-!*&{{.:])", code):
                yield operator, found.start(), found.end(), new
    for found in re.finditer(r"\bstd::(min|max)(?=\()", code):
        yield "min-max", found.start(1), found.end(1), "max" if found[1] == "min" else "min"
    for found in re.finditer(r"(?<![\w.])(\d+\.\d*(?:e[+-]?\d+)?|\d+e[+-]?\d+)(?![\w.])", code):
        if float(found[1]) != 0:
            yield "constant", found.start(), found.end(), repr(float(found[1]) * 1.1)
    for found in re.finditer(r"(?<![\w.\[<'])(?<!e[-+])(\d+)(?![\w.'>])", code):
        yield "off-by-one", found.start(), found.end(), str(int(found[1]) + 1)
    for found in re.finditer(r"\b(true|false)\b", code):
        yield "truth", found.start(), found.end(), "false" if found[1] == "true" else "true"
    for found in re.finditer(r"(?<=[(=,?:] )-(?=[\w(])|(?<=return )-(?=[\w(])|(?<=\()-(?=[a-z(])", code):
        yield "sign", found.start(), found.end(), "+"
    for found in re.finditer(r"\bif \(", code):
        end = closing(code, found.end() - 1)
        inside = code[found.end() : end] if end else ""
        if inside and ";" not in inside and not re.search(r"(?<![=!<>])=(?!=)", inside):
            yield "negated condition", found.end(), end, f"!({text[found.end():end]})"
    # A guard that leaves early no longer does.
    for found in re.finditer(r"^ +if \((?:[^;{}\n]|\n)*?\)\s(?:return\b[^;{}]*|continue|break);", code, re.MULTILINE):
        yield "dropped return", found.start(), found.end(), ""
    for found in re.finditer(r"^( +)(?!return|auto|const|using|throw|else|case|if|for|while|static|delete)[a-z_][\w.:>\-\[\]()*]*(?: [+\-*/|]?= |\()[^;{}]*;$", code, re.MULTILINE):
        yield "dropped statement", found.start(), found.end(), found[1] + ";"
    # A function that ends as it begins.
    for found in re.finditer(r"^(?! |namespace|struct|class|enum|union|extern)([\w:].*)\) (?:const )?\{$", code, re.MULTILINE):
        if not re.search(r"\b(if|for|while|switch)\b", found[1]):
            yield "early return", found.end(), found.end(), "\n  return;" if found[1].startswith("void ") else "\n  return {};"


def candidates(room):
    """The changes of a room by operator: {operator: [(path, begin, end, replacement)]}."""
    by_operator = {}
    for path in sorted((TREE / "compiler" / room).rglob("*.cpp")):
        text = path.read_text()
        for operator, begin, end, new in changes(text):
            by_operator.setdefault(operator, []).append((str(path.relative_to(TREE)), begin, end, new))
    return {operator: by_operator[operator] for operator in sorted(by_operator)}


def sampled(rooms, seed):
    """Changes in an order of chance, without end and without one twice: rooms take turns, operators are drawn evenly."""
    chance = random.Random(seed)
    pools = {room: candidates(room) for room in rooms}
    while any(pools.values()):
        for room in rooms:
            pool = pools[room]
            if not pool:
                continue
            operator = chance.choice(sorted(pool))
            one = pool[operator].pop(chance.randrange(len(pool[operator])))
            if not pool[operator]:
                del pool[operator]
            yield (room, operator, *one)


def run(words, **options):
    return subprocess.run(words, capture_output=True, text=True, **options)


def copy_sources():
    """The sources as they stand, below build-mutation/tree."""
    shutil.rmtree(TREE, ignore_errors=True)
    for folder in ("compiler", "grammar"):
        shutil.copytree(ROOT / folder, TREE / folder)


def build(jobs):
    """Builds the test programs (with no jobs: takes them as they are) and copies the build folder."""
    if not (MADE / "build.ninja").exists():
        subprocess.run(["cmake", "--preset", "by-source"], cwd=ROOT, check=True)
    if jobs:
        subprocess.run(["ninja", "-C", str(MADE), "--quiet", f"-j{jobs}"], check=True)
    shutil.rmtree(BUILD, ignore_errors=True)
    shutil.copytree(MADE, BUILD, symlinks=True)


def limited(seconds):
    """Sets up a child that is stopped beyond so much processor time and MEMORY."""

    def limit():
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
        resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds + 5))

    return limit


def worked_s():
    """Processor time of all children that have ended, s."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


class Programs:
    """The test programs: how each is linked and how long it works unchanged."""

    def __init__(self):
        self.timings = WORK / "timings.json"
        self.known = json.loads(self.timings.read_text()) if self.timings.exists() else {}
        self.links = {}

    def seconds(self, name):
        """How long it works unchanged; None where it fails already."""
        binary = BUILD / "tests" / f"test_{name}"
        stamp = binary.stat().st_mtime
        if self.known.get(name, [0])[0] != stamp:
            begun = worked_s()
            done = run(self.command(binary, name), cwd=BUILD)
            self.known[name] = [stamp, worked_s() - begun if done.returncode == 0 else None]
            self.timings.write_text(json.dumps(self.known))
            if done.returncode != 0:
                print(f"test_{name} fails unchanged and is left out.", flush=True)
        return self.known[name][1]

    def command(self, program, name):
        return [program, "--abort", *("~" + test for test in LEFT_OUT.get(name, []))]

    def link(self, name):
        if name not in self.links:
            lines = run(["ninja", "-C", str(MADE), "-t", "commands", "-s", f"tests/test_{name}"], check=True).stdout.splitlines()
            command = next(line for line in reversed(lines) if f"-o tests/test_{name}" in line)
            self.links[name] = next(part for part in command.split(" && ") if f"-o tests/test_{name}" in part)
        return self.links[name]

    def of(self, room):
        return [name for name in TESTED_BY[room] if self.seconds(name) is not None]

    def linked(self, name, made):
        """Links a program with the object before its archives; says where it is."""
        out = WORK / "mutant" / f"test_{name}"
        words = [word for word in shlex.split(self.link(name)) if word != "ccache"]
        at = words.index("-o")
        words[at + 1] = str(out)
        words.insert(at + 2, str(made))
        if shutil.which("mold"):
            words.append("-fuse-ld=mold")
        subprocess.run(words, cwd=BUILD, check=True, capture_output=True)
        return out


class Compiler:
    """Compiles a changed source as the build does, unoptimised and with a precompiled header of its own."""

    def __init__(self):
        self.commands = {entry["file"]: entry["command"] for entry in json.loads((MADE / "compile_commands.json").read_text())}
        self.headers = {}

    def words(self, path):
        words = [word for word in shlex.split(self.commands[str(ROOT / path)].replace(str(ROOT / "compiler"), str(TREE / "compiler"))) if word not in ("ccache", "-Werror", "-Winvalid-pch")]
        words = words[: words.index("-o")]
        while "-include" in words:
            at = words.index("-include")
            del words[at : at + 2]
        return [word for word in words if not re.match(r"-O\d|-W", word)] + ["-O0", "-w"]

    def header(self, words):
        key = " ".join(words)
        if key not in self.headers:
            folder = WORK / f"header-{len(self.headers)}"
            folder.mkdir(exist_ok=True)
            shutil.copy(TREE / "compiler/precompiled/precompiled.h", folder / "common.h")
            subprocess.run([*words, "-x", "c++-header", str(folder / "common.h"), "-o", str(folder / "common.h.gch")], check=True, cwd=BUILD)
            self.headers[key] = folder / "common.h"
        return self.headers[key]

    def compiled(self, path, text):
        """The object, or None where the source cannot be compiled."""
        source = WORK / "mutant" / pathlib.Path(path).name
        source.write_text(text)
        made = source.with_suffix(".o")
        words = self.words(path)
        done = run([*words, "-I", str((TREE / path).parent), "-include", str(self.header(words)), "-c", str(source), "-o", str(made)], cwd=BUILD)
        return made if done.returncode == 0 else None


def judged(mutant, text, compiler, programs):
    """Fills in what became of a mutant."""
    begun = time.time()
    made = compiler.compiled(mutant["file"], text)
    if made is None:
        return {**mutant, "status": "no code"}
    status = {"status": "survived"}
    for name in programs.of(mutant["room"]):
        try:
            program = programs.linked(name, made)
        except subprocess.CalledProcessError:  # what it no longer defines is missed elsewhere
            return {**mutant, "status": "no code"}
        patience = int(max(30, PATIENCE * programs.seconds(name)))
        done = run(programs.command(program, name), cwd=BUILD, errors="replace", preexec_fn=limited(patience))
        program.unlink()
        if done.returncode == -signal.SIGXCPU:
            status = {"status": "killed", "by": f"{name}: hangs"}
            break
        if done.returncode != 0:
            told = re.search(r"^-{20,}\n(.+)\n", done.stdout, re.MULTILINE)
            status = {"status": "killed", "by": f"{name}: {told[1] if told else 'ends with ' + str(done.returncode)}"}
            break
    return {**mutant, **status, "seconds": round(time.time() - begun, 1)}


def described(room, operator, path, begin, end, new):
    """A mutant as it is kept, and its text."""
    old = (TREE / path).read_text()
    text = old[:begin] + new + old[end:]
    difference = [line for line in difflib.unified_diff(old.splitlines(), text.splitlines(), n=0, lineterm="")][3:]
    line = old.count("\n", 0, begin) + 1
    return {"room": room, "file": path, "line": line, "operator": operator, "change": difference}, text


def again(mutant):
    """The text of a mutant of earlier results, where its lines still stand once nearby; None where they are gone."""
    old = (TREE / mutant["file"]).read_text().splitlines(keepends=True)
    away = [line[1:] for line in mutant["change"] if line.startswith("-")]
    come = [line[1:] for line in mutant["change"] if line.startswith("+")]
    if not away:
        return None
    places = [i for i in range(len(old)) if [line.rstrip("\n") for line in old[i : i + len(away)]] == away]
    if not places:
        return None
    at = min(places, key=lambda place: abs(place + 1 - mutant["line"]))
    mutant["line"] = at + 1
    return "".join(old[:at] + [line + "\n" for line in come] + old[at + len(away) :])


def shown(mutant):
    by = f" by {mutant['by']}" if "by" in mutant else ""
    return f"{mutant['status']}{by}: {mutant['file']}:{mutant['line']} ({mutant['operator']})\n" + "".join(f"    {line}\n" for line in mutant["change"])


def summary(results):
    counted = [one for one in results if one["status"] in ("killed", "survived")]
    for room in sorted({one["room"] for one in counted}):
        of_room = [one for one in counted if one["room"] == room]
        print(f"{room}: {sum(one['status'] == 'killed' for one in of_room)} of {len(of_room)} killed")
    killed = sum(one["status"] == "killed" for one in counted)
    print(f"all: {killed} of {len(counted)} killed ({100 * killed / max(1, len(counted)):.0f} %)")


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--rooms", default=",".join(ROOMS), help="folders below compiler/, by commas")
    options.add_argument("--sample", type=int, default=60, help="how many mutants that compile")
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--again", action="store_true", help="try the survivors of the results once more")
    options.add_argument("--results", type=pathlib.Path, default=WORK / "results.json")
    options.add_argument("--list", action="store_true", help="show the sample and build nothing")
    options.add_argument("--jobs", type=int, default=2, help="how many compilers build the test programs; 0: they stand")
    chosen = options.parse_args()
    (WORK / "mutant").mkdir(parents=True, exist_ok=True)
    copy_sources()
    if chosen.list:
        for drawn in itertools.islice(sampled(chosen.rooms.split(","), chosen.seed), chosen.sample):
            print(shown({**described(*drawn)[0], "status": "drawn"}))
        return
    build(chosen.jobs)
    results = json.loads(chosen.results.read_text()) if chosen.results.exists() else []
    compiler, programs = Compiler(), Programs()

    def keep():
        chosen.results.write_text(json.dumps(results, indent=1))

    if chosen.again:
        for i, one in enumerate(results):
            if one["status"] != "survived":
                continue
            text = again(one)
            if text is None:
                results[i] = {**one, "status": "gone"}
            else:
                results[i] = judged({key: one[key] for key in ("room", "file", "line", "operator", "change")}, text, compiler, programs)
            print(shown(results[i]), flush=True)
            keep()
    else:
        known = {(one["file"], one["line"], *one["change"]) for one in results}
        count = 0
        for drawn in sampled(chosen.rooms.split(","), chosen.seed):
            if count >= chosen.sample:
                break
            mutant, text = described(*drawn)
            if (mutant["file"], mutant["line"], *mutant["change"]) in known:
                earlier = next(one for one in results if (one["file"], one["line"], one["change"]) == (mutant["file"], mutant["line"], mutant["change"]))
                count += earlier["status"] in ("killed", "survived")
                continue
            results.append(judged(mutant, text, compiler, programs))
            count += results[-1]["status"] != "no code"
            if results[-1]["status"] != "no code":
                print(shown(results[-1]), flush=True)
            keep()
    summary(results)


if __name__ == "__main__":
    main()
