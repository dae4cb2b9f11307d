"""The protocol's own client library (npm, vscode-languageserver-protocol) speaks to `gill lsp`: protocol_library/client.test.js says
what is held. Left out where the library is not fetched."""

import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import unittest

from client import DemoHouse

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
FOLDER = SOURCE / "tests/editor/protocol_library"


@unittest.skipUnless(shutil.which("node") and (FOLDER / "node_modules").is_dir(), "the library is not fetched: npm ci in tests/editor/protocol_library")
class ProtocolLibrary(unittest.TestCase):
    def test_the_protocols_own_client_is_answered_as_it_expects(self):
        folder = pathlib.Path(self.enterContext(tempfile.TemporaryDirectory()))
        demo = DemoHouse(SOURCE, folder)
        environment = {**os.environ, "GILL_PROGRAM": str(PROGRAM), "GILL_HOUSE": str(demo.folder), "XDG_CACHE_HOME": str(folder / "cache")}
        done = subprocess.run(["node", "--test", "--test-reporter=tap", FOLDER / "client.test.js"], env=environment, cwd=FOLDER, capture_output=True, text=True, timeout=300)
        self.assertEqual(done.returncode, 0, done.stdout + done.stderr)
        self.assertGreaterEqual(int(re.search(r"(?m)^# pass (\d+)$", done.stdout)[1]), 6)


unittest.main(argv=sys.argv[:1], verbosity=2)
