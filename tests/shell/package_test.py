"""The Debian package: made by CPack, unpacked into a folder of its own, and run from there."""

import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import unittest

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()


def run(*command, folder=None):
    return subprocess.run([str(word) for word in command], cwd=folder, check=True, capture_output=True, text=True, timeout=300).stdout


@unittest.skipUnless((PROGRAM.parent / "CPackConfig.cmake").exists() and shutil.which("cpack") and shutil.which("dpkg-shlibdeps") and shutil.which("file"), "no build of its own, cpack, dpkg-shlibdeps or file")
class Package(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = pathlib.Path(cls.enterClassContext(tempfile.TemporaryDirectory()))
        run("cpack", "--config", PROGRAM.parent / "CPackConfig.cmake", "-B", cls.folder / "made", folder=PROGRAM.parent)
        (cls.package,) = (cls.folder / "made").glob("*.deb")
        run("dpkg-deb", "--extract", cls.package, cls.folder / "root")
        cls.root = cls.folder / "root"

    def field(self, name):
        return run("dpkg-deb", "--field", self.package, name).strip()

    def test_its_name_and_version_are_the_programs(self):
        version = run(PROGRAM, "--version").split()[1]
        self.assertEqual(self.field("Package"), "gill")
        self.assertEqual(self.field("Version"), version)
        self.assertTrue(self.package.name.startswith(f"gill_{version}_"))

    def test_it_needs_the_libraries_that_the_program_is_linked_with(self):
        needed = set(re.findall(r"^\s*NEEDED\s+(\S+)", run("objdump", "-p", PROGRAM), re.MULTILINE))
        for library, package in (("libgit2", "libgit2-"), ("libcmark", "libcmark"), ("libfmt", "libfmt"), ("libpango-1.0", "libpango-1.0-0"), ("libcairo", "libcairo2"), ("libutf8proc", "libutf8proc")):
            with self.subTest(library):
                self.assertTrue(any(name.startswith(library) for name in needed))
                self.assertIn(package, self.field("Depends"))
        self.assertIn("fonts-noto-core", self.field("Depends"))

    def test_it_lays_the_program_its_manual_completions_guide_and_editor_files(self):
        for path in ("bin/gill", "share/man/man1/gill.1", "share/bash-completion/completions/gill", "share/doc/gill/guide/index.html", "share/fish/vendor_completions.d/gill.fish"):
            with self.subTest(path):
                self.assertGreater((self.root / "usr" / path).stat().st_size, 200)
        self.assertTrue(list((self.root / "usr/share").rglob("*.vim")))
        # Nothing outside of /usr, and nothing of the machine on which it was made.
        self.assertEqual([path.name for path in self.root.iterdir()], ["usr"])
        self.assertNotIn(str(SOURCE).encode(), (self.root / "usr/bin/gill").read_bytes())

    def test_the_program_in_it_runs(self):
        program = self.root / "usr/bin/gill"
        self.assertEqual(run(program, "--version"), run(PROGRAM, "--version"))
        run(program, "new", "bar", folder=self.folder)
        run(program, "check", "bar", folder=self.folder)
        run(program, "book", "bar", "--out", "book", folder=self.folder)
        self.assertTrue((self.folder / "book/index.html").is_file())


class Editions(unittest.TestCase):
    def test_the_version_tells_the_editions_of_library_and_tables(self):
        shown = run(PROGRAM, "--version").splitlines()
        self.assertRegex(shown[0], r"^gill \d+\.\d+\.\d+$")
        kept = (SOURCE / "stdlib/editions.txt").read_text().splitlines()
        self.assertRegex(shown[1], rf"^standard library {re.escape(kept[0])}: \d+ declarations, fingerprint [0-9a-f]{{16}}$")
        self.assertEqual(shown[2:], ["reckoned by " + line for line in kept[1:]])
        # Of the declarations as many as begin a line in the library.
        declared = sum(1 for path in (SOURCE / "stdlib").rglob("*.gill") for line in path.read_text().split("\n") if line and line[0] not in " #")
        self.assertIn(f" {declared} declarations", shown[1])

    def test_the_sources_name_the_tables_that_are_told(self):
        text = "".join(path.read_text() for folder in ("compiler", "stdlib") for path in (SOURCE / folder).rglob("*") if path.suffix in (".h", ".cpp", ".gill"))
        for line in (SOURCE / "stdlib/editions.txt").read_text().splitlines()[1:]:
            name = re.split(r"[,:(]", line)[0].strip()
            with self.subTest(name):
                self.assertIn(name, text)


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], "-v"])
