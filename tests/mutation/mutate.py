#!/usr/bin/env python3
"""Breaks the code on purpose, one small change at a time, and sees whether a test notices.

    tests/mutation/mutate.py --sample 60 --seed 1          a sample over all rooms
    tests/mutation/mutate.py --rooms model --sample 15     of one room
    tests/mutation/mutate.py --again                       the survivors of the results once more

Builds the test programs in build/ first (another folder: --build), then works on a copy of them and of the sources in
build-mutation/, so that the sources may be edited meanwhile (what tests read from tests/ is not copied: leave golden files and houses
alone). Of a room that is mutated each source is compiled by itself once. A mutant then costs the compiling of its one source and the
linking of the test programs that hold its room: the mutated object and the room's others stand before the archives, so the linker never
looks for the ones inside. The programs of TESTED_BY run in their order without the tests of LEFT_OUT, those of LAST after all others, and
the first failure ends it. What does not compile is no mutant. Results are kept after each one, so a run that was stopped goes on where it
was. Not part of tests/run: a mutant takes seconds to a minute."""

import argparse
import concurrent.futures
import difflib
import hashlib
import itertools
import json
import os
import pathlib
import random
import re
import resource
import shlex
import shutil
import signal
import subprocess
import sys
import tempfile
import threading
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
WORK = ROOT / "build-mutation"
TREE, BUILD = WORK / "tree", WORK / "build"
ROOMS = ["model", "units", "costing", "stock", "batch", "plan", "lint", "importer"]
# The programs that hold a room to something, by their names below the build's tests/, in the order in which they are run.
# OUTPUTS is the program itself, whose whole outputs are compared.
OUTPUTS = "outputs"
TESTED_BY = {
    "model": [OUTPUTS, "physics", "costing", "model", "driver", "batch", "accuracy", "lint"],
    "units": ["units", "golden", OUTPUTS, "driver", "model"],
    "costing": [OUTPUTS, "costing", "stock", "plan"],
    "stock": [OUTPUTS, "stock"],
    "batch": [OUTPUTS, "batch"],
    "plan": [OUTPUTS, "plan"],
    "lint": [OUTPUTS, "lint", "driver"],
    "importer": ["importer", "driver"],
}
# Tests of size, and of what others show sooner: they take longer than all the rest of their program. What they alone would notice
# counts as not noticed.
LEFT_OUT = {
    "driver": ["*five thousand preps*", "*through any program of steps", "twenty thousand drinks*", "*that is tidied means what it meant*", "few declarations must keep their words", "after any edit of*"],
    "lint": ["a page's first example*"],
    "accuracy": ["the printed tolerance is the spread*"],
}
# What takes as long as all the rest of its program runs last: most mutants are noticed before.
LAST = {
    "model": ["working a drink in its glass never melts less*", "longer never melts less*"],
    "lint": ["fixtures show what each rule finds*"],
    "plan": ["the plan of any house can be carried out", "half the sales never buy more", "the explosion conserves amounts", "*deep are planned and costed"],
}
PATIENCE = 10  # a program that works so many times as long as it did unchanged hangs (processor time: other work does not count)
AHEAD = 12  # so many are tried before the one that is waited for: one that lives takes as long as many that are killed
MEMORY = 4 << 30  # a program that wants more bytes than this is stopped


# What is changed. Code is clang-formatted, so a binary operator stands between spaces and a template's bracket does not.
COMPARISONS = {"<": "<=", "<=": "<", ">": ">=", ">=": ">", "==": "!=", "!=": "=="}
# A constant is made a tenth larger. Of what guards against rounding, and of what is more than any bar has, nobody sees that.
LEAST_SEEN, MOST_SEEN = 1e-5, 1e8
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
        if LEAST_SEEN <= float(found[1]) <= MOST_SEEN:
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


def program_of(name):
    """Where the build puts it."""
    return "gill" if name == OUTPUTS else f"tests/test_{name}"


def run(words, **options):
    return subprocess.run(words, capture_output=True, text=True, **options)


def copy_sources():
    """The sources as they stand, below build-mutation/tree."""
    shutil.rmtree(TREE, ignore_errors=True)
    for folder in ("compiler", "grammar"):
        shutil.copytree(ROOT / folder, TREE / folder)


def build(made, jobs, names):
    """Builds the test programs in `made` (with no jobs: takes them as they are) and copies them with what they are linked of."""
    if not (made / "build.ninja").exists():
        subprocess.run(["cmake", "--preset", "release"], cwd=ROOT, check=True)
    if jobs:
        subprocess.run(["ninja", "-C", str(made), "--quiet", f"-j{jobs}", *map(program_of, names)], check=True)
    shutil.rmtree(BUILD, ignore_errors=True)
    for folder in ("compiler", "tests"):
        (BUILD / folder).mkdir(parents=True)
        for archive in (made / folder).glob("*.a"):
            shutil.copy2(archive, BUILD / folder)
    for name in names:
        shutil.copy2(made / program_of(name), BUILD / program_of(name))
        parts = f"compiler/CMakeFiles/{program_of(name)}.dir" if name == OUTPUTS else f"tests/CMakeFiles/test_{name}.dir"
        shutil.copytree(made / parts, BUILD / parts)


def limited(seconds):
    """Sets up a child that is stopped beyond so much processor time and MEMORY."""

    def limit():
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
        resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds + 5))

    return limit


def measured(words, seconds):
    """Runs a test program for so much processor time at most: (its code, what it printed, the time that it took in s)."""
    with tempfile.TemporaryFile() as out:
        child = subprocess.Popen(words, cwd=BUILD, stdout=out, stderr=subprocess.DEVNULL, preexec_fn=limited(seconds))
        _, status, used = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
        out.seek(0)
        return child.returncode, out.read().decode(errors="replace"), used.ru_utime + used.ru_stime


class Programs:
    """The test programs: how each is linked and how long it works unchanged."""

    def __init__(self, made, names):
        self.made = made
        self.timings = WORK / "timings.json"
        self.known = json.loads(self.timings.read_text()) if self.timings.exists() else {}
        self.links = {}
        with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
            list(pool.map(self.time, names))
        self.timings.write_text(json.dumps(self.known))
        for name in names:
            self.links[name] = self.link(name)

    def time(self, name):
        """Notes how long its tests work unchanged; None where one fails already."""
        binary = BUILD / program_of(name)
        stamp = binary.stat().st_mtime
        if self.known.get(name, [0])[0] == stamp:
            return
        seconds = []
        for last in (False, True):
            if (words := self.command(binary, name, last)) is not None:
                code, _, took = measured(words, 600)
                seconds.append(took if code == 0 else None)
                if code != 0:
                    print(f"{program_of(name)} fails unchanged and is left out.", flush=True)
        self.known[name] = [stamp, None if None in seconds else max(seconds)]

    def command(self, program, name, last):
        """Runs all its tests but those of LEFT_OUT and LAST, or those of LAST alone; None where there are none."""
        if name == OUTPUTS:
            return None if last else [sys.executable, "-B", ROOT / "tests/golden/outputs_test.py", program, ROOT]
        if last:
            return [program, "--abort", ",".join(LAST[name])] if name in LAST else None
        return [program, "--abort", *("~" + test for test in LEFT_OUT.get(name, []) + LAST.get(name, []))]

    def link(self, name):
        lines = run(["ninja", "-C", str(self.made), "-t", "commands", "-s", program_of(name)], check=True).stdout.splitlines()
        command = next(line for line in reversed(lines) if f"-o {program_of(name)} " in line)
        return next(part for part in command.split(" && ") if f"-o {program_of(name)} " in part)

    def patience(self, name):
        return int(max(30, PATIENCE * self.known[name][1]))

    def of(self, room):
        return [name for name in TESTED_BY[room] if self.known[name][1] is not None]

    def linked(self, name, objects, folder):
        """Links a program with the objects before its archives; says where it is."""
        out = folder / pathlib.Path(program_of(name)).name
        words = [word for word in shlex.split(self.links[name]) if word not in ("ccache", ":")]
        at = words.index("-o")
        words[at + 1] = str(out)
        words[at + 2 : at + 2] = [str(one) for one in objects]
        if shutil.which("mold"):
            words.append("-fuse-ld=mold")
        subprocess.run(words, cwd=BUILD, check=True, capture_output=True)
        return out


class Compiler:
    """Compiles sources one by one with the build's flags, hardly optimised and with a precompiled header of its own."""

    def __init__(self, made):
        self.commands = {}
        for entry in json.loads((made / "compile_commands.json").read_text()):
            # A piece of a unity build stands for the sources that it reads.
            text = pathlib.Path(entry["file"]).read_text() if "/Unity/" in entry["file"] else ""
            for source in re.findall(r'^#include "(.+)"$', text, re.MULTILINE) or [entry["file"]]:
                self.commands[source] = entry["command"]
        self.headers = {}
        headers = b"".join(path.read_bytes() for path in sorted(TREE.rglob("*.h")))
        self.stamp = hashlib.sha256(headers)
        self.lock = threading.Lock()

    def words(self, path):
        words = [word for word in shlex.split(self.commands[str(ROOT / path)].replace(str(ROOT / "compiler"), str(TREE / "compiler"))) if word not in ("ccache", "-Werror", "-Winvalid-pch")]
        words = words[: words.index("-o")]
        while "-include" in words:
            at = words.index("-include")
            del words[at : at + 2]
        return [word for word in words if not re.match(r"-O\d|-W", word)] + ["-O1", "-w"]

    def header(self, words):
        key = " ".join(words)
        with self.lock:
            if key not in self.headers:
                folder = WORK / f"header-{len(self.headers)}"
                folder.mkdir(exist_ok=True)
                shutil.copy(TREE / "compiler/precompiled/precompiled.h", folder / "common.h")
                subprocess.run([*words, "-x", "c++-header", str(folder / "common.h"), "-o", str(folder / "common.h.gch")], check=True, cwd=BUILD)
                self.headers[key] = folder / "common.h"
        return self.headers[key]

    def compiled(self, path, text, folder):
        """The object, or None where the source cannot be compiled."""
        source = folder / pathlib.Path(path).name
        source.write_text(text)
        made = source.with_suffix(".o")
        words = self.words(path)
        done = run([*words, "-I", str((TREE / path).parent), "-include", str(self.header(words)), "-c", str(source), "-o", str(made)], cwd=BUILD)
        return made if done.returncode == 0 else None

    def room(self, room):
        """Compiles the sources of a room as they are, unless that has been done: {path: object}."""

        def one(path):
            text = (TREE / path if (TREE / path).exists() else ROOT / path).read_text()
            stamp = self.stamp.copy()
            stamp.update((path + text).encode())
            folder = WORK / "objects" / stamp.hexdigest()[:16]
            made = folder / (pathlib.Path(path).stem + ".o")
            if not made.exists():
                folder.mkdir(parents=True, exist_ok=True)
                part = self.compiled(path, text, folder)
                if part is None:
                    sys.exit(f"{path} cannot be compiled unchanged.")
            return path, made

        # What the build makes for the room (its pages, its lists) belongs to it, too.
        target = f"CMakeFiles/gill_{room}.dir/"
        paths = [os.path.relpath(source, ROOT) for source, command in sorted(self.commands.items()) if f" compiler/{target}" in command]
        with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
            return dict(pool.map(one, paths))


def judged(mutant, text, compiler, programs, rooms):
    """Fills in what became of a mutant."""
    begun = time.time()
    with tempfile.TemporaryDirectory(dir=WORK / "mutant") as folder:
        folder = pathlib.Path(folder)
        made = compiler.compiled(mutant["file"], text, folder)
        if made is None:
            return {**mutant, "status": "no code"}
        others = [unchanged for path, unchanged in rooms[mutant["room"]].items() if path != mutant["file"]]
        linked = {}
        for last in (False, True):
            for name in programs.of(mutant["room"]):
                if last and name not in LAST:
                    continue
                try:
                    program = linked.setdefault(name, None) or programs.linked(name, [made, *others], folder)
                except subprocess.CalledProcessError:  # what it no longer defines is missed elsewhere
                    return {**mutant, "status": "no code"}
                linked[name] = program
                code, out, _ = measured(programs.command(program, name, last), programs.patience(name))
                if code == 0:
                    continue
                told = re.search(r"^-{20,}\n(.+)\n" if name != OUTPUTS else r"(.+)", out, re.MULTILINE)
                how = "hangs" if code == -signal.SIGXCPU else told[1] if told else f"ends with {code}"
                return {**mutant, "status": "killed", "by": f"{name}: {how}", "seconds": round(time.time() - begun, 1)}
    return {**mutant, "status": "survived", "seconds": round(time.time() - begun, 1)}


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
    options.add_argument("--build", type=pathlib.Path, default=ROOT / "build", help="the folder of the test programs")
    options.add_argument("--jobs", type=int, default=2, help="how many compilers build the test programs; 0: they stand")
    options.add_argument("--workers", type=int, default=2, help="how many mutants are tried at a time")
    chosen = options.parse_args()
    made = chosen.build.absolute()
    rooms = chosen.rooms.split(",")
    (WORK / "mutant").mkdir(parents=True, exist_ok=True)
    copy_sources()
    if chosen.list:
        for drawn in itertools.islice(sampled(rooms, chosen.seed), chosen.sample):
            print(shown({**described(*drawn)[0], "status": "drawn"}))
        return
    results = json.loads(chosen.results.read_text()) if chosen.results.exists() else []
    if chosen.again:
        rooms = sorted({one["room"] for one in results if one["status"] == "survived"})
    names = sorted({name for room in rooms for name in TESTED_BY[room]})
    build(made, chosen.jobs, names)
    compiler, programs = Compiler(made), Programs(made, names)
    objects = {room: compiler.room(room) for room in rooms}

    def keep():
        chosen.results.write_text(json.dumps(results, indent=1))

    def tried_again(one):
        text = again(one)
        if text is None:
            return {**one, "status": "gone"}
        return judged({key: one[key] for key in ("room", "file", "line", "operator", "change")}, text, compiler, programs, objects)

    def tried(drawn):
        mutant, text = described(*drawn)
        earlier = [one for one in results if (one["file"], one["line"], one["change"]) == (mutant["file"], mutant["line"], mutant["change"])]
        return earlier[0] if earlier else judged(mutant, text, compiler, programs, objects)

    with concurrent.futures.ThreadPoolExecutor(chosen.workers) as pool:
        if chosen.again:
            places = [i for i, one in enumerate(results) if one["status"] == "survived"]
            for place, one in zip(places, pool.map(tried_again, [results[i] for i in places])):
                results[place] = one
                print(shown(one), flush=True)
                keep()
        else:
            # Judged a few at a time and counted in the order in which they were drawn.
            drawn, running, count = sampled(rooms, chosen.seed), [], 0
            while count < chosen.sample:
                for one in itertools.islice(drawn, chosen.workers + AHEAD - len(running)):
                    running.append(pool.submit(tried, one))
                if not running:
                    break
                one = running.pop(0).result()
                count += one["status"] != "no code"
                if one not in results:
                    results.append(one)
                    keep()
                    if one["status"] != "no code":
                        print(shown(one), flush=True)
            for one in running:
                one.cancel()
    summary(results)


if __name__ == "__main__":
    main()
