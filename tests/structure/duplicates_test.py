"""Nothing stands twice: no block of six lines or more is written a second time, in the compiler or in the tests.

Compared are lines of code without their indentation. Left out is what a block cannot be made one by: blank lines, comments,
includes, closing brackets, and data (rows of a table, text between quotes, raw strings, the labels of a switch).
"""

import pathlib
import re
import sys
import unittest

SOURCE = pathlib.Path(sys.argv[2])
LENGTH = 6
KINDS = (".cpp", ".h", ".py", ".js", ".mjs", ".css")


def without_raw_strings(text):
    """The text with every raw string and every docstring emptied; the lines keep their numbers."""
    emptied = lambda found: "\n" * found[0].count("\n")
    text = re.sub(r'R"(\w*)\(.*?\)\1"', emptied, text, flags=re.DOTALL)
    return re.sub(r'"""[\s\S]*?"""', emptied, text)


def is_code(line):
    """Whether a line counts: it is no comment, no include, no lone bracket and no row of data."""
    if line.startswith(("//", "#", "/*", "*", "import ", "from ", "using ", "namespace ")):
        return False
    if re.fullmatch(r"[\W_]*(// .*)?", line):
        return False
    is_text = re.fullmatch(r'[{("\']*"[^"]*"(, *[^()]*)?[,;)}]*', line)
    is_row = re.fullmatch(r"\{.*\},?", line)
    is_member = re.fullmatch(r"[{(]*\.\w+ = [^;]*,?", line)
    is_label = re.fullmatch(r"case [\w:]+:", line)
    return not is_text and not is_row and not is_member and not is_label


def code_of(text):
    """The lines that count, each with its number."""
    lines = enumerate(without_raw_strings(text).splitlines(), 1)
    return [(number, stripped) for number, line in lines if is_code(stripped := re.sub(r"\s+", " ", line.strip()))]


def sources():
    for top in ("compiler", "grammar", "tests"):
        for path in sorted((SOURCE / top).rglob("*")):
            if path.suffix in KINDS and "node_modules" not in path.parts:
                yield path.relative_to(SOURCE).as_posix(), path.read_text()


def twice(texts):
    """The blocks that stand twice: `a.cpp:10 and b.cpp:20, 7 lines`, the longest first."""
    code = {name: code_of(text) for name, text in texts}
    places = {}
    for name, lines in code.items():
        for at in range(len(lines) - LENGTH + 1):
            places.setdefault(tuple(line for _, line in lines[at : at + LENGTH]), []).append((name, at))
    pairs = {(a, b) for same in places.values() for i, a in enumerate(same) for b in same[i + 1 :] if not overlap(a, b)}
    later = lambda pair, by: tuple((name, at + by) for name, at in pair)
    blocks = []
    for pair in pairs:
        if later(pair, -1) in pairs:
            continue
        more = 0
        while later(pair, more + 1) in pairs:
            more += 1
        (first, at), (second, then) = pair
        blocks.append((LENGTH + more, f"{first}:{code[first][at][0]} and {second}:{code[second][then][0]}"))
    return [f"{where}, {length} lines" for length, where in sorted(blocks, reverse=True)]


def overlap(a, b):
    return a[0] == b[0] and b[1] - a[1] < LENGTH


class Duplicates(unittest.TestCase):
    def test_no_block_stands_twice(self):
        texts = list(sources())
        self.assertGreater(len(texts), 400)
        self.assertEqual(twice(texts), [])

    def test_a_block_that_stands_twice_is_told_with_its_whole_length(self):
        block = "".join(f"  call({n});\n" for n in range(7))
        texts = [("a.cpp", "int a() {\n" + block + "}\n"), ("b.cpp", "// b\nint b() {\n\n  // why\n" + block + "  return 1;\n}\n")]
        self.assertEqual(twice(texts), ["a.cpp:2 and b.cpp:5, 7 lines"])
        self.assertEqual(twice([("a.cpp", block + "  between();\n" + block)]), ["a.cpp:1 and a.cpp:9, 7 lines"])

    def test_five_lines_and_data_may_stand_twice(self):
        five = "".join(f"  call({n});\n" for n in range(5))
        data = "".join(f'    {{"row", {n}}},\n' for n in range(9)) + 'R"(' + "".join(f"line {n}\n" for n in range(9)) + ')"\n'
        self.assertEqual(twice([("a.cpp", five + "a();\n" + data), ("b.cpp", five + "b();\n" + data)]), [])


unittest.main(argv=sys.argv[:1], verbosity=2)
