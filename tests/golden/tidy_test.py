"""`gill tidy` on the command line: what it prints, what it writes, and what it leaves.

    python3 tidy_test.py GILL SOURCE_FOLDER
"""

import os
import pathlib
import subprocess
import sys

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "lint"))
import program

HURRIED = "drink Osier Sour\n 60ml London dry gin # cold\n shake 12s and strain\n"
TIDY = "drink Osier Sour\n  60 ml          London dry gin  # cold\n  shake          12 s\n  strain\n"


def gill(*arguments, folder=None, given=b""):
    done = program.gill(*arguments, cwd=folder, given=given)
    return done.returncode, done.stdout, done.stderr


class Tidy(program.HouseCase):
    def test_without_a_file_it_tidies_the_house_in_the_folder(self):
        first, second = self.write("a.gill", HURRIED), self.write("deep/down/b.gill", HURRIED.replace("Osier", "Sallow"))
        hidden, other = self.write(".old/c.gill", HURRIED), self.write("notes.txt", HURRIED)
        self.assertEqual(gill("tidy", folder=self.folder),
                         (0, "", "a.gill: tidied\ndeep/down/b.gill: tidied\nRead 2 files; changed 2.\n"))
        self.assertEqual(first.read_text(), TIDY)
        self.assertEqual(second.read_text(), TIDY.replace("Osier", "Sallow"))
        self.assertEqual((hidden.read_text(), other.read_text()), (HURRIED, HURRIED))
        self.assertEqual(sorted(path.name for path in self.folder.rglob("*.*")), [".old", "a.gill", "b.gill", "c.gill", "notes.txt"])

    def test_what_is_tidy_is_not_written(self):
        path = self.write("a.gill", TIDY)
        os.utime(path, (1000, 1000))
        before = path.stat()
        self.assertEqual(gill("tidy", path), (0, "", "Read 1 file; changed 0.\n"))
        after = path.stat()
        self.assertEqual((before.st_mtime_ns, before.st_ino), (after.st_mtime_ns, after.st_ino))

    def test_check_names_what_would_change_and_changes_nothing(self):
        path = self.write("a.gill", HURRIED)
        self.write("b.gill", TIDY.replace("Osier", "Sallow"))
        self.assertEqual(gill("tidy", "--check", folder=self.folder), (1, "a.gill\n", "Read 2 files; 1 would change.\n"))
        self.assertEqual(path.read_text(), HURRIED)
        gill("tidy", folder=self.folder)
        self.assertEqual(gill("tidy", "--check", folder=self.folder), (0, "", "Read 2 files; 0 would change.\n"))

    def test_the_diff_can_be_applied_and_brings_what_tidy_writes(self):
        path = self.write("a.gill", HURRIED)
        status, shown, told = gill("tidy", "--diff", folder=self.folder)
        self.assertEqual((status, told), (0, "Read 1 file; 1 would change.\n"))
        self.assertEqual(path.read_text(), HURRIED)
        done = subprocess.run(["git", "apply", "-"], cwd=self.folder, input=shown.encode(), capture_output=True, check=False)
        self.assertEqual(done.stderr, b"")
        self.assertEqual(path.read_text(), TIDY)
        self.assertEqual(gill("tidy", "--diff", "--check", folder=self.folder)[:2], (0, ""))
        path.write_text(HURRIED)
        self.assertEqual(gill("tidy", "--diff", "--check", folder=self.folder)[0], 1)

    def test_standard_input_goes_to_standard_output(self):
        self.assertEqual(gill("tidy", "-", given=HURRIED.encode()), (0, TIDY, ""))
        self.assertEqual(gill("tidy", "-", given=TIDY.encode()), (0, TIDY, ""))
        self.assertEqual(gill("tidy", "-", given=b""), (0, "", ""))
        self.assertEqual(gill("tidy", "--check", "-", given=HURRIED.encode()), (1, "", ""))
        self.assertEqual(gill("tidy", "--check", "-", given=TIDY.encode()), (0, "", ""))
        self.assertEqual(gill("tidy", "-", "a.gill")[0], 2)

    def test_lines_in_error_stay_byte_for_byte_and_are_told(self):
        text = b"drink A\n  60ml London dry gin\n \t60  ml no such thing\n  45 ml \xff gin  \n"
        path = self.write("a.gill", text)
        status, _, told = gill("tidy", path)
        self.assertEqual(status, 0)
        self.assertIn("2 lines cannot be read and stay as written; `gill check` says why.\n", told)
        self.assertEqual(path.read_bytes(),
                         b"drink A\n  60 ml          London dry gin\n \t60  ml no such thing\n  45 ml \xff gin  \n")
        self.assertEqual(gill("tidy", "--check", path)[0], 0)

    def test_windows_files_keep_their_line_ends(self):
        path = self.write("a.gill", "\ufeff" + HURRIED.replace("\n", "\r\n").rstrip())
        gill("tidy", path)
        self.assertEqual(path.read_bytes().decode(), "\ufeff" + TIDY.replace("\n", "\r\n"))

    def test_what_cannot_be_opened_is_named_before_anything_is_written(self):
        path = self.write("a.gill", HURRIED)
        status, shown, told = gill("tidy", path, self.folder / "none.gill")
        self.assertEqual((status, shown, path.read_text()), (2, "", HURRIED))
        self.assertIn("none.gill", told)
        self.assertEqual(gill("tidy", folder=self.write("empty/x.txt", "").parent)[0], 2)

    def test_a_file_that_may_not_be_written_is_told_and_the_others_are(self):
        if os.geteuid() == 0:
            self.skipTest("root may write everything")
        kept, other = self.write("a.gill", HURRIED), self.write("b.gill", HURRIED.replace("Osier", "Sallow"))
        kept.chmod(0o444)
        status, _, told = gill("tidy", folder=self.folder)
        self.assertEqual((status, kept.read_text()), (2, HURRIED))
        self.assertIn("cannot write", told)
        self.assertEqual(other.read_text(), TIDY.replace("Osier", "Sallow"))


if __name__ == "__main__":
    program.main()
