"""The files for Vim and Neovim, installed and run headless: a file is known by its ending, its colours are the language server's, the demo
house keeps its layout when it is set in anew, comments, folds and findings work. An editor that is not installed is left out."""

import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
import unittest

from client import DemoHouse
from colours import DAMAGED, demo_files, disagreements
from installed import install_editor_files

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
sys.path.insert(0, str(SOURCE / "grammar/editors"))
import write_words  # noqa: E402

KIND_OF_GROUP = {"Comment": "comment", "Keyword": "keyword", "Property": "property", "Step": "step", "Number": "number", "Unit": "unit", "Text": "text", "Quote": "text", "Name": "declared", "UnitName": "declared"}
# Of every line the groups of its bytes.
GROUPS = """
function! Groups(line) abort
  return map(range(1, strlen(getline(a:line))), {_, column -> synIDattr(synID(a:line, column, 1), 'name')})
endfunction
let told = []
for file in split($GILL_FILES, ',')
  execute 'edit!' file
  call add(told, map(range(1, line('$')), {_, line -> Groups(line)}))
endfor
call Tell(told)
"""


class VimFiles:
    """What holds for both editors; `command` starts the one that is tried."""

    def setUp(self):
        self.folder = pathlib.Path(self.enterContext(tempfile.TemporaryDirectory()))
        self.prefix = install_editor_files(PROGRAM, self.folder)

    def run_in(self, path, script, files=()):
        told = self.folder / "told.json"
        told.unlink(missing_ok=True)
        (self.folder / "script.vim").write_text(f"function! Tell(value) abort\n  call writefile([json_encode(a:value)], '{told}')\nendfunction\n{script}\nqall!\n")
        environment = {**os.environ, "HOME": str(self.folder), "PATH": f"{PROGRAM.parent}:{os.environ['PATH']}", "XDG_DATA_DIRS": str(self.prefix / "share"), "GILL_FILES": ",".join(map(str, files))}
        environment |= {key: str(self.folder / key) for key in ("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CACHE_HOME")}
        done = subprocess.run([*self.command(), path, "-S", self.folder / "script.vim"], env=environment, cwd=self.folder, stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=200)
        self.assertTrue(told.exists(), done.stdout + done.stderr)
        return json.loads(told.read_text())

    def test_the_colours_are_the_servers(self):
        known = write_words.words_of(PROGRAM)
        damaged = self.folder / "damaged.gill"
        shutil.copy(DAMAGED, damaged)
        files = [*demo_files(SOURCE), damaged]
        for path, groups in zip(files, self.run_in(damaged, GROUPS, files)):
            lines = path.read_text().split("\n")

            def kind_at(line, column):
                name = groups[line][len(lines[line][:column].encode())].removeprefix("gill").split("_")[0]
                return KIND_OF_GROUP.get(name)

            with self.subTest(path.name):
                self.assertEqual(disagreements(PROGRAM, self.prefix, path, kind_at, known), [])

    def test_a_slip_is_shown_as_one(self):
        path = self.folder / "slips.gill"
        path.write_text('drink A\n  22,5 ml gin\n  1-1/2 oz gin\n  60 ml "gin\n  60 ml, 45 ml\n')
        groups = self.run_in(path, GROUPS, [path])[0]
        self.assertEqual([groups[1][2], groups[1][5], groups[2][2], groups[3][8], groups[4][2]], ["gillSlip", "gillSlip", "gillSlip", "gillUnclosed", "gillNumber"])

    def test_the_demo_house_keeps_its_layout_when_it_is_set_in_anew(self):
        files = demo_files(SOURCE)
        script = """
            let told = []
            for file in split($GILL_FILES, ',')
              execute 'edit!' file
              normal! gg=G
              call add(told, getline(1, '$'))
              edit!
            endfor
            call Tell(told)
        """
        for path, lines in zip(files, self.run_in(files[0], script, files)):
            with self.subTest(path.name):
                self.assertEqual(lines, path.read_text().removesuffix("\n").split("\n"))

    def test_lines_that_were_typed_at_the_margin_are_set_in(self):
        path = self.folder / "margin.gill"
        path.write_text("drink A\nglass coupe\n60 ml gin\n\nshake 12 s\n\nmenu B\nruns 2026-01-01 .. 2026-02-01\nsection Short\nA at 12 EUR\nsection Long\nA at 13 EUR\n")
        # A glass in the first column is a declaration, for the compiler as well.
        told = self.run_in(path, "normal! gg=G\ncall Tell(getline(1, '$'))")
        self.assertEqual(told, ["drink A", "glass coupe", "  60 ml gin", "", "  shake 12 s", "", "menu B", "  runs 2026-01-01 .. 2026-02-01", "  section Short", "    A at 12 EUR", "  section Long", "    A at 13 EUR"])

    def test_what_is_typed_line_by_line_stands_where_it_should(self):
        path = self.folder / "typed.gill"
        path.write_text("# A house\n")
        told = self.run_in(path, 'execute "normal! Go\\<CR>drink A\\<CR>glass coupe\\<CR>\\<CR>60 ml gin\\<CR>\\<CR>drink B\\<CR>ice none"\ncall Tell(getline(1, "$"))')
        self.assertEqual([line.rstrip() for line in told], ["# A house", "", "drink A", "  glass coupe", "", "  60 ml gin", "", "drink B", "  ice none"])

    def test_comments_folds_and_jumps(self):
        told = self.run_in(DemoHouse(SOURCE, self.folder).path("drinks/shaken.gill"), """
            normal! gg
            normal ]]
            let first = getline('.')
            normal ]]
            let second = getline('.')
            normal [[
            call Tell([&filetype, &commentstring, &comments, &shiftwidth, first, second, line('.'), foldlevel('.'), foldlevel(1)])
        """)
        self.assertEqual(told[:4], ["gill", "# %s", ":#,:|", 2])
        self.assertEqual(told[4:], ["drink Fustian", "drink Weld", 3, 1, 0])

    def test_make_fills_the_list_of_findings(self):
        house = self.folder / "small"
        house.mkdir()
        (house / "a.gill").write_text("drink A\n  glass coupe\n  60 ml lemom juice\n  stir\n  strain\n  garnish none\n")
        told = self.run_in(house / "a.gill", f"""
            cd {house}
            compiler gill
            silent make
            call Tell(map(filter(getqflist(), 'v:val.valid'), {{_, one -> [bufname(one.bufnr), one.lnum, one.col, one.type, one.text]}}))
        """)
        self.assertIn(["a.gill", 3, 9, "e"], [one[:4] for one in told])
        self.assertIn("lemom juice", str(told))


@unittest.skipUnless(shutil.which("nvim"), "neovim is not installed")
class Neovim(VimFiles, unittest.TestCase):
    def command(self):
        # With a settings file of its own: ftplugins, indents and colours are on as people have them.
        (self.folder / "init.vim").write_text("")
        return ["nvim", "--headless", "-n", "-u", self.folder / "init.vim"]


@unittest.skipUnless(shutil.which("vim") and "+syntax" in subprocess.run(["vim", "--version"], capture_output=True, text=True, timeout=60).stdout, "vim is not installed")
class Vim(VimFiles, unittest.TestCase):
    def command(self):
        (self.folder / "vimrc").write_text(f"set nocompatible encoding=utf-8\nset runtimepath^={self.prefix}/share/vim/vimfiles\nfiletype plugin indent on\nsyntax on\n")
        return ["vim", "-n", "-N", "-es", "-u", self.folder / "vimrc"]


unittest.main(argv=sys.argv[:1], verbosity=2)
