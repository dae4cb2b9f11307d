"""What `gill lsp` says of the demo house and of small ones: findings, what the book says, names, layout, mends, and places in UTF-8
and UTF-16. Where another command tells the same, its words are what is expected."""

import base64
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest
import xml.etree.ElementTree

from client import Client, DemoHouse, position_offset, text_place, uri_of, with_edits

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "lint"))
from clearing_words import CLEARS

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
SHAKEN = "drinks/shaken.gill"
# A glass and fruits outside the basic plane in front of every place that is asked about.
EMOJI = (
    "# 🍸🍋 the small house\n"
    "ingredient \"🍋 cordial\"\n  kind syrup\n  sugar 50 brix\n  origin plant\n  allergen none\n  source \"Bench\"\n\n"
    "drink Bench Sour\n  glass  coupe\n  60 ml  gin  # 🍸\n  30 ml  \"🍋 cordial\", lemom juice\n  22.5 ml  lemom juice\n  shake  12 s\n  strain\n  garnish none\n"
)


def gill(*arguments, folder=None):
    return subprocess.run([PROGRAM, *map(str, arguments)], cwd=folder, capture_output=True, text=True, timeout=120)


class EditorCase(unittest.TestCase):
    abilities = {}

    def setUp(self):
        self.folder = pathlib.Path(self.enterContext(tempfile.TemporaryDirectory()))
        # Hidden, as a user's cache is: what lies there is no part of a house.
        self.environment = {**os.environ, "XDG_CACHE_HOME": str(self.folder / ".cache")}
        self.client = self.enterContext(Client(PROGRAM, self.folder, self.environment))
        self.client.start(**self.abilities)

    def house(self, name=SHAKEN):
        """The demo house with one file of it open: its URI and text."""
        self.demo = DemoHouse(SOURCE, self.folder)
        uri, text = self.demo.uri(name), self.demo.text(name)
        self.client.open(uri, text)
        return uri, text

    def document(self, text, name="small.gill"):
        uri = uri_of(self.folder / name)
        self.client.open(uri, text)
        return uri

    def hover(self, uri, text, words, within=0):
        shown = self.client.at("textDocument/hover", uri, text, words, within=within)
        return shown and shown["contents"]["value"]

    def refused(self, method, uri, text, words, more):
        answer = self.client.reply(method, {"textDocument": {"uri": uri}, "position": text_place(text, words), **more})
        return answer["error"]["message"]


class Findings(EditorCase):
    abilities = {"textDocument": {"publishDiagnostics": {"relatedInformation": True, "codeDescriptionSupport": True}}}

    def told(self, uri, version=None):
        return [(one["code"], one["range"]["start"]["line"] + 1, one["message"].split("\n")[0]) for one in self.client.findings(uri, version)]

    def test_an_edit_tells_what_check_tells_of_the_saved_file(self):
        uri, text = self.house()
        broken = text.replace("lemon juice", "lemom juice").replace("12 s", "12 ml", 1)
        self.client.change(uri, broken, 2)
        told = self.told(uri, 2)
        self.demo.path(SHAKEN).write_text(broken)
        checked = json.loads(gill("check", self.demo.folder, "--as", "json").stdout)["findings"]
        self.assertEqual(told, [(one["rule"], one["line"], one["message"]) for one in checked if one["file"] == SHAKEN])
        self.assertGreater(len(told), 4)

    def test_what_a_file_breaks_in_another_one_is_told_there_and_taken_back(self):
        uri, text = self.house("preps/acid.gill")
        self.client.change(uri, text.replace("prep quince cordial", "prep medlar cordial"), 2)
        self.assertIn("unknown-name", [code for code, *_ in self.told(self.demo.uri(SHAKEN))])
        self.client.change(uri, text, 3)
        self.assertEqual(self.told(self.demo.uri(SHAKEN)), [])

    def test_severity_code_page_and_related_places(self):
        uri = self.document("drink Twice\n  60 ml gin\n\ndrink Twice\n  60 ml gin\n")
        found = {one["code"]: one for one in self.client.findings(uri)}
        twice, glass = found["duplicate-name"], found["no-glass"]
        self.assertEqual((twice["severity"], twice["source"]), (1, "gill"))
        self.assertGreater(glass["severity"], 1)
        related = twice["relatedInformation"][0]["location"]
        self.assertEqual((related["uri"], related["range"]["start"]["line"]), (uri, 0))
        page = pathlib.Path(re.sub("^file://", "", glass["codeDescription"]["href"]))
        self.assertEqual(page.read_text(), (SOURCE / "compiler/lint/rules/no_glass.md").read_text())

    def test_what_nothing_needs_is_tagged(self):
        uri = self.document('prep unneeded syrup\n  500 g white sugar\n  500 ml water\n  dissolve\n  keeps 14 d chilled\n')
        found = [one for one in self.client.findings(uri) if one["code"] == "unused-prep"]
        self.assertEqual([one["tags"] for one in found], [[1]])

    def test_only_the_newest_text_is_told_of_when_many_come_at_once(self):
        uri, text = self.house()
        for version in range(2, 60):
            self.client.change(uri, text.replace("lemon juice", f"lemom juice{version}"), version)
        told = self.told(uri, 59)
        self.assertIn("lemom juice59", str(told))
        versions = [one["params"].get("version") for one in self.client.notifications if one["params"].get("uri") == uri]
        self.assertLess(len(versions), 58)

    def test_a_text_in_which_nothing_is_found_is_told_of_once_when_it_is_opened(self):
        clean = "drink Bench\n  glass coupe\n  60 ml London dry gin\n  30 ml lemon juice\n  20 ml simple syrup\n  shake 12 s\n  strain\n  garnish none\n"
        uri = self.document(clean)
        self.assertEqual(self.told(uri, 1), [])
        self.client.change(uri, clean + "# a word\n", 2)
        self.client.at("textDocument/hover", uri, clean, "Bench")
        self.assertEqual([one for one in self.client.notifications if one["params"].get("uri") == uri], [])

    def test_a_text_that_is_mended_before_it_was_looked_at_is_told_of(self):
        uri = uri_of(self.folder / "small.gill")
        opened = {"textDocument": {"uri": uri, "languageId": "gill", "version": 1, "text": "drink Bench\n  60 ml ginn\n"}}
        changed = {"textDocument": {"uri": uri, "version": 2}, "contentChanges": [{"text": "# nothing yet\n"}]}
        frames = b""
        for method, params in (("textDocument/didOpen", opened), ("textDocument/didChange", changed)):
            content = json.dumps({"jsonrpc": "2.0", "method": method, "params": params}).encode()
            frames += b"Content-Length: %d\r\n\r\n" % len(content) + content
        self.client.raw(frames)
        self.assertEqual(self.told(uri, 2), [])

    def test_changes_of_parts_are_put_in_one_after_the_other(self):
        uri = self.document("drink A\n  60 ml gin\n")
        place = lambda line, at, line_end, end: {"start": {"line": line, "character": at}, "end": {"line": line_end, "character": end}}
        changes = [{"range": place(0, 6, 0, 7), "text": "\"🍸 B\"\n  glass coupe"}, {"range": place(1, 8, 1, 13), "text": "nowhere"}, {"range": place(2, 8, 2, 11), "text": "vodka"}]
        self.client.notify("textDocument/didChange", {"textDocument": {"uri": uri, "version": 2}, "contentChanges": changes})
        told = self.told(uri, 2)
        self.assertIn(("unknown-name", 2, "no glass is called `nowhere`"), told)
        self.assertIn("🍸 B", self.hover(uri, "drink \"🍸 B\"\n", "B"))

    def test_a_file_that_changes_on_disk_is_read_again(self):
        uri, text = self.house()
        acid = self.demo.path("preps/acid.gill")
        acid.write_text(acid.read_text().replace("prep quince cordial", "prep medlar cordial"))
        self.client.notify("workspace/didChangeWatchedFiles", {"changes": [{"uri": self.demo.uri("preps/acid.gill"), "type": 2}]})
        # What was found before the file changed may have been told first.
        broken = lambda one: one["params"].get("uri") == uri and "unknown-name" in str(one["params"].get("diagnostics"))
        self.client.notifications.remove(self.client.wait_until(broken))
        acid.unlink()
        self.client.notify("workspace/didChangeWatchedFiles", {"changes": [{"uri": self.demo.uri("preps/acid.gill"), "type": 3}]})
        self.client.wait_until(lambda one: "sharp orange" in str(one))

    def test_a_house_that_is_declared_later_takes_in_what_is_open(self):
        (self.folder / "drinks").mkdir()
        text = "drink A\n  glass coupe\n  60 ml bench gin\n"
        (self.folder / "drinks/a.gill").write_text(text)
        uri = uri_of(self.folder / "drinks/a.gill")
        self.client.open(uri, text)
        self.assertIn("unknown-name", [code for code, *_ in self.told(uri)])
        (self.folder / "house.gill").write_text("house Bench\n\ningredient bench gin like gin\n  strength 40 % abv\n")
        self.client.notify("textDocument/didSave", {"textDocument": {"uri": uri}})
        # What was told of the file by itself is taken back, and the house has nothing of it to tell.
        self.assertEqual(self.told(uri), [])
        place = self.client.at("textDocument/definition", uri, text, "bench gin")
        self.assertEqual(place["uri"], uri_of(self.folder / "house.gill"))
        told = [one["params"] for one in self.client.notifications if one["params"].get("uri") == uri]
        self.assertNotIn("unknown-name", str(told))

    def test_a_closed_house_takes_its_findings_back(self):
        uri = self.document("drink A\n  60 ml ginn\n")
        self.assertTrue(self.told(uri))
        self.client.notify("textDocument/didClose", {"textDocument": {"uri": uri}})
        self.assertEqual(self.told(uri), [])

    def test_a_folder_of_several_houses_is_judged_file_by_file(self):
        for name in ("one", "two"):
            (self.folder / f"{name}.gill").write_text(f"house {name}\n\ndrink {name}\n  60 ml ginn\n")
        text = (self.folder / "one.gill").read_text()
        uri = self.document(text, "one.gill")
        self.assertNotIn("duplicate-name", [code for code, *_ in self.told(uri)])


class Book(EditorCase):
    def test_a_drink_says_the_figures_that_facts_say(self):
        uri, text = self.house()
        shown = self.hover(uri, text, "Fustian")
        facts = gill("facts", self.demo.folder, "--only", "Fustian").stdout
        for figure in re.findall(r"\d+\.\d ± \d+\.\d % abv", shown):
            self.assertIn(figure.split(" ")[0], facts)
        self.assertRegex(shown, r"\*\*Strength:\*\* 17\.\d ± \d\.\d % abv")
        self.assertIn("**Glass:** coupe, chilled", shown)

    def test_every_drink_ingredient_glass_and_family_that_is_named_has_its_words(self):
        uri, text = self.house("drinks/long.gill")
        for words, told in (("mill highball", "| Strength |"), ("highball", "**Strength:**"), ("ml          oat whisky", "oats (cereal with gluten)"), ("aromatic bitters", "from the standard library"), ("spear", "**Melts:**"), ("lemon twist", "Source of the figures")):
            with self.subTest(words):
                self.assertIn(told.lower(), self.hover(uri, text, words, len(words) - 2).lower())

    def test_an_amount_is_told_in_both_columns_and_a_loose_measure_with_its_width(self):
        uri, text = self.house()
        self.assertIn("50 ml · 1 2/3 oz", self.hover(uri, text, "1 2/3 oz"))
        self.assertIn("give or take 25 %", self.hover(uri, text, "1 dash         aromatic"))

    def test_a_finding_shows_the_page_of_its_rule(self):
        uri = self.document("drink A\n  60 ml ginn\n")
        self.assertIn((SOURCE / "compiler/lint/rules/unknown_name.md").read_text()[:60], self.hover(uri, "drink A\n  60 ml ginn\n", "ginn"))

    def test_nothing_that_is_shown_clears_anything(self):
        for name in ("drinks/shaken.gill", "drinks/without_alcohol.gill", "preps/kegs_and_creams.gill", "ingredients/produce.gill"):
            self.folder = pathlib.Path(self.enterContext(tempfile.TemporaryDirectory()))
            uri, text = self.house(name)
            for declared in re.findall(r"(?m)^(?:drink|prep|ingredient) .*?(?= like|$)", text):
                shown = self.hover(uri, text, declared, len(declared) - 1)
                self.assertIn("Allergens", shown, declared)
                self.assertIsNone(CLEARS.search(shown), declared)
            lenses = self.client.ask("textDocument/codeLens", {"textDocument": {"uri": uri}})
            self.assertIsNone(CLEARS.search(str([lens["command"]["title"] for lens in lenses])))

    def test_hints_say_the_other_column_and_what_is_in_the_vessel(self):
        uri, text = self.house()
        whole = {"start": {"line": 0, "character": 0}, "end": {"line": 20, "character": 0}}
        hints = self.client.ask("textDocument/inlayHint", {"textDocument": {"uri": uri}, "range": whole})
        lines = {text[: position_offset(text, hint["position"])].split("\n")[-1] + " | " + hint["label"] for hint in hints}
        self.assertIn("  1 2/3 oz | = 50 ml", lines)
        self.assertIn("  1 2/3 oz       Two Heddles rye | 50 ml, 46.0 % abv", lines)
        served = self.hover(uri, text, "Fustian")
        last = [hint["label"] for hint in hints if hint["position"]["line"] < 20][-1]
        self.assertIn(f"**Volume:** {last.split(' ml')[0]} ", served)
        acid, made = self.demo.uri("preps/acid.gill"), self.demo.text("preps/acid.gill")
        self.client.open(acid, made)
        hints = self.client.ask("textDocument/inlayHint", {"textDocument": {"uri": acid}, "range": whole})
        self.assertTrue(any(hint["label"].startswith("makes ") for hint in hints))

    def test_the_glass_is_drawn_for_an_editor_that_asks_for_pictures(self):
        uri, text = self.house()
        self.assertNotIn("](data:", self.hover(uri, text, "Fustian"))
        with Client(PROGRAM, self.folder, self.environment) as client:
            client.ask("initialize", {"capabilities": {}, "initializationOptions": {"pictures": True}})
            client.open(uri, text)
            shown = client.at("textDocument/hover", uri, text, "Fustian")["contents"]["value"]
        drawn = base64.b64decode(re.search(r"\]\(data:image/svg\+xml;base64,([^)]*)\)", shown)[1], validate=True)
        self.assertEqual(xml.etree.ElementTree.fromstring(drawn).tag, "{http://www.w3.org/2000/svg}svg")

    def test_lenses_say_strength_volume_cost_and_menus(self):
        uri, text = self.house()
        titles = [lens["command"]["title"] for lens in self.client.ask("textDocument/codeLens", {"textDocument": {"uri": uri}})]
        self.assertEqual(titles[1:3], ["on Winter 2026", "preview"])
        self.assertRegex(titles[0], r"^17\.\d % abv, 12\d ml, \d\.\d\d GBP$")

    def test_the_preview_is_the_drinks_page(self):
        uri, text = self.house()
        page = self.client.at("gill/preview", uri, text, "Fustian")
        self.assertEqual(page["title"], "Fustian")
        self.assertTrue(page["html"].startswith("<!DOCTYPE html>"))
        self.assertIn("Two Heddles rye", page["html"])
        lens = self.client.ask("textDocument/codeLens", {"textDocument": {"uri": uri}})[2]["command"]
        shown = self.client.ask("workspace/executeCommand", {"command": lens["command"], "arguments": lens["arguments"]})
        self.assertEqual(pathlib.Path(shown["uri"].removeprefix("file://")).read_text(), page["html"])


class Names(EditorCase):
    def test_definition_in_the_house_and_in_the_library(self):
        uri, text = self.house()
        there = self.client.at("textDocument/definition", uri, text, "quince cordial")
        self.assertEqual(there["uri"], self.demo.uri("preps/acid.gill"))
        there = self.client.at("textDocument/definition", uri, text, "lemon juice")
        library = pathlib.Path(there["uri"].removeprefix("file://"))
        line = library.read_text().split("\n")[there["range"]["start"]["line"]]
        self.assertEqual(line, "ingredient lemon juice")
        self.assertEqual(library.stat().st_mode & 0o222, 0)
        # What is opened there is answered, too, and nothing is told of it.
        self.client.open(there["uri"], library.read_text())
        self.assertIn("### lemon juice", self.hover(there["uri"], library.read_text(), "ingredient lemon juice", 14))

    def test_references_are_all_places_of_the_name_and_no_others(self):
        uri, text = self.house()
        found = self.client.at("textDocument/references", uri, text, "quince cordial", {"context": {"includeDeclaration": True}})
        places = {(one["uri"], one["range"]["start"]["line"]) for one in found}
        written = set()
        for path in sorted(self.demo.folder.rglob("*.gill")):
            for number, line in enumerate(path.read_text().split("\n")):
                if "quince cordial" in line.split("#")[0] and "|" not in line and '"' not in line:
                    written.add((uri_of(path), number))
        self.assertEqual(places, written)
        others = self.client.at("textDocument/references", uri, text, "quince cordial", {"context": {"includeDeclaration": False}})
        self.assertEqual(len(others), len(found) - 1)

    def edited(self, edit):
        """Puts an edit of several files into the demo house on disk."""
        for uri, edits in edit["changes"].items():
            path = pathlib.Path(uri.removeprefix("file://"))
            path.write_text(with_edits(path.read_text(), edits))

    def test_a_name_changes_in_every_file_and_nothing_else_does(self):
        for name, words, new_name in ((SHAKEN, "quince cordial", "medlar cordial"), ("menus/winter_2026.gill", "Calamanco", "Say 2"), ("drinks/long.gill", "mill highball", "mill long"), ("house.gill", "mill goblet", "goblet 3")):
            with self.subTest(words):
                self.folder = pathlib.Path(self.enterContext(tempfile.TemporaryDirectory()))
                uri, text = self.house(name)
                before = gill("facts", self.demo.folder, "--as", "json").stdout
                self.edited(self.client.at("textDocument/rename", uri, text, words, {"newName": new_name}))
                after = gill("facts", self.demo.folder, "--as", "json").stdout
                self.assertNotEqual(before, after)
                by_name = lambda facts: sorted(json.loads(facts.replace(new_name, words))["drinks"], key=lambda drink: drink["name"])
                self.assertEqual(by_name(after), by_name(before))
                self.assertEqual(gill("check", self.demo.folder).returncode, 0)

    def test_a_name_that_is_taken_or_the_librarys_is_refused(self):
        uri, text = self.house()
        self.assertIn("declared already, in preps/acid.gill:3", self.refused("textDocument/rename", uri, text, "quince cordial", {"newName": "sharp orange"}))
        self.assertIn("the library has", self.refused("textDocument/rename", uri, text, "quince cordial", {"newName": "Gin"}).lower())
        self.assertIn("belongs to the library", self.refused("textDocument/rename", uri, text, "lemon juice", {"newName": "sour juice"}))
        self.assertIn("belongs to the library", self.refused("textDocument/prepareRename", uri, text, "lemon juice", {}))
        for name in ("", "  ", 'a"b'):
            self.assertIn("cannot be a name", self.refused("textDocument/rename", uri, text, "quince cordial", {"newName": name}))

    def test_a_name_that_needs_quotes_gets_them(self):
        uri = self.document("drink Bench\n  glass coupe\n  60 ml gin\n\nmenu All\n  runs 2026-01-01\n  section All\n    Bench  at 9 EUR\n")
        text = "drink Bench\n  glass coupe\n  60 ml gin\n\nmenu All\n  runs 2026-01-01\n  section All\n    Bench  at 9 EUR\n"
        edit = self.client.at("textDocument/rename", uri, text, "Bench", {"newName": "Salt, Pepper"})
        self.assertEqual({one["newText"] for one in edit["changes"][uri]}, {'"Salt, Pepper"'})
        self.assertEqual(len(edit["changes"][uri]), 2)

    def test_the_outline_the_search_and_what_folds(self):
        uri, text = self.house("menus/winter_2026.gill")
        flat = self.client.ask("textDocument/documentSymbol", {"textDocument": {"uri": uri}})
        self.assertEqual([one["name"] for one in flat], ["Winter 2026"])
        found = self.client.ask("workspace/symbol", {"query": "quince c"})
        self.assertEqual(found[0]["name"], "quince cordial")
        folds = self.client.ask("textDocument/foldingRange", {"textDocument": {"uri": uri}})
        first = next(fold for fold in folds if text.split("\n")[fold["startLine"]].startswith("menu"))
        self.assertGreater(first["endLine"] - first["startLine"], 10)

    def test_which_needs_which(self):
        uri, text = self.house()
        item = self.client.at("textDocument/prepareCallHierarchy", uri, text, "quince cordial")[0]
        needing = [one["from"]["name"] for one in self.client.ask("callHierarchy/incomingCalls", {"item": item})]
        needed = [one["to"]["name"] for one in self.client.ask("callHierarchy/outgoingCalls", {"item": item})]
        self.assertEqual(sorted(needing), ["Fustian", "Wakes Week"])
        self.assertIn("quince", needed)

    def test_addresses_are_links(self):
        text = 'ingredient x\n  kind syrup\n  source "See https://example.org/a_(b)?c=1."\n'
        uri = self.document(text)
        self.assertEqual([one["target"] for one in self.client.ask("textDocument/documentLink", {"textDocument": {"uri": uri}})], ["https://example.org/a_(b)?c=1"])

    def test_coloured_tokens_stand_in_order_and_changes_of_them_are_the_same(self):
        uri, text = self.house()
        first = self.client.ask("textDocument/semanticTokens/full", {"textDocument": {"uri": uri}})
        self.assertEqual(len(first["data"]) % 5, 0)
        self.client.change(uri, text.replace("1/2 oz         lemon", "22.5 ml        lemon"), 2)
        delta = self.client.ask("textDocument/semanticTokens/full/delta", {"textDocument": {"uri": uri}, "previousResultId": first["resultId"]})
        whole = self.client.ask("textDocument/semanticTokens/full", {"textDocument": {"uri": uri}})
        data = first["data"]
        for edit in delta["edits"]:
            data[edit["start"] : edit["start"] + edit["deleteCount"]] = edit["data"]
        self.assertEqual(data, whole["data"])
        self.assertLess(len(delta["edits"][0]["data"]), 60)


class Typing(EditorCase):
    abilities = {"textDocument": {"completion": {"completionItem": {"snippetSupport": True}}}}

    def offered(self, text, name="typed.gill"):
        """What is offered where `^` stands."""
        whole = text.replace("^", "")
        uri = self.document(whole, name)
        line = text[: text.index("^")].count("\n")
        place = {"line": line, "character": len(text.split("\n")[line].split("^")[0])}
        found = self.client.ask("textDocument/completion", {"textDocument": {"uri": uri}, "position": place})
        return {item["label"]: item for item in found["items"]}, place

    def test_what_may_stand_there_is_offered(self):
        house = 'prep my syrup\n  500 g white sugar\n  500 ml water\n  dissolve\n\ndrink Bench\n  family sour\n  60 ml gin\n  15 ml my syrup\n'
        for typed, wanted, unwanted in (
            ("  60 ml ^", {"gin", "my syrup"}, {"shake", "coupe"}),
            ("  60 ml GIN^", {"gin", "London dry gin"}, {"lemon juice", "my syrup"}),
            ("  60 ml le^", {"lemon juice"}, {"shake"}),
            ("  60 ^", {"ml", "oz", "dash"}, {"shake"}),
            ("  glass ^", {"coupe", "highball"}, {"gin", "none"}),
            ("  glass coupe, ^", {"chilled"}, {"coupe"}),
            ("  ice ^", {"cubed", "none"}, {"gin"}),
            ("  family ^", {"sour"}, {"gin"}),
            ("  allow ^", {"no-glass", "raw-egg"}, {"bad-line", "gin"}),
            ("  sh^", {"shake", "dry shake", "glass", "allow"}, {"gin", "simmer"}),
            ("  shake with ^", {"cubed"}, {"gin"}),
            ("  top so^", {"soda water"}, {"coupe"}),
            ("  30 ml gin, or le^", {"lemon juice"}, {"chilled"}),
            ("  30 ml gin, ^", {"chilled", "optional", "or"}, {"gin"}),
            ("  status ^", {"draft"}, {"gin"}),
            ("drink Other like ^", {"Bench"}, {"gin"}),
            ("  # 60 ml ^", set(), {"gin"}),
            ("  | 60 ml ^", set(), {"gin"}),
            ("^", {"drink", "prep", "menu"}, {"gin"}),
        ):
            with self.subTest(typed):
                offered, _ = self.offered(house + typed + "\n")
                self.assertEqual(wanted - set(offered), set())
                self.assertEqual(unwanted & set(offered), set())
        offered, _ = self.offered(house + "\nmenu All\n  section All\n    ^\n")
        self.assertIn("Bench", offered)

    def test_a_long_list_is_told_in_part_and_asked_for_again(self):
        text = "drink Bench\n  60 ml gin\n  15 ml "
        uri = self.document(text)
        ask = lambda typed: (self.client.change(uri, text + typed + "\n", 2), self.client.ask("textDocument/completion", {"textDocument": {"uri": uri}, "position": {"line": 2, "character": 8 + len(typed)}}))[1]
        self.assertTrue(ask("")["isIncomplete"])
        self.assertLess(len(ask("")["items"]), 400)
        few = ask("maraschino l")
        self.assertFalse(few["isIncomplete"])
        self.assertIn("maraschino liqueur", [item["label"] for item in few["items"]])

    def test_details_tell_strength_and_users(self):
        offered, _ = self.offered("drink Bench\n  60 ml gin\n\ndrink Other\n  30 ml ^\n")
        self.assertEqual(offered["gin"]["detail"], "London dry gin, spirit, 43.0 % abv, in 1 drink, library")
        offered, _ = self.offered("drink Bench\n  60 ml gin\n  ^\n")
        self.assertIn("12 s", offered["shake"]["detail"])
        resolved = self.client.ask("completionItem/resolve", self.offered("drink Bench\n  60 ml gin\n  15 ml ^\n")[0]["gin"])
        self.assertIn("### London dry gin", resolved["documentation"]["value"])

    def test_what_was_begun_is_replaced(self):
        offered, place = self.offered("drink Bench\n  60 ml lemon ju^\n")
        edit = offered["lemon juice"]["textEdit"]
        self.assertEqual(edit["range"], {"start": {"line": 1, "character": 8}, "end": place})

    def test_every_snippet_is_sound_when_it_is_filled_in_as_it_stands(self):
        offered, _ = self.offered("^\n")
        snippets = [item for item in offered.values() if item.get("insertTextFormat") == 2]
        self.assertEqual(len(snippets), 10)
        for item in snippets:
            with self.subTest(item["label"]):
                text = re.sub(r"\$\{\d+:(.*?)\}", r"\1", item["textEdit"]["newText"])
                if item["label"] == "menu":
                    text = "drink Drink\n  60 ml gin\n\n" + text
                uri = self.document(text, f"{item['label']}-snippet.gill")
                self.assertEqual([one["message"] for one in self.client.findings(uri) if one["severity"] == 1] if self.findings_of(uri) else [], [])

    def findings_of(self, uri):
        """Whether anything is told: a text without a finding is told of by silence, which an answer behind it shows."""
        self.client.ask("textDocument/foldingRange", {"textDocument": {"uri": uri}})
        self.client.ask("workspace/symbol", {"query": "x"})
        return any(one["params"].get("uri") == uri for one in self.client.notifications)

    def test_the_form_of_a_line_is_told_with_the_part_one_is_in(self):
        text = "drink Bench\n  60 ml gin\n  shake 12 s with \n"
        uri = self.document(text)
        form = self.client.at("textDocument/signatureHelp", uri, text, "with ", within=5)
        signature = form["signatures"][0]
        begin, end = signature["parameters"][form["activeParameter"]]["label"]
        self.assertEqual((signature["label"], signature["label"][begin:end]), ("shake 12 s [with ICE]", "[with ICE]"))
        form = self.client.at("textDocument/signatureHelp", uri, text, "gin")
        self.assertEqual(form["activeParameter"], 2)


class Layout(EditorCase):
    HURRIED = "drink Sallow Sour\n 60ml rye whiskey\n  ¾oz lemon juice   # today's\n  15 millilitres simple syrup\n  shake 12s, then double strain into a coupe\n  no garnish\n\ndrink Next\n 60ml   gin\n"

    def facts(self, text):
        """What is worked out, the numbers of lines aside; amounts as written are the layout's to write."""
        told = subprocess.run([PROGRAM, "facts", "/dev/stdin", "--as", "json"], input=text.encode(), capture_output=True, timeout=60).stdout.decode()
        return re.sub(r'"(line|as_written)": .*', "", told)

    def formatted(self, method, uri, text, more=None):
        return with_edits(text, self.client.ask(f"textDocument/{method}", {"textDocument": {"uri": uri}, "options": {"tabSize": 2, "insertSpaces": True}, **(more or {})}))

    def test_a_document_becomes_what_tidy_makes_of_it(self):
        for number, text in enumerate((self.HURRIED, self.HURRIED.replace("\n", "\r\n"), self.HURRIED + "  60 mll nonsense\n", "", "\n\n\n")):
            # Each in a house of its own: the drinks are the same.
            (self.folder / f"house{number}").mkdir()
            uri = self.document(text, f"house{number}/hurried.gill")
            tidied = subprocess.run([PROGRAM, "tidy", "-"], input=text.encode(), capture_output=True, timeout=60).stdout.decode()
            self.assertEqual(self.formatted("formatting", uri, text.replace("\r\n", "\n")).replace("\r\n", "\n") if "\r" in text else self.formatted("formatting", uri, text), tidied.replace("\r\n", "\n"))

    def test_a_tidy_document_has_no_edits(self):
        uri, text = self.house()
        self.assertEqual(self.client.ask("textDocument/formatting", {"textDocument": {"uri": uri}, "options": {}}), [])

    def test_a_range_changes_no_line_outside_it_and_no_meaning(self):
        uri = self.document(self.HURRIED)
        lines = self.HURRIED.split("\n")
        for first in range(len(lines)):
            whole = {"start": {"line": first, "character": 0}, "end": {"line": first + 1, "character": 0}}
            made = self.formatted("rangeFormatting", uri, self.HURRIED, {"range": whole}).split("\n")
            behind = len(lines) - first - 1
            self.assertEqual(made[:first], lines[:first])
            self.assertEqual(made[len(made) - behind :], lines[first + 1 :])
            self.assertEqual(self.facts("\n".join(made)), self.facts(self.HURRIED), first)
        made = self.formatted("rangeFormatting", uri, self.HURRIED, {"range": {"start": {"line": 7, "character": 0}, "end": {"line": 9, "character": 0}}})
        self.assertIn("60 ml          gin", made)
        self.assertIn(" 60ml rye whiskey", made)

    def test_enter_tidies_the_line_that_it_ends(self):
        text = "drink Next\n  60ml gin\n  \n"
        uri = self.document(text)
        made = self.formatted("onTypeFormatting", uri, text, {"position": {"line": 2, "character": 2}, "ch": "\n"})
        self.assertEqual(made.split("\n")[1], "  60 ml          gin")


class Mends(EditorCase):
    def actions(self, uri, text, words, only=None, within=0):
        place = text_place(text, words)
        place["character"] += within
        context = {"diagnostics": [], **({"only": only} if only else {})}
        found = self.client.ask("textDocument/codeAction", {"textDocument": {"uri": uri}, "range": {"start": place, "end": place}, "context": context})
        return {one["title"]: one for one in found}

    def applied(self, action, uri, text):
        return with_edits(text, action["edit"]["changes"][uri])

    def test_a_safe_mend_is_what_check_fix_does(self):
        text = "drink Bench\n  glass coupe\n  22,5 ml lemon juice\n  60 ml gin\n  shake 12 s\n  strain\n  garnish none\n"
        uri = self.document(text)
        mends = [one for one in self.actions(uri, text, "22,5").values() if one.get("isPreferred")]
        (self.folder / "fixed.gill").write_text(text)
        gill("check", "--fix", self.folder / "fixed.gill")
        self.assertEqual([self.applied(one, uri, text) for one in mends], [(self.folder / "fixed.gill").read_text()])
        self.assertEqual(mends[0]["diagnostics"][0]["code"], "bad-number")
        everything = self.actions(uri, text, "gin", ["source"])
        self.assertEqual([self.applied(one, uri, text) for one in everything.values()], [(self.folder / "fixed.gill").read_text()])

    def told(self, uri, text, version):
        self.client.change(uri, text, version)
        return [(one["severity"], one["code"]) for one in self.client.findings(uri, version)]

    def test_what_a_finding_prints_to_write_is_offered_where_it_ends_the_finding(self):
        sour = "drink Bench\n  glass coupe\n  60 ml London dry gin\n  30 ml lemon juice\n  20 ml simple syrup\n  shake 12 s  # hard\n  strain\n  garnish none\n"
        for change, code, title, made in (
            # A whole line, the words that are marked, a line behind or before the one that is marked, an amount.
            (("60 ml London", "60 London"), "unknown-unit", "Write `60 ml London dry gin`", sour),
            (("30 ml", "30 mll"), "unknown-unit", "Write `ml`", sour),
            (("  strain\n", ""), "no-strain", "Write `strain`", sour),
            (("20 ml simple syrup", "200 ml simple syrup"), "unlikely-amount", "Write `20 ml`", sour),
            (("  shake 12 s  # hard\n", "  shake 12 s  # hard\n  dry shake 12 s\n"), "out-of-order", "Write `strain to tin`", sour.replace("# hard\n", "# hard\n  strain to tin\n  dry shake 12 s\n")),
        ):
            with self.subTest(title):
                text = sour.replace(*change)
                uri = self.document(text)
                marked = next(one for one in self.client.findings(uri) if one["code"] == code)
                found = self.client.ask("textDocument/codeAction", {"textDocument": {"uri": uri}, "range": marked["range"], "context": {"diagnostics": []}})
                mend = next(one for one in found if one["title"] == title)
                self.assertEqual(self.applied(mend, uri, text), made)
                self.assertEqual(mend["diagnostics"][0]["code"], code)
                self.assertNotIn((marked["severity"], code), self.told(uri, made, 2))

    def test_an_allergen_is_put_behind_the_words_of_the_guest_line(self):
        text = 'drink Bench\n  glass coupe\n  guest "Gin, sweetened."\n  60 ml gin\n  20 ml orgeat\n  stir 30 s\n  strain\n  garnish none\n'
        uri = self.document(text)
        title = next(one for one in self.actions(uri, text, "orgeat") if "Contains" in one)
        made = self.applied(self.actions(uri, text, "orgeat")[title], uri, text)
        self.assertIn('  guest "Gin, sweetened. Contains almond (nut)."\n', made)
        self.assertNotIn("hidden-allergen", [code for _, code in self.told(uri, made, 2)])

    def test_the_house_stands_as_it_was_after_mends_were_tried(self):
        text = "drink Bench\n  glass coupe\n  60 gin\n  lemom juice 30 ml\n"
        uri = self.document(text)
        before = self.client.findings(uri)
        shown = self.client.at("textDocument/hover", uri, text, "Bench")
        whole = {"start": {"line": 0, "character": 0}, "end": {"line": 4, "character": 0}}
        self.client.ask("textDocument/codeAction", {"textDocument": {"uri": uri}, "range": whole, "context": {"diagnostics": []}})
        self.assertEqual(self.client.at("textDocument/hover", uri, text, "Bench"), shown)
        self.client.change(uri, text + "# a word\n", 2)
        self.client.change(uri, text.replace("60 gin", "60 gins"), 3)
        after = self.client.findings(uri, 3)
        self.assertEqual(len(after), len(before))

    def test_a_bottle_that_nobody_knows_is_declared_from_its_relation(self):
        text = "drink Bench\n  glass coupe\n  60 ml Grey Heron vodka\n"
        uri = self.document(text)
        made = self.applied(self.actions(uri, text, "Grey")["Declare `ingredient Grey Heron vodka like vodka`"], uri, text)
        self.client.change(uri, made, 2)
        self.assertNotIn("unknown-name", [one["code"] for one in self.client.findings(uri, 2)])

    def test_a_finding_is_allowed_with_a_reason(self):
        text = "drink Bench\n  60 ml gin\n"
        uri = self.document(text)
        allow = next(one for title, one in self.actions(uri, text, "Bench").items() if title.startswith("Allow no-glass in Bench"))
        self.client.change(uri, self.applied(allow, uri, text), 2)
        codes = [one["code"] for one in self.client.findings(uri, 2)]
        self.assertFalse({"no-glass", "no-reason", "idle-allow", "bad-line"} & set(codes), codes)

    def test_a_drink_out_of_its_family_is_brought_in_by_measures_the_house_can_pour(self):
        text = "house Bench\n  ounce 30 ml\n  measures 60 ml, 45 ml, 30 ml, 22.5 ml, 15 ml, 7.5 ml\n\ndrink Bench\n  family sour\n  glass coupe\n  60 ml gin\n  1 1/2 oz lemon juice\n  7.5 ml simple syrup\n  shake 12 s\n  strain\n  garnish none\n"
        uri = self.document(text)
        self.assertIn("out-of-family", [one["code"] for one in self.client.findings(uri)])
        mends = [one for title, one in self.actions(uri, text, "Bench\n  family").items() if title.startswith("Write") and one["diagnostics"][0]["code"] == "out-of-family"]
        made = self.applied(mends[0], uri, text)
        self.client.change(uri, made, 2)
        self.assertNotIn("out-of-family", [one["code"] for one in self.client.findings(uri, 2)], made)

    def test_an_amount_is_written_in_the_other_measure_and_back(self):
        text = "house Bench\n  ounce 30 ml\n\ndrink Bench\n  45 ml gin\n"
        uri = self.document(text)
        there = self.applied(self.actions(uri, text, "45 ml")["Write `45 ml` as `1 1/2 oz`"], uri, text)
        self.assertIn("  1 1/2 oz gin", there)
        self.client.change(uri, there, 2)
        self.assertEqual(self.applied(self.actions(uri, there, "1 1/2 oz")["Write `1 1/2 oz` as `45 ml`"], uri, there), text)

    def test_a_drink_is_poured_for_more(self):
        text = "drink Bench\n  22.5 ml gin\n  1 dash aromatic bitters\n  1 egg white\n"
        uri = self.document(text)
        made = self.applied(self.actions(uri, text, "Bench")["Pour 2 times as much of everything"], uri, text)
        self.assertEqual(made, "drink Bench\n  45 ml gin\n  2 dashes aromatic bitters\n  2 egg white\n")

    def test_what_is_weighed_becomes_a_prep_with_the_same_in_the_drink(self):
        text = "prep bench syrup\n  20 g white sugar\n  30 g water\n  1.5 g citric acid  # sour\n  dissolve\n  keeps 3 d chilled\n"
        uri = self.document(text)
        whole = {"start": text_place(text, "20 g"), "end": text_place(text, "citric")}
        found = self.client.ask("textDocument/codeAction", {"textDocument": {"uri": uri}, "range": whole, "context": {"diagnostics": [], "only": ["refactor.extract"]}})
        made = self.applied(found[0], uri, text)
        self.assertIn("prep bench syrup mix\n  20 g white sugar\n  30 g water\n  1.5 g citric acid\n\nprep bench syrup\n  51.5 g  bench syrup mix  # sour\n", made)
        figures = []
        for name, content in (("before", text), ("after", made)):
            (self.folder / f"{name}.gill").write_text(content)
            preps = json.loads(gill("facts", self.folder / f"{name}.gill", "--as", "json").stdout)["preps"]
            figures.append(next(one for one in preps if one["name"] == "bench syrup"))
        for key in ("sugar_g_per_100ml", "acid_g_per_100ml", "yield_g"):
            self.assertAlmostEqual(figures[0][key], figures[1][key], places=6)


class Encodings(EditorCase):
    def asked(self, utf8):
        uri = self.document(EMOJI)
        shown = self.client.at("textDocument/hover", uri, EMOJI, '"🍋 cordial"', within=6 if utf8 else 4, utf8=utf8)
        found = next(one for one in self.client.findings(uri) if one["code"] == "unknown-name" and one["range"]["start"]["line"] == 12)
        definition = self.client.at("textDocument/definition", uri, EMOJI, 'cordial", lemom', utf8=utf8)
        return shown, found["range"], definition["range"]

    def test_places_behind_an_emoji_count_in_utf_16(self):
        shown, found, definition = self.asked(False)
        self.assertIn("🍋 cordial", shown["contents"]["value"])
        self.assertEqual(found, {"start": text_place(EMOJI, "lemom juice\n  shake"), "end": {"line": 12, "character": 22}})
        self.assertEqual(definition["end"]["character"] - definition["start"]["character"], len("🍋 cordial".encode("utf-16-le")) // 2)


class InUtf8(Encodings):
    abilities = {"general": {"positionEncodings": ["utf-8", "utf-16"]}}

    def test_places_behind_an_emoji_count_in_utf_16(self):
        shown, found, definition = self.asked(True)
        self.assertIn("🍋 cordial", shown["contents"]["value"])
        self.assertEqual(found["start"], text_place(EMOJI, "lemom juice\n  shake", True))
        self.assertEqual(definition["end"]["character"] - definition["start"]["character"], len("🍋 cordial".encode()))


unittest.main(argv=sys.argv[:1], verbosity=2)
