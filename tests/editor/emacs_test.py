"""Emacs with Eglot on a copy of the demo house: it opens a file, hears of a finding, shows what the book says and changes a name in every
file. Left out where Emacs or Eglot is not installed."""

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
EMACS = shutil.which("emacs")
# What stands in the guide to attach it.
ATTACH = (SOURCE / "grammar/guide/editor.md").read_text().split("```elisp\n")[1].split("```")[0]
SCRIPT = """
(setq make-backup-files nil create-lockfiles nil eglot-connect-timeout 120 eglot-sync-connect 120 eglot-confirm-server-initiated-edits nil)
(fset 'y-or-n-p (lambda (&rest _) t)) ; a person says yes
(defvar told nil)
(defun tell (key value) (push (cons key value) told))
(defun until (holds)
  (let ((tries 0))
    (while (and (not (funcall holds)) (< tries 1200))
      (setq tries (1+ tries))
      (accept-process-output nil 0.05))))
(find-file (getenv "GILL_FILE"))
(eglot-ensure)
(run-hooks 'post-command-hook)
(until (lambda () (eglot-current-server)))
(goto-char (point-min))
(search-forward "Fustian")
(let* ((found (jsonrpc-request (eglot-current-server) :textDocument/hover (eglot--TextDocumentPositionParams))))
  (tell 'hover (plist-get (plist-get found :contents) :value)))
(search-forward "lemon juice")
(replace-match "lemom juice")
(eglot--signal-textDocument/didChange)
(until (lambda () (flymake-diagnostics)))
(tell 'findings (mapconcat #'flymake-diagnostic-text (flymake-diagnostics) "\n"))
(undo-boundary)
(search-backward "lemom juice")
(replace-match "lemon juice")
(eglot--signal-textDocument/didChange)
(goto-char (point-min))
(search-forward "quince cordial")
(backward-char 3)
(eglot-rename "medlar cordial")
(save-some-buffers t)
(tell 'mode (symbol-name major-mode))
(with-temp-file (getenv "GILL_TOLD") (insert (json-encode told)))
"""


def has_eglot():
    return EMACS and subprocess.run([EMACS, "--batch", "--eval", "(require 'eglot)"], capture_output=True, timeout=60).returncode == 0


@unittest.skipUnless(has_eglot(), "emacs with eglot is not installed")
class Emacs(unittest.TestCase):
    def test_it_opens_shows_hears_and_renames(self):
        folder = pathlib.Path(self.enterContext(tempfile.TemporaryDirectory()))
        demo = DemoHouse(SOURCE, folder)
        (folder / "init.el").write_text(ATTACH + SCRIPT)
        told = folder / "told.json"
        environment = {**os.environ, "HOME": str(folder), "XDG_CACHE_HOME": str(folder / "cache"), "PATH": f"{PROGRAM.parent}:{os.environ['PATH']}"}
        environment |= {"GILL_FILE": str(demo.path("drinks/shaken.gill")), "GILL_TOLD": str(told)}
        done = subprocess.run([EMACS, "--batch", "-l", folder / "init.el"], env=environment, cwd=folder, capture_output=True, text=True, timeout=300)
        self.assertTrue(told.exists(), done.stderr)
        shown = json.loads(told.read_text())
        self.assertEqual(shown["mode"], "gill-mode")
        self.assertIn("**Strength:** 17.", shown["hover"])
        self.assertIn("no ingredient or prep is called `lemom juice`", shown["findings"])
        for name in ("drinks/shaken.gill", "drinks/long.gill", "preps/acid.gill"):
            self.assertIn("medlar cordial", demo.text(name), name)
        self.assertEqual(subprocess.run([PROGRAM, "check", demo.folder], capture_output=True, timeout=60).returncode, 0)


unittest.main(argv=sys.argv[:1], verbosity=2)
