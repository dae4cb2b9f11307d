"""A terminal in which a person's keys are typed, and its screen as a picture: tmux holds it, what it captures is drawn as SVG."""

import html
import os
import re
import subprocess
import time

PATIENCE_S = 60
# The sixteen colours of a terminal with a light ground, ours: dark enough to be read on it.
GROUND, INK = "#fbfaf7", "#22211f"
COLOURS = ["#22211f", "#b3261e", "#2c6e49", "#8a5a00", "#1f5a96", "#7a3e8c", "#1f6f78", "#d8d5cd"]
BRIGHT = ["#6d6a64", "#c62f26", "#2f7d52", "#9a6a10", "#2a6cb0", "#8a4a9e", "#2a7f88", "#ffffff"]
CELL_WIDTH, CELL_HEIGHT, MARGIN = 8, 18, 12


def colour_of(number):
    """Of the 256 of a terminal: sixteen, a cube of 6 × 6 × 6, and greys (XTerm Control Sequences, from memory)."""
    if number < 16:
        return (COLOURS + BRIGHT)[number]
    if number < 232:
        levels = [0, 95, 135, 175, 215, 255]
        return "#" + "".join(f"{levels[(number - 16) // weight % 6]:02x}" for weight in (36, 6, 1))
    return "#" + f"{8 + 10 * (number - 232):02x}" * 3


class Style:
    def __init__(self):
        self.ink = self.ground = None
        self.bold = self.italic = self.underlined = self.turned = False

    def take(self, codes):
        """What a sequence of Select Graphic Rendition says (ECMA-48, Control Functions for Coded Character Sets)."""
        codes = [int(code or 0) for code in codes.replace(":", ";").split(";")]
        while codes:
            code = codes.pop(0)
            if code == 0:
                self.__init__()
            elif code in (38, 48):
                value = colour_of(codes[1]) if codes[0] == 5 else "#" + "".join(f"{part:02x}" for part in codes[1:4])
                del codes[: 2 if codes[0] == 5 else 4]
                self.ink, self.ground = (value, self.ground) if code == 38 else (self.ink, value)
            elif code in range(30, 38) or code in range(90, 98):
                self.ink = colour_of(code - 30 if code < 90 else code - 82)
            elif code in range(40, 48) or code in range(100, 108):
                self.ground = colour_of(code - 40 if code < 100 else code - 92)
            else:
                for on, off, name in ((1, 22, "bold"), (3, 23, "italic"), (4, 24, "underlined"), (7, 27, "turned")):
                    if code in (on, off):
                        setattr(self, name, code == on)
                self.ink = None if code == 39 else self.ink
                self.ground = None if code == 49 else self.ground

    def drawn(self):
        """(ink, ground or none, attributes of the text)."""
        ink, ground = self.ink or INK, self.ground
        if self.turned:
            ink, ground = ground or GROUND, self.ink or INK
        marks = (' font-weight="bold"' if self.bold else "") + (' font-style="italic"' if self.italic else "") + (' text-decoration="underline"' if self.underlined else "")
        return ink, ground, marks


def as_svg(screen, columns, cursor, words):
    """The picture of a captured screen, with a block where the cursor is."""
    rows = screen.rstrip("\n").split("\n")
    width, height = columns * CELL_WIDTH + 2 * MARGIN, len(rows) * CELL_HEIGHT + 2 * MARGIN
    grounds, texts, style = [], [], Style()

    def cell(left, row):
        return MARGIN + left * CELL_WIDTH, MARGIN + row * CELL_HEIGHT

    def ground(left, row, count, colour):
        x, y = cell(left, row)
        grounds.append(f'<rect x="{x}" y="{y}" width="{count * CELL_WIDTH}" height="{CELL_HEIGHT}" fill="{colour}"/>')

    for number, row in enumerate(rows):
        at = 0
        for sequence, text in re.findall(r"\x1b\[([\d;:]*)m|([^\x1b]+)", row):
            if not text:
                style.take(sequence)
                continue
            ink, under, marks = style.drawn()
            if under:
                ground(at, number, len(text), under)
            # Viewers run several spaces together: each stretch between them stands by itself.
            for stretch in re.finditer(r"\S(?:[^ ]| (?=[^ ]))*", text):
                x, y = cell(at + stretch.start(), number)
                texts.append(f'<text x="{x}" y="{y + 13}" textLength="{len(stretch[0]) * CELL_WIDTH}" lengthAdjust="spacingAndGlyphs" fill="{ink}"{marks}>{html.escape(stretch[0])}</text>')
            at += len(text)
    ground(cursor[0], cursor[1], 1, INK + "55")
    body = "\n".join(grounds + texts)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" role="img" aria-label="{html.escape(words)}" '
        'font-family="ui-monospace, monospace" font-size="13" style="max-width: 56rem">\n'
        f'<rect width="{width}" height="{height}" rx="6" fill="{GROUND}" stroke="#c9c5bb"/>\n{body}\n</svg>\n'
    )


class Terminal:
    """A program in a terminal of so many columns and rows."""

    def __init__(self, command, columns, rows, folder, environment, started_in):
        self.socket = f"{folder}/terminal"
        self.columns = columns
        self.tmux("-f", "/dev/null", "new-session", "-d", "-x", str(columns), "-y", str(rows), command, cwd=started_in, env={**os.environ, **environment, "TERM": "xterm-256color"})
        self.tmux("set-option", "-g", "status", "off")
        self.tmux("resize-window", "-x", str(columns), "-y", str(rows))

    def tmux(self, *words, **options):
        return subprocess.run(["tmux", "-u", "-S", self.socket, *words], check=True, capture_output=True, text=True, timeout=PATIENCE_S, **options).stdout

    def close(self):
        subprocess.run(["tmux", "-S", self.socket, "kill-server"], capture_output=True)

    def type(self, words):
        self.tmux("send-keys", "-l", words)

    def press(self, *keys):
        self.tmux("send-keys", *keys)

    def text(self):
        return self.tmux("capture-pane", "-p")

    def wait_for(self, holds):
        """The screen's text once it holds and has come to rest."""
        last, end = None, time.monotonic() + PATIENCE_S
        while time.monotonic() < end:
            now = self.text()
            if now == last and holds(now):
                return now
            last = now
            time.sleep(0.15)
        raise AssertionError("the screen never came to show it:\n" + (last or ""))

    def picture(self, words):
        column, row = map(int, self.tmux("display-message", "-p", "#{cursor_x} #{cursor_y}").split())
        return as_svg(self.tmux("capture-pane", "-e", "-p"), self.columns, (column, row), words)
