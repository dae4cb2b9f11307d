#!/usr/bin/env python3
"""Breaks the code on purpose, one small change at a time, and sees whether a test notices.

    tests/mutation/mutate.py --sample 60 --seed 1          a sample over all rooms
    tests/mutation/mutate.py --rooms model --sample 15     of one room
    tests/mutation/mutate.py --again                       the survivors of the results once more

Works on a copy of the project in build-mutation/, so the sources may be edited meanwhile. The test programs are built once;
a mutant costs the compiling of its one source and the linking of the test programs that hold its room: the mutated object
stands before the archives, so the linker never looks for the one inside. Programs run quickest first, the room's own before
all others, and the first failure ends it. What does not compile is no mutant. Results are kept after each one, so a run that
was stopped goes on where it was. Not part of tests/run: a mutant takes seconds to a minute."""

import argparse
import difflib
import json
import os
import pathlib
import random
import re
import shlex
import shutil
import subprocess
import sys
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
WORK = ROOT / "build-mutation"
TREE, BUILD = WORK / "tree", WORK / "build"
ROOMS = ["model", "units", "costing", "stock", "batch", "plan", "lint", "importer"]
# The programs that test a room first of all, by their names below build/tests.
FIRST = {"model": ["physics", "model"], "batch": ["batch"], "lint": ["lint"]}
PATIENCE = 10  # a program that takes so many times as long as it did unchanged hangs


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
    for found in re.finditer(r"(?<![\w.\[<'])(\d+)(?![\w.'>])", code):
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


def prepare():
    """Copies what changed and builds the test programs."""
    listed = run(["git", "-C", str(ROOT), "ls-files", "-co", "--exclude-standard"], check=True).stdout.splitlines()
    kept = set()
    for name in listed:
        source, copy = ROOT / name, TREE / name
        if not source.is_file():
            continue
        kept.add(copy)
        if not copy.exists() or copy.read_bytes() != source.read_bytes():
            copy.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(source, copy)
    for copy in [path for path in TREE.rglob("*") if path.is_file() and path not in kept]:
        copy.unlink()
    configure = ["cmake", "-S", str(TREE), "-B", str(BUILD), "-G", "Ninja", "-DCMAKE_BUILD_TYPE=Release"]
    if shutil.which("ccache"):
        configure += ["-DCMAKE_CXX_COMPILER_LAUNCHER=ccache"]
    subprocess.run(configure, check=True, stdout=subprocess.DEVNULL)
    subprocess.run(["ninja", "-C", str(BUILD), "--quiet"], check=True)


class Programs:
    """The test programs: how each is linked, what it holds, how long it runs unchanged."""

    def __init__(self):
        self.link, self.seconds = {}, {}
        for path in sorted((BUILD / "tests").glob("test_*")):
            if not os.access(path, os.X_OK) or path.is_dir() or path.suffix:
                continue
            lines = run(["ninja", "-C", str(BUILD), "-t", "commands", "-s", f"tests/{path.name}"], check=True).stdout.splitlines()
            self.link[path.name[5:]] = next(line for line in reversed(lines) if f"-o tests/{path.name}" in line).split(" && ")
        timings = WORK / "timings.json"
        known = json.loads(timings.read_text()) if timings.exists() else {}
        for name in self.link:
            binary = BUILD / "tests" / f"test_{name}"
            stamp = binary.stat().st_mtime
            if known.get(name, [0])[0] != stamp:
                begun = time.time()
                done = run([binary], cwd=BUILD)
                if done.returncode != 0:
                    sys.exit(f"{name} fails unchanged:\n{done.stdout[-3000:]}")
                known[name] = [stamp, time.time() - begun]
            self.seconds[name] = known[name][1]
        timings.write_text(json.dumps(known))

    def of(self, room):
        first = FIRST.get(room, []) + [room]
        names = [name for name, link in self.link.items() if any(f"libgill_{room}.a" in part for part in link)]
        return sorted(names, key=lambda name: (name not in first, self.seconds[name]))

    def linked(self, name, made):
        """Links a program with the object before its archives; says where it is."""
        out = WORK / "mutant" / f"test_{name}"
        command = next(part for part in self.link[name] if f"-o tests/test_{name}" in part)
        words = [word for word in shlex.split(command) if word != "ccache"]
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
        self.commands = {entry["file"]: entry["command"] for entry in json.loads((BUILD / "compile_commands.json").read_text())}
        self.headers = {}

    def words(self, path):
        words = [word for word in shlex.split(self.commands[str(TREE / path)]) if word not in ("ccache", "-Werror", "-Winvalid-pch")]
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
        program = programs.linked(name, made)
        try:
            done = run([program, "--abort"], cwd=BUILD, timeout=max(60, PATIENCE * programs.seconds[name]), errors="replace")
        except subprocess.TimeoutExpired:
            status = {"status": "killed", "by": f"{name}: hangs"}
            break
        finally:
            program.unlink()
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
    options.add_argument("--list", action="store_true", help="show the sample and build nothing but the copy")
    chosen = options.parse_args()
    (WORK / "mutant").mkdir(parents=True, exist_ok=True)
    prepare()
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
            if chosen.list:
                print(shown({**mutant, "status": "drawn"}))
                count += 1
                continue
            results.append(judged(mutant, text, compiler, programs))
            count += results[-1]["status"] != "no code"
            if results[-1]["status"] != "no code":
                print(shown(results[-1]), flush=True)
            keep()
    summary(results)


if __name__ == "__main__":
    main()
