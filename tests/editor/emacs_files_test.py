"""The Emacs mode, installed and run without windows: it compiles without a warning, its colours are the language server's, the demo house
keeps its layout when it is set in anew, comments, the outline and jumps work. Left out where Emacs is not installed."""

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
EMACS = shutil.which("emacs")
sys.path.insert(0, str(SOURCE / "grammar/editors"))
import write_words  # noqa: E402

KIND_OF_FACE = {"font-lock-comment-face": "comment", "font-lock-keyword-face": "keyword", "gill-property": "property", "gill-step": "step", "gill-number": "number", "gill-unit": "unit", "font-lock-string-face": "text", "gill-name": "declared"}
START = """
(add-to-list 'load-path (getenv "GILL_LISP"))
(require 'gill-mode)
(setq make-backup-files nil create-lockfiles nil)
(defun tell (value) (with-temp-file (getenv "GILL_TOLD") (insert (json-encode value))))
(require 'json)
"""
# Of every line the faces of its characters.
FACES = """
(let (all)
  (dolist (file (split-string (getenv "GILL_FILES") "\\n"))
    (find-file file)
    (font-lock-ensure)
    (let (faces)
      (goto-char (point-min))
      (while (not (eobp))
        (push (vconcat (mapcar (lambda (at) (format "%s" (get-text-property at 'face))) (number-sequence (line-beginning-position) (1- (line-end-position))))) faces)
        (forward-line 1))
      (push (vconcat (nreverse faces)) all)))
  (tell (vconcat (nreverse all))))
"""


@unittest.skipUnless(EMACS, "emacs is not installed")
class EmacsFiles(unittest.TestCase):
    maxDiff = None

    def setUp(self):
        self.folder = pathlib.Path(self.enterContext(tempfile.TemporaryDirectory()))
        self.lisp = install_editor_files(PROGRAM, self.folder) / "share/emacs/site-lisp"

    def run_emacs(self, script, *files):
        told = self.folder / "told.json"
        told.unlink(missing_ok=True)
        (self.folder / "script.el").write_text(START + script)
        environment = {**os.environ, "HOME": str(self.folder), "LANG": "C.UTF-8", "LC_ALL": "C.UTF-8", "GILL_LISP": str(self.lisp), "GILL_TOLD": str(told), "GILL_FILES": "\n".join(map(str, files))}
        done = subprocess.run([EMACS, "-Q", "--batch", "-l", self.folder / "script.el"], env=environment, cwd=self.folder, capture_output=True, text=True, timeout=300)
        self.assertTrue(told.exists(), done.stdout + done.stderr)
        return json.loads(told.read_text())

    def in_file(self, path, script):
        return self.run_emacs(f'(find-file "{path}")\n{script}', path)

    def test_it_compiles_without_a_warning(self):
        command = [EMACS, "-Q", "--batch", "-L", self.lisp, "--eval", "(setq byte-compile-error-on-warn t)", "-f", "batch-byte-compile", self.lisp / "gill-words.el", self.lisp / "gill-mode.el"]
        done = subprocess.run(command, capture_output=True, text=True, timeout=120)
        self.assertEqual((done.returncode, done.stderr.strip()), (0, ""))

    def test_the_colours_are_the_servers(self):
        known = write_words.words_of(PROGRAM)
        damaged = self.folder / "damaged.gill"
        shutil.copy(DAMAGED, damaged)
        files = [*demo_files(SOURCE), damaged]
        for path, faces in zip(files, self.run_emacs(FACES, *files)):
            with self.subTest(path.name):
                self.assertEqual(disagreements(PROGRAM, self.lisp, path, lambda line, column: KIND_OF_FACE.get(faces[line][column]), known), [])

    def test_a_slip_is_shown_as_one(self):
        path = self.folder / "slips.gill"
        path.write_text('drink A\n  22,5 ml gin\n  1-1/2 oz gin\n  60 ml "gin\n  60 ml, 45 ml\n')
        faces = self.run_emacs(FACES, path)[0]
        self.assertEqual([faces[1][2], faces[1][5], faces[2][2], faces[3][8]], ["font-lock-warning-face"] * 4)
        self.assertEqual([faces[4][2], faces[4][9]], ["gill-number"] * 2)

    def test_the_demo_house_keeps_its_layout_when_it_is_set_in_anew(self):
        files = demo_files(SOURCE)
        told = self.run_emacs("""
            (let (all)
              (dolist (file (split-string (getenv "GILL_FILES") "\\n"))
                (find-file file)
                (indent-region (point-min) (point-max))
                (push (buffer-string) all))
              (tell (vconcat (nreverse all))))
        """, *files)
        for path, text in zip(files, told):
            with self.subTest(path.name):
                self.assertEqual(text, path.read_text())

    def test_what_is_typed_line_by_line_stands_where_it_should(self):
        path = self.folder / "typed.gill"
        path.write_text("# A house\n")
        lines = ["", "drink A", "glass coupe", "", "60 ml gin", "", "drink B", "ice none", "", "menu C", "runs 2026-01-01 .. 2026-02-01", "section Short", "A at 12 EUR", "section Long", "A at 13 EUR"]
        typed = "".join(f'(indent-according-to-mode) (insert "{line}") (indent-according-to-mode) (newline)' for line in lines)
        told = self.in_file(path, f"(goto-char (point-max)) {typed} (tell (buffer-string))")
        wanted = ["# A house", "", "drink A", "  glass coupe", "", "  60 ml gin", "", "drink B", "  ice none", "", "menu C", "  runs 2026-01-01 .. 2026-02-01", "  section Short", "    A at 12 EUR", "  section Long", "    A at 13 EUR"]
        self.assertEqual([line.rstrip() for line in told.rstrip().split("\n")], wanted)

    def test_comments_come_and_go(self):
        path = DemoHouse(SOURCE, self.folder).path("drinks/shaken.gill")
        told = self.in_file(path, """
            (goto-char (point-min))
            (search-forward "lemon juice")
            (comment-region (line-beginning-position) (line-end-position))
            (let ((commented (buffer-substring (line-beginning-position) (line-end-position))))
              (uncomment-region (line-beginning-position) (line-end-position))
              (tell (vector (symbol-name major-mode) commented (buffer-string))))
        """)
        self.assertEqual(told[:2], ["gill-mode", "  # 1/2 oz         lemon juice"])
        self.assertEqual(told[2], path.read_text())

    def test_the_outline_names_every_declaration(self):
        for name in ("drinks/shaken.gill", "house.gill"):
            path = SOURCE / "specs" / name
            told = self.in_file(path, "(require 'imenu) (tell (mapcar (lambda (kind) (cons (car kind) (mapcar #'car (cdr kind)))) (cdr (imenu--make-index-alist t))))")
            found = sorted((kind.lower(), one) for kind, names in told.items() for one in names)
            headers = [line for line in path.read_text().split("\n") if line and line[0] not in " #|"]
            wanted = sorted((line.split(" ", 1)[0], line.split(" ", 1)[1].split(" like ")[0].split(" = ")[0].strip()) for line in headers)
            self.assertEqual(found, wanted)

    def test_from_one_declaration_to_the_next(self):
        told = self.in_file(SOURCE / "specs/drinks/shaken.gill", """
            (goto-char (point-min))
            (search-forward "lemon juice")
            (beginning-of-defun)
            (let ((here (line-number-at-pos)))
              (end-of-defun)
              (tell (vector here (buffer-substring (line-beginning-position) (line-end-position)))))
        """)
        self.assertEqual(told, [3, "drink Weld"])


unittest.main(argv=sys.argv[:1], verbosity=2)
