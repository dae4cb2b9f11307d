"""Writes the language's words into the editors' files, from the program's own tables (`gill dump words`).

    python3 grammar/editors/write_words.py build/gill            writes them
    python3 grammar/editors/write_words.py build/gill --check    names the files that differ; exit status 1 where any does
"""

import json
import pathlib
import re
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
RECIPES = ("drink", "prep")


def words_of(program):
    """What begins a declaration, a line of each, a step; units."""
    with tempfile.TemporaryDirectory() as folder:
        # No house stands around it, so that the words are the language's alone.
        empty = pathlib.Path(folder) / "none.gill"
        empty.touch()
        text = subprocess.run([program, "dump", "words", empty], capture_output=True, text=True, check=True).stdout
    words = {"declarations": [], "lines": {}, "steps": [], "units": []}
    for kind, word in (line.split(" ", 1) for line in text.splitlines()):
        if kind == "line":
            declaration, word = word.split(" ", 1)
            words["lines"].setdefault(declaration, []).append(word)
        else:
            words[f"{kind}s"].append(word)
    return words


def longest_first(words):
    """Without doubles; a phrase stands before a word that begins it."""
    return sorted(set(words), key=lambda word: (-len(word), word))


def any_of(words):
    """A regular expression for one of them, whatever white space stands in it."""
    return "|".join(r"\s+".join(map(re.escape, word.split())) for word in longest_first(words)).replace(r"\-", "-").replace(r"\%", "%").replace(r"\/", "/")


# ---- TextMate

NUMBER = r"(?:\d+\s*[¼½¾⅐-⅞]|\d+\s+\d+/\d+|\d+/\d+|[¼½¾⅐-⅞]|\d+(?:\.\d+)?|\.\d+)"
UNIT_END = r"(?:e?s)?\.?(?![\w/%])"
HEADER_NAME = r"(\S.*?)(?:\s+(like)(?:\s+(\S.*?))?)?"
TAIL = r"\s*(?:(?<=\s)(#.*))?$"


def captures(*names):
    return {str(i + 1): {"name": f"{name}.gill"} if isinstance(name, str) else name for i, name in enumerate(names) if name}


def declaration_rule(kind, words):
    name = "entity.name.type.declaration"
    body = [{"include": "#text"}, {"include": "#comment"}, {"include": "#colour"}]
    if kind in RECIPES:
        body.append({"include": "#step"})
    body += [{"match": rf"(?i)^\s+({any_of(words['lines'][kind])})(?=[\s:,]|$)", "captures": captures("support.type.property-name")}, {"include": "#values"}]
    begin = rf"(?i)^({kind})(?:\s+{HEADER_NAME})?{TAIL}"
    begins = captures("keyword.other.declaration", name, "keyword.other.like", "entity.other.inherited-class", "comment.line.number-sign")
    if kind == "unit":
        begin = r"(?i)^(unit)(?:\s+([^\s=].*?))?\s*(?:(=)\s*(.*))?$"
        begins = captures("keyword.other.declaration", name, "keyword.operator.assignment", {"patterns": [{"include": "#values"}]})
    return {"name": f"meta.declaration.{kind}.gill", "begin": begin, "beginCaptures": begins, "end": r"^(?=[^\s#|])", "patterns": body}


def textmate(words):
    number, unit = "constant.numeric", "support.type.unit"
    units = rf"(?i:{any_of(words['units'])}){UNIT_END}|[A-Z]{{3}}(?!\w)"
    repository = {
        "text": {"match": r"^\s*((\|).*)$", "captures": captures("string.unquoted.text", "punctuation.definition.string.begin")},
        "comment": {"match": r"(?:^|(?<=\s))#.*$", "name": "comment.line.number-sign.gill"},
        "colour": {"match": r"(?i)^\s+(colou?r)\s+(#\w+)", "captures": captures("support.type.property-name", "constant.other.colour")},
        "step": {"match": rf"(?i)^\s+({any_of(words['steps'])})(?=[\s:,]|$)", "captures": captures("support.function.step")},
        "values": {
            "patterns": [
                {"include": "#comment"},
                {"match": r'"[^"]*"', "name": "string.quoted.double.gill"},
                {"match": r'"[^"]*$', "name": "invalid.illegal.unclosed-quote.gill"},
                {"match": r"(?<![\w.])\d{4}-\d{2}-\d{2}(?!\d)", "name": "constant.numeric.date.gill"},
                {"match": r"(?<!\w)\d+:\d+\S*", "name": "constant.numeric.clock.gill"},
                {"match": r"(?<![\w.])(?:\d+(?:,\d+)+(?:\.\d+)?|\d+-\d+/\d+)", "name": "invalid.illegal.number.gill"},
                {"match": rf"(?<![\w]|\d\.)([-−]?{NUMBER})(?:\s*({units}))?", "captures": captures(number, unit)},
                {"match": r"->|→|\.\.|…|±|\+/?-|=", "name": "keyword.operator.gill"},
                {"match": r"[^\W\d][\w'’&./()-]*", "name": "meta.word.gill"},
            ]
        },
    }
    return {
        "scopeName": "source.gill",
        "name": "Gill",
        "fileTypes": ["gill"],
        "patterns": [{"include": "#text"}, {"include": "#comment"}, *(declaration_rule(kind, words) for kind in words["declarations"]), {"include": "#values"}],
        "repository": repository,
    }


# ---- Vim and Emacs


def vim(words):
    def quoted(one):
        return "'" + one.replace("'", "''") + "'"

    def listed(name, all_words):
        rows = "".join(f"\n      \\ {quoted(word)}," for word in longest_first(all_words))
        return f"let {name} = [{rows}\n      \\ ]\n"

    head = '" Made by write_words.py from the program\'s own tables; do not edit.\n'
    lines = "".join("\n" + listed(f"g:gill#words#lines_{kind}", words["lines"][kind]) for kind in words["declarations"])
    return head + listed("g:gill#words#declarations", words["declarations"]) + lines + "\n" + listed("g:gill#words#steps", words["steps"]) + "\n" + listed("g:gill#words#units", words["units"])


def emacs(words):
    def listed(all_words, indent):
        return ("\n" + " " * indent).join(json.dumps(word, ensure_ascii=False) for word in longest_first(all_words))

    lines = "\n    ".join(f'("{kind}"\n     {listed(words["lines"][kind], 5)})' for kind in words["declarations"])
    constants = {"declarations": f"'({listed(words['declarations'], 4)})", "lines": f"'({lines})", "steps": f"'({listed(words['steps'], 4)})", "units": f"'({listed(words['units'], 4)})"}
    about = {
        "declarations": "Words that begin a declaration.",
        "lines": "Of each declaration the words that begin a line of it.",
        "steps": "Words that begin a step of a drink or a prep.",
        "units": "Every spelling of a unit; other plurals and a last point come beside them.",
    }
    text = ";;; gill-words.el --- The words of Gill  -*- lexical-binding: t -*-\n\n;;; Commentary:\n;; Made by write_words.py from the program's own tables; do not edit.\n\n;;; Code:\n"
    for name, value in constants.items():
        text += f'\n(defconst gill-words-{name}\n  {value}\n  "{about[name]}")\n'
    return text + "\n(provide 'gill-words)\n;;; gill-words.el ends here\n"


def files(program):
    words = words_of(program)
    return {
        "textmate/gill.tmLanguage.json": json.dumps(textmate(words), indent=2, ensure_ascii=False) + "\n",
        "vim/autoload/gill/words.vim": vim(words),
        "emacs/gill-words.el": emacs(words),
    }


def main():
    differing = []
    for name, text in files(pathlib.Path(sys.argv[1]).resolve()).items():
        path = HERE / name
        if path.exists() and path.read_text() == text:
            continue
        differing.append(name)
        if "--check" not in sys.argv:
            path.write_text(text)
    print("\n".join(differing))
    return 1 if differing and "--check" in sys.argv else 0


if __name__ == "__main__":
    sys.exit(main())
