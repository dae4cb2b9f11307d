"""The walk of the guide (grammar/guide/editor-walk.md), walked: Neovim in a terminal on the demo house with five mistakes planted, and the keys
of the page. Each screen is a picture of the page: this test draws it, and fails where it is another than the one that is kept (GILL_UPDATE=1
keeps the new ones). Left out where Neovim or tmux is not installed; elsewhere than on Debian 12's Neovim the screens are not compared."""

import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import unittest

from client import DemoHouse
from terminal import Terminal

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
PAGE, PICTURES = SOURCE / "grammar/guide/editor-walk.md", SOURCE / "grammar/guide/pictures"
DRAWN_WITH = "NVIM v0.7.2"
COLUMNS, ROWS = 108, 26
ATTACH = next(block.split("```")[0].split("\n", 1)[1] for block in (SOURCE / "grammar/guide/editor.md").read_text().split("```lua")[1:] if "gill" in block)
# Nothing on the screen hangs on the machine.
PLAIN = """
vim.opt.swapfile = false
vim.opt.shada = ''
vim.opt.shortmess:append('IF')
vim.opt.number = true
vim.opt.background = 'light'
vim.opt.linebreak = true
vim.opt.ruler = false
vim.opt.showmode = false
vim.opt.laststatus = 0
vim.opt.hidden = true
"""
FILE = "drinks/shaken.gill"
MISTAKES = [
    ("  1/2 oz         lemon juice\n", "  1/2 oz         lemom juice\n"),
    ("  glass          rocks\n  ice            clog cube", "  glass          coupe\n  ice            clog cube"),
    ("  45 ml          Teasel Bank gin\n  22.5 ml        lemon juice", "  45             Teasel Bank gin\n  22.5 ml        lemon juice"),
    ("  strain to tin\n", ""),
    ("  1/2 tsp           agave syrup\n", "  2 tsp             orgeat\n"),
]


def installed():
    return shutil.which("nvim") and shutil.which("tmux")


def findings(folder):
    done = subprocess.run([PROGRAM, "check", folder], capture_output=True, text=True)
    return sorted(re.findall(r"^(\S+?):\d+:\d+: (?:error|warning|note): (.*)$", done.stdout, re.MULTILINE))


@unittest.skipUnless(installed(), "neovim or tmux is not installed")
class Walk(unittest.TestCase):
    maxDiff = None

    def setUp(self):
        self.folder = pathlib.Path(self.enterContext(tempfile.TemporaryDirectory()))
        self.demo = DemoHouse(SOURCE, self.folder)
        self.before = findings(self.demo.folder)
        text = self.demo.text(FILE)
        for right, wrong in MISTAKES:
            self.assertEqual(text.count(right), 1, right)
            text = text.replace(right, wrong)
        self.demo.path(FILE).write_text(text)
        (self.folder / "init.lua").write_text(PLAIN + ATTACH)
        environment = {"PATH": f"{PROGRAM.parent}:{os.environ['PATH']}", "LANG": "C.UTF-8", "LC_ALL": "C.UTF-8"}
        environment |= {f"XDG_{part}_HOME": str(self.folder / part) for part in ("CONFIG", "DATA", "STATE", "CACHE")}
        self.terminal = Terminal(f"nvim -u {self.folder}/init.lua {FILE}", COLUMNS, ROWS, self.folder, environment, self.demo.folder)
        self.addCleanup(self.terminal.close)

    def see(self, *words):
        return self.terminal.wait_for(lambda screen: all(" ".join(word.split()) in " ".join(screen.split()) for word in words))

    def show(self, number):
        """Holds the screen to the picture of the page."""
        name = f"editor-walk-{number}.svg"
        words = re.search(rf"!\[([^\]]*)\]\(pictures/{name}\)", PAGE.read_text())
        self.assertTrue(words, f"the page shows no {name}")
        if not subprocess.run(["nvim", "--version"], capture_output=True, text=True).stdout.startswith(DRAWN_WITH):
            return
        drawn = self.terminal.picture(words[1])
        if os.environ.get("GILL_UPDATE"):
            (PICTURES / name).write_text(drawn)
        self.assertEqual((PICTURES / name).read_text(), drawn)

    def mend(self, keys):
        """Types what the page says: `…` keys of the page, those in angle brackets by their name."""
        for named, plain in re.findall(r"<(\w+)>|([^<]+)", keys):
            self.terminal.press(named) if named else self.terminal.type(plain)

    def test_five_mistakes_are_corrected_by_what_the_editor_shows(self):
        self.see("drink Fustian", "lemom juice", "E 14")
        self.show(1)
        # A name.
        self.mend("]f")
        self.see("Did you mean `lemon juice`?")
        self.show(2)
        self.mend(" f")
        self.see("1: Write `lemon juice`")
        self.show(3)
        self.mend("1<Enter>")
        self.terminal.wait_for(lambda screen: "lemom" not in screen and "lemon juice" in screen and "expected" not in screen)
        # A glass.
        self.mend("]f")
        self.see("the coupe holds 180 ml", "Use a larger glass")
        self.show(4)
        self.mend("ccglass          rocks<Escape>")
        self.see("glass          rocks")
        # A unit.
        self.mend("]f")
        self.see("45 of what?")
        self.mend(" f")
        self.see("1: Write `45 ml Teasel Bank gin`")
        self.show(5)
        self.mend("1<Enter>")
        self.terminal.wait_for(lambda screen: "45 of what" not in screen)
        # A step.
        self.mend("]f")
        self.see("Write `strain to tin` between the two shakes")
        self.mend(" f")
        self.see("1: Write `strain to tin`")
        self.mend("1<Enter>")
        self.terminal.wait_for(lambda screen: "while the ice" not in screen)
        # An allergen.
        self.mend("]f")
        self.see("`orgeat` holds almond (nut)", "Name it to the guest")
        self.mend(" f")
        self.see('1: Write `guest "… Contains almond (nut)."`')
        self.show(6)
        self.mend("1<Enter>")
        self.terminal.wait_for(lambda screen: "■ `orgeat`" not in screen)
        # Nothing is left but what was there before.
        self.mend("]f")
        self.see("No more valid diagnostics")
        self.show(7)
        self.mend(":w<Enter>")
        self.see("written")
        self.assertEqual(findings(self.demo.folder), self.before)
        self.assertIn('guest             "Tequila, orange twice, nettle salt. Contains almond (nut)."', self.demo.text(FILE))


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
