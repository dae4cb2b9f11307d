"""Packs this folder as an extension that an editor installs from a file: `package.py FILE.vsix`. Nothing is fetched; `npm ci --ignore-scripts`
in this folder has brought the protocol's client before. The same files give the same bytes."""

import json
import pathlib
import sys
import zipfile
from xml.sax.saxutils import quoteattr

HERE = pathlib.Path(__file__).resolve().parent
OWN = ("package.json", "language-configuration.json", "extension.js", "README.md")
TYPES = {".json": "application/json", ".js": "application/javascript", ".cjs": "application/javascript", ".mjs": "application/javascript", ".md": "text/markdown", ".txt": "text/plain", ".vsixmanifest": "text/xml"}
# What a module is run from; its types, maps and tests stay behind.
LEFT_OUT = (".ts", ".map", ".yml", ".yaml", ".lock")


def module_files():
    lock = json.loads((HERE / "package-lock.json").read_text())
    for folder in sorted(lock["packages"]):
        if not folder:
            continue
        if not (HERE / folder / "package.json").exists():
            sys.exit(f"{folder} is not there: run `npm ci --ignore-scripts` in {HERE}")
        for path in sorted((HERE / folder).rglob("*")):
            inner = path.relative_to(HERE / folder).parts
            if path.is_file() and path.suffix not in LEFT_OUT and not path.name.startswith(".") and not {"node_modules", "test", "bin"} & set(inner):
                yield path


def manifest(package):
    words = {key: quoteattr(str(package[key])) for key in ("name", "version", "publisher", "displayName")}
    return f"""<?xml version="1.0" encoding="utf-8"?>
<PackageManifest Version="2.0.0" xmlns="http://schemas.microsoft.com/developer/vsx-schema/2011">
  <Metadata>
    <Identity Language="en-US" Id={words["name"]} Version={words["version"]} Publisher={words["publisher"]}/>
    <DisplayName>{package["displayName"]}</DisplayName>
    <Description xml:space="preserve">{package["description"]}</Description>
    <Categories>{",".join(package["categories"])}</Categories>
    <Properties>
      <Property Id="Microsoft.VisualStudio.Code.Engine" Value={quoteattr(package["engines"]["vscode"])}/>
      <Property Id="Microsoft.VisualStudio.Code.ExtensionKind" Value="workspace"/>
    </Properties>
    <License>extension/LICENSE.txt</License>
  </Metadata>
  <Installation>
    <InstallationTarget Id="Microsoft.VisualStudio.Code"/>
  </Installation>
  <Dependencies/>
  <Assets>
    <Asset Type="Microsoft.VisualStudio.Code.Manifest" Path="extension/package.json" Addressable="true"/>
    <Asset Type="Microsoft.VisualStudio.Services.Content.Details" Path="extension/README.md" Addressable="true"/>
    <Asset Type="Microsoft.VisualStudio.Services.Content.License" Path="extension/LICENSE.txt" Addressable="true"/>
  </Assets>
</PackageManifest>
"""


def content_types(names):
    endings = sorted({pathlib.PurePosixPath(name).suffix for name in names if pathlib.PurePosixPath(name).suffix})
    rows = "".join(f'<Default Extension="{ending}" ContentType="{TYPES.get(ending, "application/octet-stream")}"/>' for ending in endings)
    # A file without an ending is named by itself.
    rows += "".join(f'<Override PartName="/{name}" ContentType="text/plain"/>' for name in names if not pathlib.PurePosixPath(name).suffix)
    return f'<?xml version="1.0" encoding="utf-8"?>\n<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">{rows}</Types>\n'


def parts():
    """Every file of the package by its name in it."""
    package = json.loads((HERE / "package.json").read_text())
    files = {"extension.vsixmanifest": manifest(package).encode()}
    for name in OWN:
        files[f"extension/{name}"] = (HERE / name).read_bytes()
    files["extension/gill.tmLanguage.json"] = (HERE.parent / "textmate/gill.tmLanguage.json").read_bytes()
    files["extension/LICENSE.txt"] = (HERE.parents[2] / "LICENSE").read_bytes()
    for path in module_files():
        files[f"extension/{path.relative_to(HERE).as_posix()}"] = path.read_bytes()
    return {"[Content_Types].xml": content_types(files).encode(), **files}


def main():
    with zipfile.ZipFile(sys.argv[1], "w", zipfile.ZIP_DEFLATED) as package:
        for name, data in parts().items():
            entry = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
            entry.compress_type, entry.external_attr = zipfile.ZIP_DEFLATED, 0o644 << 16
            package.writestr(entry, data)


if __name__ == "__main__":
    main()
