"""What is written to a pipe goes into it; a pipe or a device is never replaced by a file of its name.

    python3 pipe_test.py GILL SOURCE_FOLDER
"""

import os
import pathlib
import stat
import subprocess
import sys
import tempfile
import unittest

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()


class Pipe(unittest.TestCase):
    def test_a_sheet_goes_into_a_pipe_and_the_pipe_stays(self):
        with tempfile.TemporaryDirectory() as folder:
            pipe = pathlib.Path(folder) / "pipe"
            os.mkfifo(pipe)
            for command in (["prep", "--as", "markdown"], ["menu", "--as", "pdf"], ["labels"]):
                with subprocess.Popen(["cat", pipe], stdout=subprocess.PIPE) as reader:
                    done = subprocess.run([PROGRAM, command[0], SOURCE / "specs", *command[1:], "--out", pipe],
                                          capture_output=True, timeout=100)
                    self.assertIn(done.returncode, (0, 1), done.stderr)
                    is_pipe = stat.S_ISFIFO(pipe.stat().st_mode)
                    if not is_pipe:
                        reader.kill()
                    self.assertTrue(is_pipe, command)
                    self.assertGreater(len(reader.stdout.read()), 500, command)
            self.assertEqual(list(pathlib.Path(folder).iterdir()), [pipe])


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
