"""Neovim's own client on a copy of the demo house: findings, hover, completion, rename, layout and a mend, as they are in its buffers
after a person has asked for them. Left out where Neovim is not installed."""

import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
import unittest

from client import DemoHouse

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
NEOVIM = shutil.which("nvim")

# What stands in the guide to attach it.
ATTACH = next(
    block.split("```")[0].split("\n", 1)[1]
    for block in (SOURCE / "grammar/guide/editor.md").read_text().split("```lua")[1:]
    if "gill" in block
)
HELPERS = """
function until_true(holds)
  if not vim.wait(60000, holds, 20) then error('nothing came') end
end
function attached()
  until_true(function() return #vim.lsp.get_active_clients() > 0 and vim.lsp.get_active_clients()[1].initialized end)
  return vim.lsp.get_active_clients()[1]
end
function ask(method, params)
  local answers = vim.lsp.buf_request_sync(0, method, params, 60000)
  for _, answer in pairs(answers) do
    local trouble = answer.err or answer.error
    if trouble then return { error = trouble.message } end
    return answer.result
  end
end
function cursor(words)
  vim.fn.cursor(1, 1)
  vim.fn.search('\\\\V' .. words, 'c')
end
function lines() return vim.api.nvim_buf_get_lines(0, 0, -1, false) end
function tell(value)
  local file = io.open(os.getenv('GILL_TOLD'), 'w')
  file:write(vim.json.encode(value))
  file:close()
end
"""


@unittest.skipUnless(NEOVIM, "neovim is not installed")
class Neovim(unittest.TestCase):
    def setUp(self):
        self.folder = pathlib.Path(self.enterContext(tempfile.TemporaryDirectory()))
        self.demo = DemoHouse(SOURCE, self.folder)

    def run_in(self, name, script, stays=False):
        """Runs Lua in Neovim with a file of the demo house open; what it tells. One that stays quits by itself."""
        quit = "vim.cmd('qall!')\n"
        (self.folder / "init.lua").write_text(ATTACH + HELPERS)
        (self.folder / "script.lua").write_text(f"local ok, trouble = pcall(function()\n{script}\nend)\nif not ok then tell({{ trouble = tostring(trouble) }}) end\n{'' if stays else quit}")
        told = self.folder / "told.json"
        environment = {**os.environ, "GILL_TOLD": str(told), "PATH": f"{PROGRAM.parent}:{os.environ['PATH']}", "XDG_CACHE_HOME": str(self.folder / "cache")}
        environment |= {key: str(self.folder / key) for key in ("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME")}
        done = subprocess.run([NEOVIM, "--headless", "-n", "-u", self.folder / "init.lua", self.demo.path(name), "-S", self.folder / "script.lua"], env=environment, cwd=self.folder, capture_output=True, text=True, timeout=200)
        self.assertTrue(told.exists(), done.stderr)
        result = json.loads(told.read_text())
        self.assertNotIn("trouble", result if isinstance(result, dict) else {}, result)
        return result

    def test_findings_come_while_a_line_is_typed_and_go_when_it_is_mended(self):
        told = self.run_in("drinks/shaken.gill", """
            attached()
            cursor('lemon juice')
            vim.cmd('normal! cwlemom')
            until_true(function() return #vim.diagnostic.get(0) > 0 end)
            local broken = vim.diagnostic.get(0)
            vim.cmd('normal! u')
            until_true(function() return #vim.diagnostic.get(0) == 0 end)
            tell({ message = broken[1].message, severity = broken[1].severity, line = broken[1].lnum, code = broken[1].user_data.lsp.code })
        """)
        self.assertEqual(told["message"], "no ingredient or prep is called `lemom juice`\nDid you mean `lemon juice`?")
        self.assertEqual((told["severity"], told["code"]), (1, "unknown-name"))
        self.assertIn("lemon juice", self.demo.text("drinks/shaken.gill").split("\n")[told["line"]])

    def test_hover_opens_a_window_with_the_drinks_figures(self):
        told = self.run_in("drinks/shaken.gill", """
            attached()
            cursor('Fustian')
            vim.lsp.buf.hover()
            until_true(function() return #vim.api.nvim_list_wins() > 1 end)
            for _, window in ipairs(vim.api.nvim_list_wins()) do
              if window ~= vim.api.nvim_get_current_win() then
                tell(vim.api.nvim_buf_get_lines(vim.api.nvim_win_get_buf(window), 0, -1, false))
              end
            end
        """)
        shown = "\n".join(told)
        self.assertIn("Strength:", shown)
        self.assertIn("Worked out from the listed ingredients.", shown)

    def test_completion_offers_what_the_house_has(self):
        told = self.run_in("drinks/shaken.gill", """
            attached()
            cursor('lemon juice')
            vim.api.nvim_set_current_line('  1/2 oz         quince co')
            vim.bo.omnifunc = 'v:lua.vim.lsp.omnifunc'
            local looked = 0
            local function look()
              local words = {}
              for _, item in ipairs(vim.fn.complete_info({ 'items' }).items) do table.insert(words, item.word) end
              looked = looked + 1
              if #words == 0 and looked < 600 then return vim.defer_fn(look, 100) end
              tell(words)
              vim.cmd('qall!')
            end
            vim.defer_fn(look, 100)
            vim.api.nvim_feedkeys(vim.api.nvim_replace_termcodes('A<C-x><C-o>', true, false, true), 'n', false)
        """, stays=True)
        self.assertIn("quince cordial", told)

    def test_rename_changes_every_file(self):
        told = self.run_in("drinks/shaken.gill", """
            attached()
            cursor('quince cordial')
            vim.lsp.buf.rename('medlar cordial')
            until_true(function() return table.concat(lines(), '\\n'):find('medlar cordial') end)
            vim.cmd('silent wall')
            cursor('medlar cordial')
            tell(ask('textDocument/rename', vim.tbl_extend('force', vim.lsp.util.make_position_params(), { newName = 'sharp orange' })))
        """)
        self.assertIn("is declared already", told["error"])
        for name in ("drinks/shaken.gill", "drinks/long.gill", "preps/acid.gill"):
            self.assertIn("medlar cordial", self.demo.text(name), name)
        self.assertEqual(subprocess.run([PROGRAM, "check", self.demo.folder], capture_output=True, timeout=60).returncode, 0)

    def test_layout_is_what_tidy_makes(self):
        path = self.demo.path("drinks/shaken.gill")
        tidy = path.read_text()
        path.write_text(tidy.replace("  1/2 oz         lemon juice", " 1/2oz   lemon juice"))
        told = self.run_in("drinks/shaken.gill", "attached()\nvim.lsp.buf.formatting_sync({}, 60000)\ntell(lines())")
        self.assertEqual("\n".join(told) + "\n", tidy)

    def test_a_mend_is_applied(self):
        path = self.demo.path("drinks/shaken.gill")
        sound = path.read_text()
        path.write_text(sound.replace("22.5 ml", "22,5 ml", 1))
        told = self.run_in("drinks/shaken.gill", """
            attached()
            until_true(function() return #vim.diagnostic.get(0) > 0 end)
            cursor('22,5')
            vim.ui.select = function(items, _, choose)
              for _, item in ipairs(items) do if item[2].isPreferred then choose(item) end end
            end
            vim.lsp.buf.code_action()
            until_true(function() return not table.concat(lines(), '\\n'):find('22,5') end)
            tell(lines())
        """)
        self.assertEqual("\n".join(told) + "\n", sound)


unittest.main(argv=sys.argv[:1], verbosity=2)
