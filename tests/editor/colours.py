"""What the language server says of every stretch of the demo house and of damaged lines, for the tests of colouring files: an editor
that colours by itself has to come to the same."""

import pathlib

from client import Client, uri_of

KINDS = ("comment", "keyword", "property", "step", "number", "unit", "text", "declared", "named")
DAMAGED = pathlib.Path(__file__).resolve().parent / "damaged.txt"


def demo_files(source):
    return sorted((source / "specs").rglob("*.gill"))


def server_tokens(program, folder, path):
    """(line, from, to, kind, words) of a file's text, in characters, as the server colours it."""
    text = path.read_text()
    with Client(program, folder) as client:
        client.start()
        # Damaged lines lie beside the house that they are read with.
        uri = uri_of(path if path.suffix == ".gill" else pathlib.Path(folder) / "damaged.gill")
        client.open(uri, text)
        data = client.ask("textDocument/semanticTokens/full", {"textDocument": {"uri": uri}})["data"]
    tokens, line, start = [], 0, 0
    lines = text.split("\n")
    for i in range(0, len(data), 5):
        step, along, length, kind, _ = data[i : i + 5]
        start = along if step else start + along
        line += step
        units = lines[line].encode("utf-16-le")
        begin = len(units[: 2 * start].decode("utf-16-le"))
        words = units[2 * start : 2 * (start + length)].decode("utf-16-le")
        tokens.append((line, begin, begin + len(words), KINDS[kind], words))
    return tokens


def is_known(words, kind, known):
    """Whether an editor that has the language's words alone can know what these are: names are the house's, and so are its own units."""
    if kind == "keyword":
        return words.lower() in known["declarations"]
    if kind == "property":
        return any(words.lower() == one.split()[0] for listed in known["lines"].values() for one in listed)
    if kind == "unit":
        return any(words.lower().removesuffix(ending) in known["units"] for ending in ("", ".", "s", "es"))
    return kind != "named"


def disagreements(program, folder, path, kind_at, known):
    """Where an editor's colours differ from the server's: `kind_at(line, column)` is what the editor shows of a character, by the server's
    names and None for nothing in particular; `known` are the language's words."""
    wrong, looked_at = [], 0
    lines = path.read_text().split("\n")
    for line, begin, end, kind, words in server_tokens(program, folder, path):
        # Other names of a thing are declared in its body.
        if not is_known(words, kind, known) or (kind == "declared" and lines[line].startswith(" ")):
            continue
        looked_at += 1
        shown = {kind_at(line, begin), kind_at(line, end - 1)}
        if shown != {kind}:
            wrong.append(f"{path.name}:{line + 1}: `{words}` is shown as {shown}, not as {kind}")
    assert looked_at > 20, path
    return wrong
