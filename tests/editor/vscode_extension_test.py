"""The extension for Visual Studio Code: packed as one file without a network, opened again, and its code run against a stand-in for the
editor. Left out where the protocol's client has not been fetched."""

import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
import xml.etree.ElementTree
import zipfile

from colours import demo_files

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
FOLDER = SOURCE / "grammar/editors/vscode"
# The editor's own module is in no registry: what the extension asks of it is written down, and the client library's own code
# is found in the package.
STAND_IN = """
const Module = require('module');
const path = require('path');
const [extension, settings] = process.argv.slice(2);
const told = { stopped: false };
const vscode = {
  workspace: {
    getConfiguration: (section) => ({ get: (key) => JSON.parse(settings)[`${section}.${key}`] }),
    createFileSystemWatcher: (pattern) => ({ pattern }),
  },
};
class LanguageClient {
  constructor(id, name, server, options) { Object.assign(told, { id, name, server, options }); }
  start() { told.started = true; return Promise.resolve(); }
  stop() { told.stopped = true; return Promise.resolve(); }
}
const load = Module._load;
Module._load = (name, parent, isMain) => {
  if (name === 'vscode') return vscode;
  if (name === 'vscode-languageclient/node') {
    told.client = path.relative(path.dirname(extension), Module._resolveFilename(name, parent));
    return { LanguageClient };
  }
  return load(name, parent, isMain);
};
const code = require(extension);
Promise.resolve(code.deactivate()).then(() => code.activate()).then(() => code.deactivate()).then(() => console.log(JSON.stringify(told)));
"""


@unittest.skipUnless(shutil.which("node") and (FOLDER / "node_modules/vscode-languageclient").exists(), "the protocol's client is not fetched")
class Extension(unittest.TestCase):
    def setUp(self):
        self.folder = pathlib.Path(self.enterContext(tempfile.TemporaryDirectory()))
        self.file = self.folder / "gill.vsix"
        subprocess.run([sys.executable, "-B", FOLDER / "package.py", self.file], check=True, timeout=60)
        self.package = self.enterContext(zipfile.ZipFile(self.file))
        self.names = self.package.namelist()

    def text(self, name):
        return self.package.read(f"extension/{name}").decode()

    def test_the_same_files_give_the_same_bytes(self):
        again = self.folder / "again.vsix"
        subprocess.run([sys.executable, "-B", FOLDER / "package.py", again], check=True, timeout=60)
        self.assertEqual(again.read_bytes(), self.file.read_bytes())
        self.assertIsNone(self.package.testzip())

    def test_every_file_has_a_type_and_every_asset_is_there(self):
        self.assertEqual(self.names[0], "[Content_Types].xml")
        types = xml.etree.ElementTree.fromstring(self.package.read("[Content_Types].xml"))
        endings = {row.get("Extension") for row in types if row.tag.endswith("Default")}
        named = {row.get("PartName") for row in types if row.tag.endswith("Override")}
        for name in self.names[1:]:
            self.assertTrue(pathlib.PurePosixPath(name).suffix in endings or f"/{name}" in named, name)
        manifest = xml.etree.ElementTree.fromstring(self.package.read("extension.vsixmanifest"))
        for asset in (one for one in manifest.iter() if one.tag.endswith("}Asset")):
            self.assertIn(asset.get("Path"), self.names)

    def test_it_is_of_the_programs_version(self):
        version = subprocess.run([PROGRAM, "--version"], capture_output=True, text=True, check=True).stdout.split()[1]
        package = json.loads(self.text("package.json"))
        identity = next(one for one in xml.etree.ElementTree.fromstring(self.package.read("extension.vsixmanifest")).iter() if one.tag.endswith("}Identity"))
        self.assertEqual({package["version"], identity.get("Version"), json.loads((FOLDER / "package-lock.json").read_text())["version"]}, {version})
        self.assertEqual((identity.get("Id"), identity.get("Publisher")), (package["name"], package["publisher"]))

    def test_what_the_package_names_is_in_it(self):
        package = json.loads(self.text("package.json"))
        contributed = package["contributes"]
        paths = [package["main"], contributed["languages"][0]["configuration"], contributed["grammars"][0]["path"]]
        for path in paths:
            self.assertIn("extension/" + path.removeprefix("./"), self.names)
        self.assertEqual(self.text("gill.tmLanguage.json"), (SOURCE / "grammar/editors/textmate/gill.tmLanguage.json").read_text())
        lock = json.loads((FOLDER / "package-lock.json").read_text())
        for folder in filter(None, lock["packages"]):
            self.assertIn(f"extension/{folder}/package.json", self.names)
        self.assertEqual([name for name in self.names if ".ts" in name or name.endswith(".map")], [])

    def run_extension(self, **settings):
        self.package.extractall(self.folder / "open")
        (self.folder / "stand_in.js").write_text(STAND_IN)
        done = subprocess.run(["node", self.folder / "stand_in.js", self.folder / "open/extension/extension.js", json.dumps(settings)], capture_output=True, text=True, timeout=60)
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        return json.loads(done.stdout)

    def test_it_starts_the_server_for_gill_files_and_stops_it(self):
        told = self.run_extension(**{"gill.program": "gill", "gill.pictures": True})
        self.assertEqual(told["server"]["run"], {"command": "gill", "args": ["lsp"]})
        self.assertEqual(told["options"]["documentSelector"], [{"language": "gill", "scheme": "file"}])
        self.assertEqual(told["options"]["initializationOptions"], {"pictures": True})
        self.assertTrue(told["started"] and told["stopped"])
        # The library that it will be run with is the package's own.
        self.assertTrue(told["client"].startswith("node_modules/vscode-languageclient/"), told["client"])
        other = self.run_extension(**{"gill.program": "/opt/gill/bin/gill", "gill.pictures": False})
        self.assertEqual((other["server"]["run"]["command"], other["options"]["initializationOptions"]), ("/opt/gill/bin/gill", {"pictures": False}))

    def test_every_setting_that_the_code_asks_for_is_declared(self):
        asked = {f"gill.{key}" for key in re.findall(r"settings\.get\('(\w+)'\)", self.text("extension.js"))}
        self.assertEqual(asked, set(json.loads(self.text("package.json"))["contributes"]["configuration"]["properties"]))

    def test_lines_are_set_in_below_what_begins_a_declaration(self):
        rules = json.loads(self.text("language-configuration.json"))
        self.assertEqual(rules["comments"], {"lineComment": "#"})
        deeper, back = (rules["indentationRules"][key] for key in ("increaseIndentPattern", "decreaseIndentPattern"))
        for path in demo_files(SOURCE):
            lines = path.read_text().split("\n")
            for line, below in zip(lines, lines[1:]):
                if below.strip() and below.strip()[0] not in "#|" and not line.lstrip().startswith("#"):
                    grows = len(below) - len(below.lstrip()) > len(line) - len(line.lstrip()) and line.strip()
                    self.assertEqual(bool(grows), bool(re.search(deeper, line)), (path.name, line, below))
        self.assertTrue(re.search(back, "  drink") and not re.search(back, "  drink A"))


unittest.main(argv=sys.argv[:1], verbosity=2)
