"""`gill guide`: every page on the terminal and as HTML, the list of topics, and what is said of a page that is not there."""

import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
GUIDE = SOURCE / "grammar/guide"
TOPICS = re.findall(r"\]\(([a-z-]+)\.md\)", (GUIDE / "README.md").read_text())
PENDING = "This version does not read this yet:"


def gill(*arguments):
    done = subprocess.run([PROGRAM, "guide", *map(str, arguments)], capture_output=True, timeout=100)
    return done.returncode, done.stdout.decode(), done.stderr.decode()


def examples(page):
    return re.findall(r"^```.*?\n(.*?)^```$", page, re.MULTILINE | re.DOTALL)


class Guide(unittest.TestCase):
    def test_alone_it_lists_every_topic_in_the_order_of_the_contents(self):
        status, listed, _ = gill()
        self.assertEqual(status, 0)
        self.assertEqual(re.findall(r"(?m)^  ([a-z-]+)  ", listed), TOPICS)
        self.assertLessEqual(max(map(len, listed.split("\n"))), 80)

    def test_every_page_is_shown_whole_within_the_width_with_its_examples_as_they_stand(self):
        for topic in TOPICS:
            with self.subTest(topic):
                page = (GUIDE / f"{topic}.md").read_text()
                status, shown, err = gill(topic)
                self.assertEqual((status, err), (0, ""))
                self.assertLessEqual(max(len(line) for line in shown.split("\n") if not line.startswith("    ")), 80)
                for example in examples(page):
                    self.assertIn("".join("    " + line if line.strip() else line for line in example.splitlines(True)), shown)
                prose = re.sub(r"^```.*?^```$", "", page, flags=re.MULTILINE | re.DOTALL)
                prose = re.sub(r"\]\(([a-z-]+)\.md\)", r" (`gill guide \1`)", prose)
                # Of a picture a terminal has the words.
                prose = re.sub(r"!\[([^\]]*)\]\(pictures/[^)]*\)", r"\1", prose)
                bare = lambda text: re.findall(r"[a-z0-9]+", text.lower())
                wanted = bare(prose)
                without_examples = "\n".join(line for line in shown.split("\n") if not line.startswith("    "))
                self.assertEqual(bare(without_examples.replace(PENDING, "")), wanted)

    def test_what_this_version_does_not_read_is_told_above_each_example(self):
        for topic in TOPICS:
            waiting = len(re.findall(r"(?m)^```gill.* pending$", (GUIDE / f"{topic}.md").read_text()))
            self.assertEqual(gill(topic)[1].count(PENDING), waiting, topic)

    def test_a_page_is_found_by_a_word_of_its_title(self):
        self.assertEqual(gill("units"), gill("amounts"))
        self.assertEqual(gill("Glass and ice"), gill("glass-and-ice"))

    def test_a_page_that_is_not_there_is_refused_with_the_nearest(self):
        self.assertEqual(gill("prepz"), (2, "", "gill: the guide has no page `prepz`; did you mean `preps`?\n"))
        self.assertEqual(gill("zzzzzz"), (2, "", "gill: the guide has no page `zzzzzz`; `gill guide` lists them\n"))
        self.assertEqual(gill("")[0], 0)

    def test_the_pages_as_html_lead_to_each_other_and_ask_for_nothing_from_outside(self):
        with tempfile.TemporaryDirectory() as made:
            out = pathlib.Path(made) / "guide"
            self.assertEqual(gill("--out", out)[0], 0)
            files = {path.name for path in out.glob("*.html")}
            self.assertEqual(files, {f"{topic}.html" for topic in [*TOPICS, "index"]})
            for name in files:
                with self.subTest(name):
                    text = (out / name).read_text()
                    self.assertEqual(text.count("<h1>"), 1)
                    self.assertNotRegex(text, r"<script|<link|src=")
                    self.assertEqual(text.count("<figure"), (GUIDE / name.replace("index.html", "README.md").replace(".html", ".md")).read_text().count("](pictures/"))
                    ids = re.findall(r' id="([^"]+)"', text)
                    self.assertEqual(len(ids), len(set(ids)))
                    links = re.findall(r'href="([^"]+)"', text)
                    self.assertTrue(links)
                    for link in links:
                        self.assertTrue(link.startswith("https://") or link.split("#")[0] in files, link)
                    if name != "index.html":
                        self.assertIn("index.html", links)
                        wanted = examples((GUIDE / name.replace(".html", ".md")).read_text())
                        self.assertEqual(text.count("<pre>"), len(wanted))

    def test_a_folder_that_is_somebody_elses_is_left_alone(self):
        with tempfile.TemporaryDirectory() as made:
            kept = pathlib.Path(made) / "mine.txt"
            kept.write_text("mine")
            self.assertEqual(gill("--out", made)[0], 2)
            self.assertEqual(kept.read_text(), "mine")


unittest.main(argv=sys.argv[:1], verbosity=1)
