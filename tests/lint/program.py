"""What the tests of the program share: it is run as a person runs it, on houses in folders of their own."""

import os
import pathlib
import subprocess
import sys
import tempfile
import unittest

# The arguments that ctest gives: the program, the project's folder.
PROGRAM, SOURCE = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])


def gill(*arguments, cwd=None, env=None, given=b""):
    """Runs the program, which is given bytes to read; what it wrote is bytes that must be UTF-8."""
    environment = dict(os.environ, **(env or {}))
    done = subprocess.run([PROGRAM, *map(str, arguments)], input=given, capture_output=True, cwd=cwd, env=environment, timeout=100)
    done.stdout, done.stderr = done.stdout.decode("utf-8", "strict"), done.stderr.decode("utf-8", "strict")
    return done


class HouseCase(unittest.TestCase):
    """Each test gets an empty folder for its house."""

    def setUp(self):
        made = tempfile.TemporaryDirectory()
        self.addCleanup(made.cleanup)
        self.folder = pathlib.Path(made.name)

    def write(self, name, text):
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return path


def main():
    unittest.main(module="__main__", argv=sys.argv[:1], verbosity=2)
