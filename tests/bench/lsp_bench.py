#!/usr/bin/env python3
"""From an edit to the findings that it makes, as an editor meets it: speaks the protocol with `gill lsp` in houses of a seeded generator. The time
ends when the last byte of the findings has come; what an editor does with them is its own.

    python3 tests/bench/lsp_bench.py build/gill                      200 and 10,000 drinks
    python3 tests/bench/lsp_bench.py build/gill --drinks 200 --edits 1000

Prints a line a house: median and 99th percentile of edit to publishDiagnostics of a word that is typed, the processor time of one, the same of a name that is typed, hover and completion behind an edit, and the memory of the
server after the first edits and at the end."""

import argparse
import json
import os
import pathlib
import random
import statistics
import sys
import tempfile
import time

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "editor"))
from client import Client, uri_of

SPIRITS = ["London dry gin", "rye whiskey", "bourbon", "white rum", "aged rum", "cognac", "blanco tequila", "vodka"]
SWEET = ["simple syrup", "honey syrup", "orgeat", "grenadine"]
DRINKS_A_FILE = 100


def drink(number, chance):
    """A sour of three to five lines, with a text and a comment as people write them."""
    spirit, preps = chance.choice(SPIRITS), [f"house cordial {chance.randrange(20)}"]
    lines = [f"drink Bench {number}", "  | Short and cold. Strain it hard.", "  family         sour", "  glass          coupe", ""]
    lines += [f"  {chance.choice((45, 50, 60))} ml          {spirit}", f"  {chance.choice(('15', '20', '22.5'))} ml          lemon juice"]
    lines += [f"  {chance.choice((10, 15, 20))} ml          {chance.choice(SWEET + preps)}", "  shake          12 s  # hard", "  double strain", "  garnish        none", ""]
    return "\n".join(lines)


def write_house(folder, drinks, seed=7):
    chance = random.Random(seed)
    (folder / "house.gill").write_text("house Bench\n  currency EUR\n  ounce 30 ml\n  show ml, oz\n")
    (folder / "preps.gill").write_text("\n".join(f"prep house cordial {n}\n  500 g           white sugar\n  500 ml          lime juice\n  dissolve\n  keeps           7 d chilled\n" for n in range(20)))
    for first in range(0, drinks, DRINKS_A_FILE):
        (folder / f"drinks{first // DRINKS_A_FILE:03}.gill").write_text("\n".join(drink(n, chance) for n in range(first, min(first + DRINKS_A_FILE, drinks))))


def memory_mb(process):
    status = pathlib.Path(f"/proc/{process.pid}/status").read_text()
    return int(status.split("VmRSS:")[1].split()[0]) / 1024


def processor_seconds(process):
    """What the server has used of the processors, whoever else is busy on the machine."""
    fields = pathlib.Path(f"/proc/{process.pid}/stat").read_text().rsplit(")", 1)[1].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


class Wire(Client):
    """A client that reads in the thread that waits: another one would be measured with it."""

    def _read(self):
        pass

    def _take(self):
        self.incoming.put(json.loads(self.frame()))
        return super()._take()

    def frame(self):
        """The bytes of the next message."""
        length = int(self.server.stdout.readline().split(b":")[1])
        self.server.stdout.readline()
        return self.server.stdout.read(length)

    def wait_for_findings(self, version):
        wanted = b'"version":%d}' % version
        while True:
            frame = self.frame()
            if b"publishDiagnostics" in frame and frame.endswith(wanted + b"}"):
                return


def percentile(times, share):
    return sorted(times)[min(len(times) - 1, int(len(times) * share))]


def measure(program, drinks, edits):
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        write_house(folder, drinks)
        path = folder / "drinks000.gill"
        uri, text = uri_of(path), path.read_text()
        with Wire(program, folder) as client:
            client.start()
            begun = time.perf_counter()
            typed = "lemom juice"
            text = text.replace("lemon juice", typed, 1)
            client.open(uri, text)
            client.findings(uri)
            first = time.perf_counter() - begun
            times, early, used = [], None, processor_seconds(client.server)
            for edit in range(edits):
                begun, before, typed = time.perf_counter(), typed, f"lemom juice {edit % 10}"
                text = client.type(uri, text, before, typed, edit + 2)
                client.wait_for_findings(edit + 2)
                times.append(time.perf_counter() - begun)
                if edit == min(50, edits // 2):
                    early = memory_mb(client.server)
            used = (processor_seconds(client.server) - used) / edits
            # The name of a drink, letter by letter; the misspelt word with it, so that there is something to tell.
            letters = []
            for edit in range(min(edits, 200)):
                named = text.replace("drink Bench 7\n", f"drink Bench 7{'abcdefghij'[: edit % 10]}\n", 1).replace(typed, f"lemom juice {(edit + 1) % 10}", 1)
                begun = time.perf_counter()
                client.change(uri, named, edits + edit + 2)
                client.wait_for_findings(edits + edit + 2)
                letters.append(time.perf_counter() - begun)
            asked, late = {}, memory_mb(client.server)
            for method in ("hover", "completion"):
                text += f"# {method}\n"
                client.change(uri, text, 3 * edits + 3)
                begun = time.perf_counter()
                client.at(f"textDocument/{method}", uri, text, "lemon juice")
                asked[method] = time.perf_counter() - begun
    print(
        f"{drinks:6} drinks, {edits} edits: first {1000 * first:.0f} ms, edit to findings median {1000 * statistics.median(times):.1f} ms, 99th percentile {1000 * percentile(times, 0.99):.1f} ms, {1000 * used:.0f} ms of processor time an edit, "
        f"a letter of a name {1000 * statistics.median(letters):.1f} and {1000 * percentile(letters, 0.99):.1f} ms, hover behind an edit {1000 * asked['hover']:.0f} ms, completion {1000 * asked['completion']:.1f} ms; memory {early:.0f} MB, then {late:.0f} MB",
        flush=True,
    )


def main():
    options = argparse.ArgumentParser()
    options.add_argument("program")
    options.add_argument("--drinks", type=int, action="append")
    options.add_argument("--edits", type=int)
    given = options.parse_args()
    for drinks in given.drinks or [200, 10000]:
        measure(pathlib.Path(given.program).resolve(), drinks, given.edits or (1000 if drinks <= 1000 else 30))


main()
