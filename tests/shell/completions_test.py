"""The completions as they are installed, tried by the shells themselves: commands, options and the words that an option takes are those
of the help; files, folders and the names that the house declares are offered where they may stand. A shell that is not installed is left out."""

import os
import pathlib
import pty
import re
import select
import shutil
import subprocess
import sys
import tempfile
import time
import unittest

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()


def shown_help(*command):
    return subprocess.run([PROGRAM, *command, "--help"], capture_output=True, text=True, check=True, timeout=60).stdout


def commands():
    return re.findall(r"^  ([a-z]+) {2,}", shown_help().split("Subcommands:")[1], re.MULTILINE)


def options(command):
    """Of each option of a command the words that it takes, where they are a list."""
    shown = shown_help(command).split("Examples:")[0]
    return {name: words.split(",") if words else [] for name, words in re.findall(r"^  (?:-h,)?(--[a-z-]+)(?: TEXT:\{([^}]*)\})?", shown, re.MULTILINE)}


class Completions:
    """What holds in every shell; `complete` gives what each of some lines is offered behind its last letter."""

    @classmethod
    def setUpClass(cls):
        cls.folder = pathlib.Path(cls.enterClassContext(tempfile.TemporaryDirectory()))
        cls.prefix = cls.folder / "prefix"
        subprocess.run(["cmake", "--install", PROGRAM.parent, "--prefix", cls.prefix, "--component", "documents"], check=True, capture_output=True, timeout=60)
        cls.work = cls.folder / "work"
        cls.work.mkdir()
        shutil.copytree(SOURCE / "specs", cls.work / "specs")
        (cls.work / "monday count.csv").write_text("")
        (cls.work / "sours.gill").write_text("drink Bench Sour\n  glass coupe\n  60 ml gin\n")
        (cls.folder / "bin").mkdir()
        (cls.folder / "bin/gill").symlink_to(PROGRAM)
        cls.environment = {**os.environ, "PATH": f"{cls.folder / 'bin'}:{os.environ['PATH']}", "HOME": str(cls.folder), "XDG_CONFIG_HOME": str(cls.folder / "config"), "TERM": "dumb", "LC_ALL": "C.UTF-8"}

    def offered(self, line):
        return self.complete([line])[0]

    def test_every_command_is_offered(self):
        self.assertEqual(set(commands()) - set(self.offered("gill ")), set())
        self.assertEqual(self.offered("gill cale"), [])
        self.assertEqual([word.strip() for word in self.offered("gill cali")], ["calibrate"])

    def test_the_options_of_every_command_are_those_of_its_help(self):
        names = commands()
        for command, offered in zip(names, self.complete([f"gill {command} --" for command in names])):
            offered = {word.strip().rstrip("=") for word in offered}
            # A shell may leave out what shuts itself out beside what is typed, and knows --help itself.
            self.assertEqual(offered | {"--help"}, set(options(command)) | {"--help"}, command)

    def test_an_option_with_a_list_offers_it(self):
        lists = [(f"gill {command} {option} ", words) for command in commands() for option, words in options(command).items() if words]
        self.assertGreater(len(lists), 10)
        for (line, words), offered in zip(lists, self.complete([line for line, _ in lists])):
            self.assertEqual(sorted(word.strip() for word in offered), sorted(words), line)

    def test_rules_and_pages_of_the_guide_are_offered(self):
        rules, pages = self.complete(["gill why no-st", "gill guide pre"])
        self.assertEqual([word.strip() for word in rules], ["no-strain"])
        self.assertEqual([word.strip() for word in pages], ["preps"])

    def test_the_names_of_the_house_on_the_line_are_offered(self):
        drinks, preps, menus, alone = self.complete(["gill tune --house specs Fus", "gill batch --house specs quin", "gill cards specs --menu Spr", "gill batch --house sours.gill Ben"])
        bare = lambda words: [re.sub(r"\\(.)", r"\1", word).strip() for word in words]
        self.assertEqual(bare(drinks), ["Fustian"])
        self.assertEqual(bare(preps), ["quince cordial"])
        self.assertEqual(bare(menus), ["Spring 2026"])
        self.assertEqual(bare(alone), ["Bench Sour"])

    def test_files_and_houses_are_offered(self):
        house, spec, file = self.complete(["gill check sp", "gill check so", "gill stock specs --count mon"])
        bare = lambda words: [re.sub(r"\\(.)", r"\1", word).strip().rstrip("/") for word in words]
        self.assertEqual(bare(house), ["specs"])
        self.assertEqual(bare(spec), ["sours.gill"])
        self.assertEqual(bare(file), ["monday count.csv"])


@unittest.skipUnless(shutil.which("bash"), "bash is not installed")
class Bash(Completions, unittest.TestCase):
    def complete(self, lines):
        script = f"source {self.prefix}/share/bash-completion/completions/gill\ncompopt() {{ :; }}\n"
        for line in lines:
            words = line.split(" ")
            script += f"COMP_WORDS=({' '.join(repr(word) for word in words)}) COMP_CWORD={len(words) - 1}\n_gill\nprintf '%s\\n' \"${{COMPREPLY[@]}}\"\necho ==\n"
        done = subprocess.run(["bash", "--norc", "-c", script], cwd=self.work, env=self.environment, capture_output=True, text=True, timeout=120)
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        return [[word for word in part.strip("\n").split("\n") if word] for part in done.stdout.split("==\n")[:-1]]

    def test_a_name_with_spaces_is_typed_out_quoted(self):
        """At a terminal, as a person has it."""
        (self.folder / "rc").write_text(f"source {self.prefix}/share/bash-completion/completions/gill\nbind 'set bell-style none'\nPS1='> '\n")
        keys = "gill batch --house specs Bobb\t--as json --serves 2 >told\r: >finished\r"
        shell = ["bash", "--noprofile", "--rcfile", str(self.folder / "rc"), "-i"]
        at_terminal(shell, self.environment, self.work, [(": >ready\r", self.work / "ready"), (keys, self.work / "finished")])
        self.assertIn('"Bobbin Girl"', (self.work / "told").read_text())


def at_terminal(shell, environment, folder, typed):
    """Types into a shell at a terminal: of each pair the keys, then it waits for the file that they make."""
    process, terminal = pty.fork()
    if process == 0:
        os.chdir(folder)
        os.execvpe(shell[0], shell, environment)
    shown = b""
    try:
        for keys, made in typed:
            os.write(terminal, keys.encode())
            until = time.monotonic() + 120
            while not made.exists():
                if time.monotonic() > until:
                    raise AssertionError(shown.decode(errors="replace")[-2000:])
                if select.select([terminal], [], [], 0.1)[0]:
                    shown += os.read(terminal, 65536)
    finally:
        os.close(terminal)
        os.kill(process, 9)
        os.waitpid(process, 0)


@unittest.skipUnless(shutil.which("zsh"), "zsh is not installed")
class Zsh(Completions, unittest.TestCase):
    # What is handed to the shell to offer is noted on its way.
    SETUP = """
fpath=({prefix}/share/zsh/site-functions $fpath)
autoload -Uz compinit
compinit -u -C -d {dump}
zstyle ':completion:*' matcher-list ''
compadd() {{
  if [[ ${{@[1,(i)(-|--)]}} != *-(O|A|D)\\ * ]]; then
    local -a offered
    builtin compadd -A offered "$@"
    print -rl -- $offered >>{out}
  fi
  builtin compadd "$@"
}}
try() {{ BUFFER=$1; CURSOR=${{#BUFFER}}; zle list-choices; print -r -- '==' >>{out} }}
tries() {{ for line in "${{(@f)$(<{lines})}}"; do try "$line"; done; BUFFER=; : >{finished} }}
zle -N tries
bindkey '^X^T' tries
: >{ready}
"""

    def complete(self, lines):
        out, finished, listed = self.folder / "out", self.folder / "finished", self.folder / "lines"
        ready = self.folder / "ready"
        for path in (out, finished, ready):
            path.unlink(missing_ok=True)
        listed.write_text("\n".join(lines) + "\n")
        (self.folder / "setup.zsh").write_text(self.SETUP.format(prefix=self.prefix, out=out, lines=listed, finished=finished, ready=ready, dump=self.folder / 'dump'))
        at_terminal(["zsh", "-f", "-i"], self.environment, self.work, [(f"source {self.folder}/setup.zsh\r", ready), ("\x18\x14", finished)])
        return [sorted({word for word in part.strip("\n").split("\n") if word}) for part in out.read_text().split("==\n")[:-1]]


@unittest.skipUnless(shutil.which("fish"), "fish is not installed")
class Fish(Completions, unittest.TestCase):
    def complete(self, lines):
        script = f"source {self.prefix}/share/fish/vendor_completions.d/gill.fish\n"
        for line in lines:
            script += f"complete -C '{line}'\necho ==\n"
        done = subprocess.run(["fish", "--no-config", "-c", script], cwd=self.work, env=self.environment, capture_output=True, text=True, timeout=120)
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        found = [[word.split("\t")[0] for word in part.strip("\n").split("\n") if word] for part in done.stdout.split("==\n")[:-1]]
        # It offers what holds the letters as well where nothing begins with them.
        return [[word for word in words if word.lower().startswith(line.rsplit(" ", 1)[1].lower())] for words, line in zip(found, lines)]


unittest.main(argv=sys.argv[:1], verbosity=1)
