"""The corpora are whole, the runner can fail, and the program is not worse on them than it was."""

import pathlib
import subprocess
import sys
import tempfile

import run

# What the program must keep: raised as it mends, towards told=95 false=3 wrong=0 refused=6 right=90 mends=90.
KEPT = ["told=99.5", "false=0.3", "wrong=0", "refused=4.1", "right=90.4", "mends=92.3", "helped=68"]

SOUND = """drink A
  2 oz bourbon whiskey
  25 ml lemon juice
  20 ml simple syrup
  shake 10 s
  strain
  ice cubed
  glass rocks
  garnish lemon twist
  rim salt

prep B
  500 g white sugar
  500 ml water
  rest 12 h at 4 C
  keeps 2 wk chilled
"""

# Each meaning differs from what stands in SOUND, so every line is misread.
OTHER = ["2 oz rye whiskey", "25 ml lime juice", "20.5 ml simple syrup", "shake 14 s", "double strain", "ice large cube",
         "glass double rocks", "garnish lime twist", "rim white sugar", "510 g white sugar", "500 ml water, at 40 C",
         "rest 10 h at 4 C", "keeps 3 wk chilled"]


def outcomes(gill, meanings):
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "lines.gill"
        path.write_text(SOUND, encoding="utf-8")
        bodies = [number for number, line in enumerate(SOUND.splitlines(), 1) if line.startswith(" ")]
        expected = "".join(f"{number}: {meaning}\n" for number, meaning in zip(bodies, meanings, strict=True))
        path.with_suffix(".expected").write_text(expected, encoding="utf-8")
        hurried = run.Hurried()
        hurried.read(gill, path)
        return [line.outcome for _, line in hurried.lines]


def check(truth, words):
    if not truth:
        sys.exit(f"failed: {words}")
    print(f"ok: {words}")


def main():
    gill = run.Gill(sys.argv[1])
    check(outcomes(gill, ["="] * len(OTHER)) == ["right"] * len(OTHER), "canonical lines mean what they say")
    misread = outcomes(gill, OTHER)
    check(misread == ["wrong"] * len(OTHER), f"every other meaning is seen as misread: {misread}")
    count = {folder: 0 for folder in ("drinks", "mistakes")}
    for folder in count:
        for path in (run.HERE / folder).glob("*.gill"):
            count[folder] += sum(len(one.told) if folder == "mistakes" else 1 for one in run.declarations(path)[0])
    check(count["drinks"] >= 300 and count["mistakes"] >= 150, f"there are drinks and mistakes enough: {count}")
    runner = [sys.executable, "-B", str(run.HERE / "run.py"), sys.argv[1]]
    check(subprocess.run([*runner, "--only", "mistakes", "--require", "told=100.1"], stdout=subprocess.DEVNULL).returncode == 1,
          "a demand that does not hold fails the run")
    done = subprocess.run([*runner, "--require", *KEPT], capture_output=True, text=True)
    print(done.stdout)
    check(done.returncode == 0, f"the program keeps {' '.join(KEPT)}")


if __name__ == "__main__":
    main()
