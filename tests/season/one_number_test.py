#!/usr/bin/env python3
"""One quantity, one number: every figure of every output of a house is held to the facts of that house.

    one_number_test.py GILL PROJECT [-v] ["demo house" | season]

Facts as JSON are unrounded. Whatever else is printed (facts as text and CSV, the book in HTML and Markdown, cards, labels, batches, the
plan, costs, the count, the menu, the comparison) must be that number, but for the decimals which the form shows. Two houses are walked:
specs/, and the season house of this folder in spring. Sums over outputs (what a plan needs, what a bottle pours) are added up here from
the facts. No source is needed for a sum; whole recipes, whole packs and whole fruit are common practice, no source."""

import collections
import concurrent.futures
import csv
import datetime
import html
import io
import pathlib
import re
import shutil
import sys
import tempfile
from math import ceil

import season

GILL, PROJECT = sys.argv[1], pathlib.Path(sys.argv[2]).resolve()
VERBOSE, ONLY = "-v" in sys.argv[3:], [word for word in sys.argv[3:] if word != "-v"]
NUMBER = r"[−-]?\d+(?:\.\d+)?"
# `(12.3)` or `(12.3 ± 0.4)`: the number, its own tolerance left aside.
FIGURE = rf"({NUMBER})(?: ± {NUMBER})?"
# A price on a menu: with its currency's sign or without, a cup's said to be one.
PRICE = rf"[€£$]?({NUMBER})(?: a cup)?"
MADE = "2026-03-20"
# So many figures each house holds at the least; a form that changed its words would else go by unread.
FEWEST = 6500


def number(text):
    return float(text.replace("−", "-"))


def plain(text):
    """Markdown without its links and marks."""
    return re.sub(r"[*_\\]", "", re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", text)).strip()


def untag(markup):
    return re.sub(r"\s+", " ", html.unescape(re.sub(r"<[^>]+>", "", markup))).strip()


def without_hidden(markup):
    """HTML without the spans that nobody sees before they ask for more."""
    kept, depth = [], 0
    for part in re.split(r"(<[^>]+>)", markup):
        if depth:
            depth += part.startswith("<span") - part.startswith("</span")
        elif part.startswith("<span") and part.endswith(" hidden>"):
            depth = 1
        else:
            kept.append(part)
    return "".join(kept)


class Ledger:
    """What was compared, by form and figure, and what disagreed."""

    def __init__(self):
        self.compared, self.wrong = collections.Counter(), []

    def tell(self, form, what, said, meant):
        self.wrong.append(f"{form}: {what}: printed {said}, the facts say {meant}")

    def figure(self, form, what, printed, value, step=None):
        """A number as it is printed against its value: to the decimals that stand there, or to the step that the form rounds to."""
        self.compared[form] += 1
        if value is None:
            self.tell(form, what, printed, None)
            return
        text = printed if isinstance(printed, str) else repr(printed)
        got = number(text)
        half = (step or 10.0 ** -len(text.partition(".")[2])) / 2
        if abs(got - value) > half * (1 + 1e-6) + 1e-9:
            self.tell(form, what, printed, value)

    def exact(self, form, what, got, value):
        self.compared[form] += 1
        if isinstance(got, float) or isinstance(value, float):
            if got is None or value is None or abs(got - value) > 1e-8 * max(1, abs(value)):
                self.tell(form, what, got, value)
        elif got != value:
            self.tell(form, what, got, value)

    def measure(self, form, what, printed, ml):
        """`1.08 l`, `449 ml`, `980 g`, `60`: three figures at the least, `about 1.1 l`: two."""
        self.compared[form] += 1
        found = re.fullmatch(rf"(about )?({NUMBER}) ?(ml|l|g|kg)?(?: pieces?)?", printed)
        if not found or ml is None:
            self.tell(form, what, printed, ml)
            return
        got = number(found[2]) * (1000 if found[3] in ("l", "kg") else 1)
        if found[1]:
            half = 50 if ml >= 1000 else 5 if ml >= 100 else 0.5
        elif found[3] in ("l", "kg"):
            half = 5 if ml < 10000 else 50
        else:
            half = 2.5 if ml >= 1000 else 0.5 if ml >= 100 else 0.5 if found[3] != "ml" or ml >= 10 else 0.05
        if abs(got - ml) > half * (1 + 1e-6) + 1e-9:
            self.tell(form, what, printed, ml)


class House:
    """One house walked through every command."""

    def __init__(self, name, folder, scratch, ledger, menu, old=None):
        self.name, self.folder, self.book = name, folder, ledger
        self.menu_name, self.old, self.scratch = menu, old, scratch
        self.gill = season.Gill(GILL, scratch)
        self.facts = self.gill.json("facts", folder)
        self.drinks = {one["name"]: one for one in self.facts["drinks"]}
        self.preps = {one["name"]: one for one in self.facts["preps"]}
        self.cost = {one["name"]: one for one in self.gill.json("cost", folder)["drinks"]}
        self.currency = self.facts["drinks"][0]["cost"]["currency"]
        self.serves = {name: one["serves"] for name, one in self.drinks.items()}
        # A retired drink stands in the facts and nowhere that staff or guests look.
        self.live = {name: one for name, one in self.drinks.items() if one["status"] not in ("retired", "draft")}
        self.own = {name: one for name, one in self.preps.items() if one["file"]}
        # What a file name of the book stands for.
        self.unit = "UK"

    def form(self, name):
        return f"{self.name}, {name}"

    def words(self, code):
        """An allergen as people read it begins with its own word: `nuts:hazelnut` is told as hazelnut."""
        return code.split(":")[-1]

    def allergens(self, form, what, sentence, one):
        """The declared ones stand in what comes before `May contain`, the possible ones behind it, and no other does."""
        known = {self.words(code) for every in (*self.drinks.values(), *self.preps.values()) for code in every["allergens"] + every["allergens_may"]}
        sure, _, may = sentence.replace("may contain", "May contain").partition("May contain")
        for title, said, codes in (("allergens", sure, one["allergens"]), ("possible allergens", may, one["allergens_may"])):
            said = {word for word in known if re.search(rf"(?<!\w){re.escape(word)}(?!\w)", said)}
            self.book.exact(form, f"{what}, {title}", sorted(said), sorted({self.words(code) for code in codes}))

    # ---- facts -------------------------------------------------------------------------------------------------------------------

    def walk_facts_text(self):
        form, text = self.form("facts text"), self.gill("facts", self.folder)
        blocks = {block.split("\n", 1)[0]: block for block in text.split("\n\n")}
        for name, one in self.drinks.items():
            block = next((block for head, block in blocks.items() if re.match(rf"{re.escape(name)} \(drink\b", head)), "")
            said = re.search(rf"served +{FIGURE} ml +{FIGURE} % abv +({NUMBER}) °C +melt ({NUMBER}) %", block)
            if not said:
                self.book.tell(form, name, block[:60], "a block with what is served")
                continue
            served = one["served"]
            for key, printed in zip(("volume_ml", "abv_percent", "temperature_c"), said.groups()):
                self.book.figure(form, f"{name}, {key}", printed, served[key])
            self.book.figure(form, f"{name}, melt", said[4], one["dilution_percent"])
            taste = re.search(rf"sugar {FIGURE} g/100 ml +acid {FIGURE} g/100 ml(?: +balance {FIGURE})?", block)
            if taste:
                for key, printed in zip(("sugar_g_per_100ml", "acid_g_per_100ml", "sugar_acid_ratio"), taste.groups()):
                    if printed:
                        self.book.figure(form, f"{name}, {key}", printed, served[key])
            drunk = re.search(rf"alcohol +({NUMBER}) g +({NUMBER}) units \((\w+)\) +({NUMBER}) kcal", block)
            self.unit = drunk[3]
            self.book.figure(form, f"{name}, ethanol", drunk[1], one["ethanol_g"])
            self.book.figure(form, f"{name}, units", drunk[2], one["alcohol_units"][drunk[3]])
            self.book.figure(form, f"{name}, kcal", drunk[4], one["energy_kcal"])
            # Alcohol units are ethanol over 7.893 g (8 g by the UK's round figure of 10 ml at 0.789 g/ml, OIML R 22): one from the other.
            self.book.exact(form, f"{name}, units of its ethanol", round(one["alcohol_units"]["UK"] * 7.8924, 2), round(one["ethanol_g"], 2))
            # 17 kJ and 4 kcal a gram of carbohydrate, 29 and 7 of alcohol, 37 and 9 of fat: Regulation (EU) No 1169/2011, Annex XIV.
            self.book.figure(form, f"{name}, kJ of its kcal", one["energy_kj"], one["energy_kcal"] * 4.2, step=one["energy_kcal"] * 0.21 + 0.01)
            cost = re.search(rf"cost +({NUMBER}) {self.currency}", block)
            self.book.figure(form, f"{name}, cost", cost[1], one["cost"]["amount"])
            self.allergens(form, name, re.search(r"allergens +(.*)", block)[1].split("; not known")[0], one)
        for name, one in self.preps.items():
            block = next(block for head, block in blocks.items() if head.startswith(f"{name} (prep"))
            makes = re.search(rf"makes +(.*)", block)[1]
            for pattern, key in ((rf"{FIGURE} ml", "yield_ml"), (rf"{FIGURE} g(?!/)", "yield_g"), (rf"loss {FIGURE} %", "loss_percent")):
                if found := re.search(pattern, makes):
                    self.book.figure(form, f"{name}, {key}", found[1], one[key])
            for pattern, key in ((rf"holds .*?{FIGURE} % abv", "abv_percent"), (rf"holds .*?sugar {FIGURE} g/100 ml", "sugar_g_per_100ml"),
                                 (rf"holds .*?acid {FIGURE} g/100 ml", "acid_g_per_100ml"), (rf"holds .*?{FIGURE} g/ml", "density_g_per_ml"),
                                 (rf"cost +{FIGURE} {self.currency} a litre", "cost_per_l"), (rf"keeps +({NUMBER}) d", "keeps_days"),
                                 (rf"refractometer {FIGURE} brix", "refractometer_brix"), (rf"100 ml weigh {FIGURE} g", "weight_of_100ml_g")):
                if found := re.search(pattern, block):
                    self.book.figure(form, f"{name}, {key}", found[1], one[key])
            self.allergens(form, name, re.search(r"allergens +(.*)", block)[1].split("; not known")[0], one)

    def walk_facts_csv(self):
        form = self.form("facts csv")
        rows = {(row["what"], row["name"]): row for row in csv.DictReader(io.StringIO(self.gill("facts", self.folder, "--as", "csv")))}
        for name, one in self.drinks.items():
            row = rows["drink", name]
            flat = {**one, **one["served"], "cost": one["cost"]["amount"]}
            for key in ("volume_ml", "mass_g", "abv_percent", "sugar_g_per_100ml", "acid_g_per_100ml", "sugar_acid_ratio", "density_g_per_ml", "temperature_c",
                        "dilution_percent", "ethanol_g", "energy_kcal", "energy_kj", "glass_fill_percent", "cost"):
                self.book.exact(form, f"{name}, {key}", float(row[key]) if row[key] else None, None if flat[key] is None else float(flat[key]))
        for name, one in self.preps.items():
            row = rows["prep", name]
            flat = {**one, "volume_ml": one["yield_ml"], "mass_g": one["yield_g"]}
            for key in ("volume_ml", "mass_g", "abv_percent", "sugar_g_per_100ml", "brix", "acid_g_per_100ml", "density_g_per_ml", "loss_percent", "cost_per_l",
                        "keeps_days", "fat_g_per_100ml", "refractometer_brix", "weight_of_100ml_g", "bottle_g"):
                self.book.exact(form, f"{name}, {key}", float(row[key]) if row[key] else None, None if flat.get(key) is None else float(flat[key]))
        # What a prep's line says it costs is what its parts say, and a drink's cost is the sum of its lines.
        for name, one in self.drinks.items():
            lines = [line["cost"] for line in one["ingredients"] if not line["optional"]]
            if None not in lines:
                self.book.figure(form, f"{name}, sum of its lines", one["cost"]["amount"], sum(lines), step=2e-6)
            for line in one["ingredients"]:
                if line["name"] in self.preps and line["volume_ml"] and line["role"] != "garnish":
                    self.book.figure(form, f"{name}, cost of {line['name']}", line["cost"], line["volume_ml"] / 1000 * self.preps[line["name"]]["cost_per_l"], step=4e-4)

    # ---- the book ----------------------------------------------------------------------------------------------------------------

    def walk_book(self):
        out = self.scratch / f"book-{self.name}".replace(" ", "-")
        self.gill("book", self.folder, "--out", out, "--as", "all")
        titles = {}
        for kind in ("drinks", "preps", "ingredients"):
            for path in sorted((out / kind).glob("*.md")):
                text = path.read_text()
                titles[kind, text.split("\n", 1)[0][2:].replace("\\", "")] = (text, path.with_suffix(".html").read_text())
        for name, one in self.live.items():
            self.drink_page(name, one, *titles["drinks", name])
        for name, one in self.own.items():
            self.prep_page(name, one, *titles["preps", name])
        for one in self.facts["ingredients"]:
            if ("ingredients", one["name"]) in titles:
                self.ingredient_page(one, *titles["ingredients", one["name"]])
        self.summaries(out)

    def ingredient_page(self, one, markdown, page):
        form, name = self.form("book, ingredients"), one["name"]
        said = self.facts_of(form, name, markdown, page)
        for key, pattern, field in (
                ("Strength", rf"{FIGURE} % abv", "abv_percent"), ("Sugar", rf"{FIGURE} g/100 ml", "sugar_g_per_100ml"), ("Brix", FIGURE, "brix"),
                ("Acid, as citric", rf"{FIGURE} g/100 ml", "acid_g_per_100ml"), ("Fat", rf"{FIGURE} g/100 ml", "fat_g_per_100ml"),
                ("Density", rf"{FIGURE} g/ml", "density_g_per_ml"), ("Cost", rf"({NUMBER}) {self.currency} a litre", "cost_per_l")):
            if key in said and (found := re.search(pattern, said[key])):
                self.book.figure(form, f"{name}, {key}", found[1], one[field])
        if (found := re.search(rf"({NUMBER}) {self.currency} a kilogram", said.get("Cost", ""))) and one["density_g_per_ml"]:
            self.book.figure(form, f"{name}, a kilogram", found[1], one["cost_per_l"] / one["density_g_per_ml"])

    def facts_of(self, form, name, markdown, page):
        """The list of named figures of a page; HTML and Markdown say the same to the letter."""
        said = {}
        for key, value in re.findall(r"^- \*\*(.+?):\*\* (.+)$", markdown, re.MULTILINE):
            said.setdefault(key, plain(value))  # what a stand-in comes to follows under the same names
        in_html = {}
        for key, values in re.findall(r"<dt>(.*?)</dt>((?:<dd>.*?</dd>)+)", page, re.DOTALL):
            in_html.setdefault(untag(key), untag(values.replace("</dd>", " ")))
        for key, value in said.items():
            self.book.exact(self.form("book html"), f"{name}, {key}", re.sub(r"[*_;, ]", "", in_html.get(key, "nothing")), re.sub(r"[*_;, ]", "", value))
        # Each row of the table of amounts is, cell by cell, the HTML row as it stands before anybody asks for more.
        part = re.split(r"^## (?:Build|Ingredients)$", markdown, flags=re.MULTILINE)[-1].split("\n## ", 1)[0]
        rows = re.findall(r"<tr>(.*?)</tr>", re.split(r'class="part (?:build|ingredients)"', page)[-1].split("</table>", 1)[0], re.DOTALL)[1:]
        table = [[plain(cell) for cell in row.split("|")] for row in re.findall(r"^\|(.+)\|$", part, re.MULTILINE)][2:]
        for row, markup in zip(table, rows, strict=True):
            shown = re.sub(r"\s", "", untag(without_hidden(markup)))
            self.book.exact(self.form("book html"), f"{name}, amount", shown.replace("—", ""), re.sub(r"\s", "", "".join(row)).replace("—", ""))
        return said

    def drink_page(self, name, one, markdown, page):
        form, served = self.form("book"), one["served"]
        said = self.facts_of(form, name, markdown, page)
        for key, pattern, value in (
                ("Strength", rf"{FIGURE} % abv", served["abv_percent"]), ("Volume", rf"{FIGURE} ml", served["volume_ml"]),
                ("Sugar", rf"{FIGURE} g/100 ml", served["sugar_g_per_100ml"]), ("Acid, as citric", rf"{FIGURE} g/100 ml", served["acid_g_per_100ml"]),
                ("Balance, sugar to acid", FIGURE, served["sugar_acid_ratio"]), ("Temperature", rf"({NUMBER}) °C", served["temperature_c"]),
                ("Dilution, of what is poured", rf"({NUMBER}) %", one["dilution_percent"]), ("Alcohol", rf"({NUMBER}) g", one["ethanol_g"]),
                ("Alcohol", rf"({NUMBER}) {self.unit} unit", one["alcohol_units"][self.unit]), ("Energy", rf"({NUMBER}) kcal", one["energy_kcal"]),
                ("Energy", rf"\(({NUMBER}) kJ\)", one["energy_kj"]), ("Cost", rf"({NUMBER}) {self.currency}", one["cost"]["amount"]),
                ("Cost, each", rf"({NUMBER}) {self.currency}", one["cost"]["amount"])):
            if key in said and (found := re.search(pattern, said[key])):
                self.book.figure(form, f"{name}, {key}", found[1], value)
            elif key not in ("Cost", "Cost, each", "Balance, sugar to acid", "Sugar", "Acid, as citric", "Alcohol", "Dilution, of what is poured"):
                self.book.tell(form, f"{name}, {key}", said.get(key), value)
        for minutes, later in zip((5, 10), one.get("served_later") or ()):
            if text := said.get(f"After {minutes} min on its ice"):
                found = re.search(rf"({NUMBER}) % abv, ({NUMBER}) ml, ({NUMBER}) °C", text)
                for key, printed in zip(("abv_percent", "volume_ml", "temperature_c"), found.groups()):
                    self.book.figure(form, f"{name}, {key} after {minutes} min", printed, later[key])
        for menu, price, percent, gross in re.findall(rf"([^;:]+), [^:;]+: ({NUMBER}) {self.currency} \(pour cost ({NUMBER}) %, gross profit ({NUMBER}) %\)",
                                                      said.get("Menus", said.get("Menu", ""))):
            if menu.strip() == self.cost[name]["menu"]:
                self.book.figure(form, f"{name}, price", price, self.cost[name]["price"])
                self.book.figure(form, f"{name}, pour cost", percent, self.cost[name]["pour_cost_percent"])
                self.book.figure(form, f"{name}, gross profit", gross, 100 - self.cost[name]["pour_cost_percent"])
        if whole := re.search(rf"The whole, for (\d+): ({NUMBER}) ml, ({NUMBER}) g of alcohol, ({NUMBER}) {self.currency}", markdown):
            self.book.exact(form, f"{name}, serves", int(whole[1]), one["serves"])
            self.book.figure(form, f"{name}, the whole", whole[2], one["whole"]["served"]["volume_ml"], step=10 if one["whole"]["served"]["volume_ml"] >= 1000 else 1)
            self.book.figure(form, f"{name}, the whole's alcohol", whole[3], one["whole"]["ethanol_g"])
            self.book.figure(form, f"{name}, the whole's cost", whole[4], one["whole"]["cost"]["amount"])
            self.book.figure(form, f"{name}, the whole is its serves", one["whole"]["served"]["volume_ml"], one["served"]["volume_ml"] * one["serves"], step=1e-6)
            self.book.figure(form, f"{name}, the whole costs its serves", one["whole"]["cost"]["amount"], one["cost"]["amount"] * one["serves"], step=1e-5)
        if drawn := re.search(rf"cut through the middle: ({NUMBER}) ml of liquid", markdown):
            self.book.figure(form, f"{name}, drawn", drawn[1], served["volume_ml"])
        if melted := re.search(rf"({NUMBER}) ml water from the ice\.\]", markdown):
            shown = one.get("whole", one)
            self.book.figure(form, f"{name}, water from the ice", melted[1], one["dilution_percent"] / 100 * shown["mixed"]["volume_ml"])
        self.allergens(form, name, self.notice(markdown), one)
        notice = page.split('class="notice allergens"', 1)[1].split('class="small"', 1)[0]
        bold = lambda begun: " ".join(word for line in re.findall(r"<p[^>]*>(.*?)</p>", notice, re.DOTALL) if re.match(begun, line)
                                      for word in re.findall(r"<strong>(.*?)</strong>", line))
        self.allergens(self.form("book html"), name, f"Contains {bold('Contains|Also contains')} May contain {bold('May contain|Also may contain')}", one)

    @staticmethod
    def notice(markdown):
        """The words in bold of a page's notice: the allergens, without what they come by; the possible ones last."""
        lines = re.findall(r"^> (.+)$", markdown.split("> **Allergens**", 1)[1].split("\n\n", 1)[0], re.MULTILINE)
        bold = lambda begun: " ".join(word for line in lines if re.match(begun, line) for word in re.findall(r"\*\*.+?\*\*", line))
        return f"Contains {bold('Contains|Also contains')} May contain {bold('May contain|Also may contain')}"

    def prep_page(self, name, one, markdown, page):
        form = self.form("book, preps")
        said = self.facts_of(form, name, markdown, page)
        for key, pattern, field in (
                ("Strength", rf"{FIGURE} % abv", "abv_percent"), ("Sugar", rf"{FIGURE} g/100 ml", "sugar_g_per_100ml"), ("Brix", FIGURE, "brix"),
                ("Acid, as citric", rf"{FIGURE} g/100 ml", "acid_g_per_100ml"), ("Fat", rf"{FIGURE} g/100 ml", "fat_g_per_100ml"),
                ("Density", rf"{FIGURE} g/ml", "density_g_per_ml"), ("Refractometer shows", rf"{FIGURE} brix", "refractometer_brix"),
                ("100 ml weigh", rf"{FIGURE} g", "weight_of_100ml_g"), ("A bottle of it weighs, without the glass", rf"{FIGURE} g", "bottle_g"),
                ("Loss", rf"{FIGURE} %", "loss_percent"), ("Cost", rf"({NUMBER}) {self.currency} a litre", "cost_per_l")):
            if key in said and (found := re.search(pattern, said[key])):
                self.book.figure(form, f"{name}, {key}", found[1], one[field])
        if found := re.fullmatch(r"(\d+ \w+), (chilled|ambient|frozen)", said.get("Keeps", "")):
            self.book.exact(form, f"{name}, keeps", self.days(found[1]), one["keeps_days"])
            self.book.exact(form, f"{name}, where", found[2], one["storage"])
        made = said.get("Makes", "")
        if made and one.get("yield_count") is None:
            weight = bool(re.search(r"k?g$", made))
            self.book.measure(form, f"{name}, makes", re.sub(r" ± .*? (?=ml|l|g)", " ", made), one["yield_g" if weight else "yield_ml"])
        elif made:
            self.book.exact(form, f"{name}, makes", float(re.match(NUMBER, made)[0]), float(one["yield_count"]))
        # A row's grams and millilitres are those of the facts.
        rows = [[plain(cell) for cell in row.split("|")] for row in re.findall(r"^\|(.+)\|$", markdown.split("## Ingredients", 1)[-1].split("\n## ", 1)[0], re.MULTILINE)]
        head, rows = rows[0], rows[2:]
        for row, line in zip(rows, one["ingredients"]):
            for unit, cell in zip(head, row):
                if unit in ("g", "ml") and (found := re.fullmatch(rf"({NUMBER}) {unit}", cell)):
                    value = line["mass_g" if unit == "g" else "volume_ml"]
                    self.book.figure(form, f"{name}, {line['name']}, {unit}", found[1], value, step=1 if value >= 100 else 0.5 if unit == "ml" and value >= 1 else None)
        self.allergens(form, name, self.notice(markdown), one)

    @staticmethod
    def days(words):
        number, unit = words.split()
        return int(number) * {"day": 1, "days": 1, "week": 7, "weeks": 7, "month": 30, "months": 30, "year": 365, "years": 365}[unit]

    def summaries(self, out):
        form = self.form("book, lists")
        shown = 0
        for name, rest in re.findall(r"^- \[(.+?)\]\(drinks/[^)]*\) · (.+)$", (out / "index.md").read_text(), re.MULTILINE):
            name = name.replace("\\", "")
            one, cells = self.drinks[name], plain(rest).split(" · ")
            shown += 1
            for cell in cells:
                if found := re.fullmatch(rf"({NUMBER}) %", cell):
                    self.book.figure(form, f"index, {name}, strength", found[1], one["served"]["abv_percent"])
        if not shown:
            self.book.tell(form, "index", "no drink", "all of them")
        for row in re.findall(r"^\| +\d+ \|(.+)\|$", (out / "balance.md").read_text(), re.MULTILINE):
            name, _, *cells = [plain(cell) for cell in row.split("|")]
            for key, cell in zip(("abv_percent", "sugar_g_per_100ml", "acid_g_per_100ml", "sugar_acid_ratio"), cells):
                if found := re.fullmatch(FIGURE, cell):
                    self.book.figure(form, f"balance, {name}, {key}", found[1], self.drinks[name]["served"][key])
        text = (out / "allergens.md").read_text()
        table = [[plain(cell) for cell in row.split("|")] for row in re.findall(r"^\|(.+)\|$", text.split("## By drink")[1].split("\n## ")[0], re.MULTILINE)]
        for row in table[2:]:
            one = self.drinks[row[0]]
            declared = {self.words(code).split(" ")[0] for code in one["allergens"]} | {code.split(":")[0] for code in one["allergens"]}
            possible = {self.words(code).split(" ")[0] for code in one["allergens_may"]} | {code.split(":")[0] for code in one["allergens_may"]}
            for head, cell in zip(table[0][1:], row[1:]):
                if cell in ("–", "may") or cell.startswith("may"):
                    self.book.exact(form, f"allergens, {row[0]}, {head}", head in declared, False)
                elif cell:
                    self.book.exact(form, f"allergens, {row[0]}, {head}", head in declared or "not known" in cell, True)
                if cell == "–":
                    self.book.exact(form, f"allergens, {row[0]}, may {head}", head in possible, False)
        for row in re.findall(r"^\|(.+)\|$", (out / "preps.md").read_text(), re.MULTILINE)[2:]:
            name, keeps = [plain(cell) for cell in row.split("|")][:2]
            if found := re.fullmatch(r"(\d+ \w+), (chilled|ambient|frozen)", keeps):
                self.book.exact(form, f"preps, {name}, keeps", (self.days(found[1]), found[2]), (self.preps[name]["keeps_days"], self.preps[name]["storage"]))
        for part in (out / "inspection.md").read_text().split("\n## ")[1:]:
            name = plain(part.split("\n", 1)[0])
            if name in self.preps and (found := re.search(rf"\*\*Strength:\*\* ({NUMBER}) % abv", part)):
                self.book.figure(form, f"inspection, {name}, strength", found[1], self.preps[name]["abv_percent"])
            if name in self.preps and (found := re.search(r"\*\*Keeps:\*\* (\d+ \w+)$", part, re.MULTILINE)):
                self.book.exact(form, f"inspection, {name}, keeps", self.days(found[1]), self.preps[name]["keeps_days"])

    # ---- print -------------------------------------------------------------------------------------------------------------------

    def walk_cards(self):
        form = self.form("cards")
        pages = self.gill.pdf("cards", self.folder).split("\f")
        by_name, name = {}, None
        for page in pages:
            lines = page.strip().splitlines()
            if lines:
                name = lines[0].strip() if lines[0].strip() in self.drinks else name
                by_name[name] = by_name.get(name, "") + page
        self.book.exact(form, "drinks with a card", sorted(by_name), sorted(self.live))
        self.cards = by_name
        for name, text in by_name.items():
            one = self.drinks[name]
            found = re.search(rf"({NUMBER}) % abv · ({NUMBER}) ml as served", text)
            self.book.figure(form, f"{name}, strength", found[1], one["served"]["abv_percent"])
            self.book.figure(form, f"{name}, volume", found[2], one["served"]["volume_ml"])
            box = re.search(r"^ *(Contains|May contain|Allergens) .*?(?=\n\n|\n *\d|\n *(?:Take care|Not known))", text, re.MULTILINE | re.DOTALL)
            self.allergens(form, name, re.sub(r"\s+", " ", box[0]).replace("Allergens none declared", "") if box else "", one)
            for line in one["ingredients"]:
                written = re.fullmatch(rf"({NUMBER}) ml", line["as_written"])
                if written and line["role"] == "amount":
                    self.book.exact(form, f"{name}, {line['name']}", bool(re.search(rf"(?<![\d.]){re.escape(written[1])}\s*ml\b[^\n]*{re.escape(line['name'].split()[0])}", text)), True)

    def walk_labels(self):
        form = self.form("labels")
        self.labels = {}
        # One label a page, so that each page is one thing.
        for page in self.gill.pdf("labels", self.folder, "--made", MADE, "--sheet", "120x80mm").split("\f"):
            text = re.sub(r"\s+", " ", page.replace("initials", "")).strip()
            name = next((name for name in sorted([*self.own, *(f"{one} house bottle" for one in self.bottles)], key=len, reverse=True) if text.startswith(f"{name} Made")), None)
            if name:
                self.labels[name] = text
        self.book.exact(form, "preps and bottles with a label", sorted(set(self.labels)), sorted([*self.own, *(f"{name} house bottle" for name in self.bottles)]))
        for name, text in self.labels.items():
            one = self.own.get(name)
            if not one:
                continue
            if found := re.search(r"keeps (\d+ \w+)", text):
                self.book.exact(form, f"{name}, keeps", self.days(found[1]), one["keeps_days"])
                due = season.day_after(MADE, one["keeps_days"])
                self.book.exact(form, f"{name}, use by", re.search(r"Use by ([\d-]+)", text)[1], due)
            if found := re.search(rf"({NUMBER}) (ml|l) a bottle, (\d+) a recipe", text):
                size = re.search(rf"bottle +({NUMBER}) ?(ml|l)", self.source_of(name))
                size, fill = (number(amount) * (1000 if unit == "l" else 1) for amount, unit in (size.groups(), found.groups()[:2]))
                self.book.exact(form, f"{name}, bottles of a recipe", int(found[3]) - ceil(one["yield_ml"] / size - 0.02) in (0, 1), True)
                self.book.exact(form, f"{name}, a bottle holds its fill", fill <= size and fill * int(found[3]) >= one["yield_ml"] - 5 * int(found[3]), True)
            if found := re.search(rf"({NUMBER}) % abv", text):
                self.book.figure(form, f"{name}, strength", found[1], one["abv_percent"])
            if found := re.search(rf"refractometer {FIGURE} brix", text):
                self.book.figure(form, f"{name}, refractometer", found[1], one["refractometer_brix"])
            if found := re.search(rf"100 ml weigh {FIGURE} g", text):
                self.book.figure(form, f"{name}, weight", found[1], one["weight_of_100ml_g"])
            self.allergens(form, name, " ".join(re.findall(r"(?:Contains|May contain) .*?(?= Check:| Chilled| Ambient| Frozen| May contain| Not known| initials|$)", text)), one)

    # ---- bottles -----------------------------------------------------------------------------------------------------------------

    def find_bottles(self):
        """Drinks poured from a house bottle: their text says so."""
        self.bottles = {}
        for path in sorted(pathlib.Path(self.scratch / self.folder).rglob("*.gill")):
            drink = None
            for line in path.read_text().splitlines():
                if line.startswith("drink "):
                    drink = line[6:].split(" like ")[0].split("#")[0].strip().strip('"')
                elif found := re.match(r"\s+batched\s+(.+?)(, with water)?, bottle (\d+) ml", line):
                    self.bottles[drink] = ([part.strip() for part in found[1].split(",")], bool(found[2]), int(found[3]))

    def walk_bottles(self):
        """Card, book, label, plan and batch say the same pour."""
        form = self.form("house bottles")
        plan = {one["name"]: one for one in self.plan["house_bottles"]}
        for name, (parts, watered, size) in self.bottles.items():
            batch = self.gill.json("batch", name, "--house", self.folder, "--bottle", f"{size}ml", *(["--diluted"] if watered else []))
            pour = batch["ml_a_serve"]
            page = self.pages_of(name)
            found = re.search(rf"One pour from the batch bottle of {size} ml: ({NUMBER}) ml", page)
            self.book.figure(form, f"{name}, book", found[1], pour, step=1)
            found = re.search(rf"({NUMBER})\s*ml\s[^\n]*One pour from the bottle", self.cards[name])
            self.book.figure(form, f"{name}, card", found[1], pour, step=1)
            self.book.figure(form, f"{name}, a bottle's serves", batch["serves"] * pour, size, step=1e-3)
            label = self.labels[f"{name} house bottle"]
            self.book.figure(form, f"{name}, label's strength", re.search(rf"({NUMBER}) % abv", label)[1], batch["abv_percent"])
            self.book.measure(form, f"{name}, label's fill", re.search(rf"abv · ({NUMBER} (?:ml|l))", label)[1], size)
            self.book.exact(form, f"{name}, label's keeping", int(re.search(r"keeps (\d+) ?d", label)[1]), batch["keeps_days"])
            self.book.exact(form, f"{name}, label's day", re.search(r"Use by ([\d-]+)", label)[1], season.day_after(MADE, batch["keeps_days"]))
            if name in plan:
                self.book.figure(form, f"{name}, plan", plan[name]["need_ml"], self.sold[name] * pour, step=1e-3)
                self.book.exact(form, f"{name}, plan's keeping", plan[name]["keeps_days"], batch["keeps_days"])
                self.book.exact(form, f"{name}, plan's bottles", plan[name]["bottles"], ceil(self.sold[name] * pour / size - 1e-9))

    def pages_of(self, name):
        return next(text for path in (self.scratch / f"book-{self.name}".replace(" ", "-") / "drinks").glob("*.md")
                    if (text := path.read_text()).split("\n", 1)[0][2:].replace("\\", "") == name)

    # ---- batches -----------------------------------------------------------------------------------------------------------------

    def walk_batches(self):
        form, many = self.form("batch"), 24
        def ask(at, name):
            """Each as JSON, and one in four as text, too: a house of sixty things is asked for one by one."""
            words = ["batch", name, "--house", self.folder, *(["--serves", many] if name in self.drinks else ["--volume", "3l"])]
            try:
                return name, self.gill.json(*words), self.gill(*words) if at % 4 == 0 else None
            except AssertionError as refused:
                return name, None, str(refused)
        names = [*self.live, *(name for name, one in self.own.items() if one.get("yield_count") is None)]
        for name, batch, text in map(ask, range(len(names)), names):
            if batch is None:
                # What goes flat or holds nothing that may stand is refused in words.
                self.book.exact(form, f"{name}, refused in words", bool(re.search(r"nothing of|takes a", text)), True)
                continue
            if name in self.drinks:
                self.batch_of_drink(form, name, many, batch, text or "")
            else:
                self.batch_of_prep(form, name, batch)
            if batch["bottles"]:
                held = sum(one.get("fill_ml", one["size_ml"]) * (one["count"] - 1) + one["last_ml"] for one in batch["bottles"])
                self.book.figure(form, f"{name}, the bottles hold the batch", held, batch["volume_ml"], step=1e-3)
            if not text:
                continue
            said = re.search(rf"({NUMBER}) % abv, ({NUMBER}) % w/v sugar, ({NUMBER}) % w/v acid", text)
            for key, printed in zip(("abv_percent", "sugar_g_per_100ml", "acid_g_per_100ml"), said.groups()):
                self.book.figure(form, f"{name}, {key}", printed, batch[key])
            self.book.figure(form, f"{name}, heading", re.search(rf", ({NUMBER}) ml$|: ({NUMBER}) ml$", text.split("\n", 1)[0]).group(1)
                             or re.search(rf": ({NUMBER}) ml$", text.split("\n", 1)[0])[1], batch["volume_ml"], step=5 if batch["volume_ml"] >= 1000 else 1)
            for line in batch["ingredients"]:
                if found := re.search(rf"^ *({NUMBER}) ml +{re.escape(line['name'])}$", text, re.MULTILINE):
                    value = line["volume_ml"]
                    self.book.figure(form, f"{name}, {line['name']}", found[1], value, step=5 if value >= 1000 else 1 if value >= 100 else 0.5 if value >= 1 else 0.05)
            if batch["keeps_days"] is not None and (found := re.search(r"Keep it (\w+) and closed, (\d+) days? at the most", text)):
                self.book.exact(form, f"{name}, keeps", (found[1], int(found[2])), (batch["storage"], batch["keeps_days"]))

    def batch_of_drink(self, form, name, many, batch, text):
        one, left = self.drinks[name], {}
        self.book.figure(form, f"{name}, as it is served", batch["served_abv_percent"], one["served"]["abv_percent"], step=1e-6)
        if found := re.search(rf"as it is served, ({NUMBER}) % abv", text):
            self.book.figure(form, f"{name}, as it is served, text", found[1], one["served"]["abv_percent"])
        self.book.figure(form, f"{name}, serves of the volume", batch["ml_a_serve"] * many, batch["volume_ml"], step=1e-3)
        if found := re.search(rf"Pour ({NUMBER}) ml a serve", text):
            self.book.figure(form, f"{name}, pour", found[1], batch["ml_a_serve"], step=1 if batch["ml_a_serve"] >= 100 else 0.5)
        in_it, left = collections.Counter(), collections.Counter()
        for line in batch["ingredients"]:
            in_it[line["name"]] += line["volume_ml"] or 0
        for line in batch["left_out"]:
            left[line["name"]] += (line["a_serve"] or {}).get("volume_ml") or 0
        wanted = collections.Counter()
        for line in one["ingredients"]:
            if line["role"] != "garnish" and line["volume_ml"] and not line["optional"]:
                wanted[line["name"]] += line["volume_ml"]
        for part, volume in wanted.items():
            if part in in_it and part not in left:
                self.book.figure(form, f"{name}, {part} of {many}", in_it[part], volume * many, step=max(1e-6, volume * many * 1e-6))
            elif part in left and part not in in_it:
                self.book.figure(form, f"{name}, {part} left out", left[part], volume, step=max(1e-6, volume * 1e-6))
        for line in batch["left_out"]:
            same = [each for each in one["ingredients"] if each["name"] == line["name"] and each["role"] == "garnish"]
            if len(same) == 1 and same[0]["count"] is not None and line["a_serve"]["count"] is not None:
                self.book.figure(form, f"{name}, {line['name']} a serve", line["a_serve"]["count"], same[0]["count"], step=1e-9)

    def batch_of_prep(self, form, name, batch):
        one = self.preps[name]
        for key in ("abv_percent", "sugar_g_per_100ml", "acid_g_per_100ml"):
            self.book.figure(form, f"{name}, {key}, as the prep's", batch[key], one[key], step=1e-6)
        self.book.exact(form, f"{name}, keeps as the prep", (batch["keeps_days"], batch["storage"]), (one["keeps_days"], one["storage"]))
        share = batch["volume_ml"] / one["yield_ml"]
        wanted, held = collections.Counter(), collections.Counter()
        for line in one["ingredients"]:
            wanted[line["name"]] += line["mass_g"] or 0
        for line in batch["ingredients"]:
            held[line["name"]] += line["mass_g"] or 0
        for part, grams in held.items():
            self.book.figure(form, f"{name}, {part}", grams, wanted[part] * share, step=max(1e-6, grams * 1e-6))
        self.book.exact(form, f"{name}, allergens", sorted(batch["allergens"]), sorted(one["allergens"]))

    # ---- the desk ----------------------------------------------------------------------------------------------------------------

    def walk_cost(self):
        form, text = self.form("cost"), self.gill("cost", self.folder)
        rows = {row["drink"]: row for row in csv.DictReader(io.StringIO(self.gill("cost", self.folder, "--as", "csv"))) if row.get("drink")}
        for name, one in self.cost.items():
            self.book.figure(form, f"{name}, cost in the facts", one["cost"], self.drinks[name]["cost"]["amount"], step=2e-6)
            found = re.search(rf"^{re.escape(name)} +({NUMBER}) +({NUMBER}) +(?:({NUMBER}) +({NUMBER}) +({NUMBER}) %(?: over)? +({NUMBER})|—.*?—) +({NUMBER}|—) ", text, re.MULTILINE)
            if not found:
                self.book.tell(form, name, "no row", "a row of the table")
                continue
            for key, at in (("cost", 1), ("price_with_tax", 3), ("price_without_tax", 4), ("pour_cost_percent", 5), ("margin", 6), ("price_for_target", 7)):
                if found[at] and found[at] != "—":
                    self.book.figure(form, f"{name}, {key}", found[at], one[key])
            row = rows[name]
            for key, column in (("cost", "cost"), ("price_with_tax", "price with tax"), ("price_without_tax", "price without tax"), ("pour_cost_percent", "pour cost %"),
                                ("margin", "margin"), ("price_for_target", "price for target")):
                if row[column]:
                    self.book.figure(self.form("cost csv"), f"{name}, {key}", row[column], one[key], step=1e-4 if "%" not in column else 1e-2)
            if one["price_without_tax"]:
                self.book.figure(form, f"{name}, pour cost of its price", one["pour_cost_percent"], one["cost"] / one["price_without_tax"] * 100, step=1e-5)
                self.book.figure(form, f"{name}, margin", one["margin"], one["price_without_tax"] - one["cost"], step=1e-6)
            if one["ingredients"] and not one["without_price"]:
                self.book.figure(form, f"{name}, the parts' money", sum(part["cost"] for part in one["ingredients"]), one["cost"], step=1e-6)
        for name, one in self.preps.items():
            if found := re.search(rf"^{re.escape(name)} +({NUMBER}) +({NUMBER}) a litre", text, re.MULTILINE):
                self.book.figure(form, f"{name}, a litre", found[2], one["cost_per_l"])
                self.book.figure(form, f"{name}, as written", found[1], one["cost_per_l"] * one["yield_ml"] / 1000)

    def walk_menu(self):
        form = self.form("menu")
        text = self.gill("menu", self.folder, "--menu", self.menu_name, "--as", "markdown")
        page = self.gill("menu", self.folder, "--menu", self.menu_name, "--as", "html")
        sheet = self.gill.pdf("menu", self.folder, "--menu", self.menu_name, "--as", "pdf").replace("\f", "\n")
        prices = {one["name"]: one["price"] for one in self.gill.json("cost", self.folder, "--menu", self.menu_name)["drinks"]}
        parts = {plain(part.split("\n", 1)[0]): part for part in re.split(r"^### ", text, flags=re.MULTILINE)[1:]}
        self.book.exact(form, "drinks on the menu", len(parts), len([name for name in prices if prices[name] is not None]))
        for head, part in parts.items():
            name, price = re.fullmatch(rf"(.+?) {PRICE}", head).groups()
            self.book.figure(form, f"{name}, price", price, prices[name])
            sentence = " ".join(re.findall(r"(?:Contains|May contain) \*\*.*", part))
            sentence = " ".join(re.findall(r"Contains .*?(?=May contain|\*\*Not all|$)|May contain .*?(?=\*\*Not all|$)", sentence))
            self.allergens(form, name, " ".join(re.findall(r"(?:Contains|May contain)|\*\*.+?\*\*", sentence)), self.drinks[name])
            found = re.search(rf">{re.escape(html.escape(name, quote=False))} <span class=\"number\">{PRICE}</span>", page.replace("&#39;", "'").replace("’", "’"))
            if found:
                self.book.figure(self.form("menu html"), f"{name}, price", found[1], prices[name])
            else:
                self.book.tell(self.form("menu html"), name, "no price", prices[name])
            found = re.search(rf"^ *{re.escape(name)} +{PRICE}$", sheet, re.MULTILINE)
            if found:
                self.book.figure(self.form("menu pdf"), f"{name}, price", found[1], prices[name])
            else:
                self.book.tell(self.form("menu pdf"), name, "no price", prices[name])

    def make_plan(self):
        words = ["prep", self.folder, "--menu", self.menu_name]
        self.plan = self.gill.json(*words)
        self.sold = {one["name"]: one["serves"] for one in self.plan["drinks"]}
        self.plan_markdown, self.plan_csv = self.gill(*words, "--as", "markdown"), self.gill(*words, "--as", "csv")
        self.plan_text, self.plan_html = self.gill(*words), self.gill(*words, "--as", "html")
        self.plan_sheet = self.gill.pdf(*words, "--as", "pdf")

    def walk_plan(self):
        form = self.form("plan")
        # What each prep is needed for: drinks sold, bottles filled, other preps made.
        need = collections.Counter()
        cut = collections.Counter()
        for name, serves in self.sold.items():
            poured_from_bottle = set(self.bottles.get(name, ((), 0, 0))[0])
            for line in self.drinks[name]["ingredients"]:
                if line["optional"]:
                    continue
                if line["name"] in self.preps and line["name"] not in poured_from_bottle:
                    need[line["name"]] += (line["mass_g"] or 0) * serves
                if line["role"] == "garnish" and line["count"] is not None:
                    cut[line["name"]] += line["count"] * serves
        for name, bottle in ((one["name"], one) for one in self.plan["house_bottles"]):
            batch = self.gill.json("batch", name, "--house", self.folder, "--volume", f"{round(bottle['make_ml'], 6)}ml", *(["--diluted"] if self.bottles[name][1] else []))
            for line in batch["ingredients"]:
                if line["name"] in self.preps:
                    need[line["name"]] += line["mass_g"]
        made = {one["name"]: one for one in self.plan["preps"]}
        for name, one in made.items():
            for line in self.preps[name]["ingredients"]:
                if line["name"] in self.preps:
                    need[line["name"]] += line["mass_g"] * one["make_g"] / self.preps[name]["yield_g"]
        self.book.exact(form, "preps that are made", sorted(made), sorted(name for name in need if need[name]))
        table = {row["what"]: row for row in self.table("What to make")}
        in_csv = {row["name"]: row for row in csv.DictReader(io.StringIO(self.plan_csv)) if row["list"] == "make"}
        for name, one in made.items():
            fact = self.preps[name]
            self.book.figure(form, f"{name}, needed", one["need_g"], need[name], step=max(1e-3, need[name] * 1e-5))
            self.book.exact(form, f"{name}, keeps", one["keeps_days"], fact["keeps_days"]) if fact["keeps_days"] and re.search(r"keeps", self.source_of(name)) else None
            if one["make_ml"] is not None:
                self.book.figure(form, f"{name}, made in ml and g", one["make_ml"] * fact["density_g_per_ml"], one["make_g"], step=max(1e-3, one["make_g"] * 1e-5))
            kind = "count" if one["make_count"] is not None else "ml" if fact["cost_per_l"] is not None and not re.search(r" k?g$", table[name]["make"]) else "g"
            self.book.measure(form, f"{name}, make", table[name]["make"], one[f"make_{kind}"])
            self.book.measure(form, f"{name}, needed in print", table[name]["needed"], one[f"need_{kind}"])
            for key in ("need", "make"):
                for unit in ("ml", "g", "count"):
                    if (said := in_csv[name][f"{key} {unit}"]) and one[f"{key}_{unit}"] is not None:
                        self.book.figure(self.form("plan csv"), f"{name}, {key} {unit}", said, one[f"{key}_{unit}"], step=0.01)
            # The day on the plan is the day on the label: the whole days that it keeps, from the day on which it is ready.
            if (used := table[name].get("use by")) and used != "not stated":
                ready = datetime.datetime.strptime(f"{table[name]['ready']} {MADE[:4]}", "%a %d %b %Y")
                due = ready + datetime.timedelta(days=fact["keeps_days"])
                self.book.exact(form, f"{name}, use by", used, f"{due:%a} {due.day} {due:%b}")
            if found := re.fullmatch(rf"(\d+) × ({NUMBER}) (ml|l)", table[name].get("bottles", "")):
                size = number(found[2]) * (1000 if found[3] == "l" else 1)
                self.book.exact(form, f"{name}, bottles", int(found[1]), sum(ceil(make["make_ml"] / size - 1e-9) for make in one["makes"]))
                if sized := re.search(rf"bottle +({NUMBER}) ?(ml|l)", self.source_of(name)):
                    self.book.exact(form, f"{name}, bottle", size, number(sized[1]) * (1000 if sized[2] == "l" else 1))
        # Garnishes: the stations' lists together are what the drinks say.
        setup = collections.Counter()
        for row in csv.DictReader(io.StringIO(self.plan_csv)):
            if row["list"] == "set up" and row["need count"]:
                setup[row["name"]] += float(row["need count"])
        for name, count in cut.items():
            if name in setup and not any(line["name"] == name and line["role"] != "garnish" for one in self.sold for line in self.drinks[one]["ingredients"]):
                self.book.figure(form, f"{name}, cut", setup[name], count, step=0.02)
        # Shopping: packs times their price, and all of it together.
        bought = [row for row in csv.DictReader(io.StringIO(self.plan_csv)) if row["list"] == "buy"]
        money = collections.Counter()
        for one in self.plan["shopping"]:
            if one["cost"] is not None:
                self.book.figure(form, f"{one['name']}, the packs' money", sum(pack["cost"] for pack in one["packs"]), one["cost"], step=1e-6)
        for row in bought:
            money[row["name"]] += float(row["cost"] or 0)
        for one in self.plan["shopping"]:
            if one["cost"] is not None:
                self.book.figure(self.form("plan csv"), f"{one['name']}, money", money[one["name"]], one["cost"], step=0.02)
        self.book.figure(form, "shopping together", self.plan["cost"]["amount"], sum(one["cost"] for one in self.plan["shopping"] if one["cost"] is not None), step=1e-6)
        self.book.figure(form, "shopping in print", re.search(rf"All together ({NUMBER}) {self.currency}", self.plan_text)[1], self.plan["cost"]["amount"])
        for name in self.bottles:
            if name in self.sold and not table.get(f"{name}, house bottle"):
                self.book.tell(form, f"{name}, house bottle", "no row", "a row")
        # Text, HTML and Markdown say the same rows; the sheet for the wall has the name and what is made of it on one line.
        flat_text = re.sub(r"[ ☐]+", "", self.plan_text)
        flat_sheet = [re.sub(r"[\s☐]+", "", line) for line in self.plan_sheet.splitlines()]
        flat_html = {re.sub(r"[\s☐]+", "", untag(row)) for row in re.findall(r"<tr>(.*?)</tr>", self.plan_html, re.DOTALL)}
        for title in ("What to make", "Shopping"):
            for row in self.table(title):
                cells = list(row.values())[1:]
                flat = re.sub(r"[\s☐]+", "", "".join(cells))
                self.book.exact(self.form("plan html"), f"{title}, {row['what']}", flat in flat_html, True)
                if title == "What to make":
                    self.book.exact(self.form("plan text"), row["what"], flat in flat_text, True)
        for name, row in table.items():
            begins = re.sub(r"\s", "", f"{name}{row['needed']}{row.get('on hand', '')}{row['make']}{row.get('bottles', '')}")
            self.book.exact(self.form("plan pdf"), f"{name}, make", any(line.startswith(begins) for line in flat_sheet), True)

    def table(self, title):
        """The rows of the tables below a heading, each by the titles of its own table."""
        part = self.plan_markdown.split(f"## {title}\n", 1)[1].split("\n## ", 1)[0]
        rows, head = [], None
        for row in re.findall(r"^\|(.+)\|$|^$", part, re.MULTILINE):
            cells = [plain(cell) for cell in row.split("|")]
            if not row:
                head = None
            elif head is None:
                head = cells
            elif not re.fullmatch(r"[-:]+", cells[1]):
                rows.append(dict(zip(head, cells)))
        return rows

    def source_of(self, name):
        """The lines of a prep as they are written."""
        one = self.preps[name]
        path = pathlib.Path(self.scratch / self.folder) / one["file"]
        if not path.is_file():
            return ""
        lines = path.read_text().splitlines()[one["line"]:]
        end = next((at for at, line in enumerate(lines) if line and not line[0].isspace() and line[0] not in "#|"), len(lines))
        return "\n".join(line.split("#")[0] for line in lines[:end])

    def walk_stock(self):
        """One bottle of each prep is counted: it is worth what a litre costs."""
        form, rows = self.form("stock"), ["name,amount,unit"]
        counted = {name: 700 for name, one in self.own.items() if one.get("yield_count") is None and one["cost_per_l"] is not None and not re.search(r"^\s+form\b", self.source_of(name), re.MULTILINE)}
        rows += [f'"{name}",{amount},ml' for name, amount in counted.items()]
        (self.scratch / "count.csv").write_text("\n".join(rows) + "\n")
        report = self.gill.json("stock", self.folder, "--count", "count.csv")
        lines = {one["name"]: one for one in report["lines"] if one["value"] is not None}
        table = self.gill("stock", self.folder, "--count", "count.csv")
        for name, amount in counted.items():
            self.book.figure(form, f"{name}, worth", lines[name]["value"] if name in lines else 0.0, amount / 1000 * self.preps[name]["cost_per_l"], step=2e-5)
            self.book.figure(form, f"{name}, weight", lines[name]["counted"]["g"], amount * self.preps[name]["density_g_per_ml"], step=1e-5)
            found = re.search(rf"{re.escape(name)} +.*?700 ml +({NUMBER}) {self.currency}$", table, re.MULTILINE)
            if found:
                self.book.figure(form, f"{name}, worth in print", found[1], lines[name]["value"])
            else:
                self.book.tell(form, f"{name}, worth in print", "nothing", lines[name]["value"])
        self.book.figure(form, "worth together", report["value"], sum(one["value"] for one in lines.values()), step=1e-5)
        self.sales_use_what_they_cost(form)

    def sales_use_what_they_cost(self, form):
        """Ten of each drink of the menu are sold, and nothing is missing from a full store: what should have been used is what the
        facts say is poured, and worth what the costs say. Fruit is left aside: its juice, peel and flesh come from one piece."""
        rows = ["drink,portions"] + [f'"{name}",10' for name in self.sold]
        (self.scratch / "sold.csv").write_text("\n".join(rows) + "\n")
        raw = {one["name"]: one for one in self.facts["ingredients"]}
        parts_of_preps = {line["name"] for one in self.preps.values() for line in one["ingredients"]}
        poured, otherwise, worth = collections.Counter(), set(), collections.Counter()
        for name in self.sold:
            for line in self.drinks[name]["ingredients"]:
                if line["role"] not in ("amount", "top", "float", "layer") or line["count"] is not None:
                    otherwise.add(line["name"])
                elif not line["optional"]:
                    poured[line["name"]] += 10 * (line["volume_ml"] or 0)
            for part in self.cost[name]["ingredients"]:
                worth[part["name"]] += 10 * part["cost"]
        (self.scratch / "store.csv").write_text("\n".join(["name,amount,unit"] + [f'"{name}",500000,g' for name in raw if name != "water"]) + "\n")
        report = self.gill.json("stock", self.folder, "--opening", "store.csv", "--count", "store.csv", "--sales", "sold.csv")
        used = {one["name"]: one for one in report["usage"]}
        for name, volume in poured.items():
            if name in used and volume and name not in parts_of_preps and name not in otherwise:
                self.book.figure(form, f"{name}, should be used", used[name]["should"]["ml"], volume, step=max(1e-3, volume * 1e-4))
        for name, one in used.items():
            if raw[name]["kind"] != "fruit" and one["difference_value"] is not None:
                self.book.figure(form, f"{name}, worth of what should be used", -one["difference_value"], worth[name], step=max(1e-3, worth[name] * 1e-4))

    def walk_diff(self):
        """Both sides of a comparison are what the facts of either house say."""
        if not self.old:
            return
        form = self.form("diff")
        sides = [{one["name"]: one for one in self.gill.json("facts", side)["drinks"]} for side in (self.old, self.folder)]
        preps = [{one["name"]: one for one in self.gill.json("facts", side)["preps"]} for side in (self.old, self.folder)]
        told = self.gill.json("diff", self.old, self.folder)
        for one in told["drinks"]:
            if one["change"] in ("added", "removed"):
                continue
            both = (sides[0][one["was"] or one["name"]], sides[1][one["name"]])
            for at, side in enumerate(both):
                flat = {**side, **side["served"]}
                for key, pair in one["facts"].items():
                    if key in flat and not isinstance(flat[key], dict):
                        self.book.exact(form, f"{one['name']}, {key}", pair[at] if pair[at] is None else float(pair[at]), flat[key] if flat[key] is None else float(flat[key]))
                self.book.figure(form, f"{one['name']}, cost", one["cost"][at], side["cost"]["amount"], step=2e-6)
            if "price" in one["facts"] and one["facts"]["price"][1] is not None:
                self.book.exact(form, f"{one['name']}, price", float(one["facts"]["price"][1]), float(self.cost[one["name"]]["price"]))
                self.book.figure(form, f"{one['name']}, pour cost", one["facts"]["pour_cost_percent"][1], self.cost[one["name"]]["pour_cost_percent"], step=1e-6)
        for one in told["preps"]:
            for at in (0, 1):
                side = preps[at].get(one["name"])
                for key, pair in one["facts"].items():
                    if side and key in side:
                        self.book.exact(form, f"{one['name']}, {key}", pair[at] if pair[at] is None else float(pair[at]), side[key] if side[key] is None else float(side[key]))

    def walk(self):
        self.find_bottles()
        self.walk_facts_text()
        self.walk_facts_csv()
        self.walk_book()
        self.walk_cards()
        self.walk_labels()
        self.make_plan()
        self.walk_bottles()
        self.walk_batches()
        self.walk_cost()
        self.walk_menu()
        self.walk_plan()
        self.walk_stock()
        self.walk_diff()


def walk(name, folder, old):
    """A house of its own scratch folder; two are walked side by side."""
    ledger = Ledger()
    with tempfile.TemporaryDirectory() as scratch:
        scratch = pathlib.Path(scratch)
        season.lay_out(scratch / "winter")
        season.lay_out(scratch / "spring", spring=True)
        shutil.copytree(PROJECT / "specs", scratch / "specs")
        House(name, folder, scratch, ledger, "Spring 2026", old).walk()
    return ledger


def main():
    houses = [one for one in (("demo house", "specs", None), ("season", "spring", "winter")) if not ONLY or one[0] in ONLY]
    with concurrent.futures.ThreadPoolExecutor(2) as pool:
        ledgers = list(pool.map(lambda one: walk(*one), houses))
    compared = sum((ledger.compared for ledger in ledgers), collections.Counter())
    wrong = [line for ledger in ledgers for line in ledger.wrong]
    for form, count in sorted(compared.items()):
        if VERBOSE:
            print(f"{count:6} {form}")
    print("\n".join(wrong[:80]), end="\n" if wrong else "")
    print(f"{compared.total()} figures compared in {len(compared)} outputs, {len(wrong)} disagree")
    # A walk that finds nothing to compare has failed as well.
    return 1 if wrong or compared.total() < FEWEST * len(houses) else 0


if __name__ == "__main__":
    sys.exit(main())
