"""The editors' files as they are installed, in a folder of their own."""

import pathlib
import subprocess


def install_editor_files(program, folder):
    """The prefix below which `cmake --install` has laid them."""
    prefix = pathlib.Path(folder) / "prefix"
    done = subprocess.run(["cmake", "--install", program.parent, "--prefix", prefix, "--component", "editors"], capture_output=True, text=True, timeout=60)
    if done.returncode:
        raise AssertionError(done.stderr)
    return prefix
