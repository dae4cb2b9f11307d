#!/usr/bin/env python3
"""A season is lived with the program as a bar manager lives it, under real git, and what the manager would add up on paper is added
up here, from the texts of tests/season/house, in exact fractions and by other means than the program's.

    season_test.py GILL PROJECT

Every figure is arithmetic by hand on what the house's texts and CSV files say (no source is needed for a sum); what the trade does
(a recipe is made whole, fruit is juiced whole, packs are bought whole) is common practice, no source. Where a weight per millilitre is
needed, it is what the program states of that thing (`density_g_per_ml`), since a manager reads it there, too."""

import csv
import datetime
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest
from fractions import Fraction as F
from math import ceil

import season

GILL = sys.argv[1]
TAX = F(123, 100)  # house.gill: tax 23 % included
GBP = F(117, 100)  # house.gill: rate 1 GBP = 1.17 EUR
DASH = F(8, 10)  # house.gill: unit dash = 0.8 ml
OUNCE = F(30)  # house.gill: ounce 30 ml
# What one lemon, lime or orange of the standard library gives: stdlib/ingredients/fruits.gill, `gives` and `each`.
LEMON = {"each": F(120), "juice": F(45), "peel": F(9), "twist": F(3), "strip": F(4), "wheel": F(8), "slice": F(6), "wedge": F(7)}


def read_house(folder):
    """Prices (EUR a ml, g or piece), declarations with their lines, and menus, read from the text without the program."""
    prices, dates, declared, menus, kind, name = {}, {}, {}, {}, None, None
    for path in sorted(folder.rglob("*.gill")):
        for line in path.read_text().splitlines():
            words = line.split("#")[0].rstrip()
            if not words.strip() or words.lstrip().startswith("|"):
                continue
            if not line.startswith(" "):
                kind, name = words.split(" ", 1)
                name = name.split(" like ")[0]
                if kind in ("drink", "prep"):
                    declared[name] = []
                continue
            words = words.strip()
            if kind in ("drink", "prep"):
                declared[name].append(words)
            elif kind == "prices" and words.startswith("from "):
                listed = words[5:]
            elif kind == "prices":
                goods, many, size, unit, money, currency = re.fullmatch(
                    r"(.+?) +(?:(\d+) x )?(\d+) ?(ml|l|g|kg|)? *for ([\d.]+) (EUR|GBP)", words).groups()
                amount = F(many or 1) * F(size) * {"l": 1000, "kg": 1000}.get(unit, 1)
                if dates.get(goods, "") < listed:
                    prices[goods], dates[goods] = F(money) * (GBP if currency == "GBP" else 1) / amount, listed
            elif kind == "menu" and (sold := re.fullmatch(r"(.+?) +at ([\d.]+) EUR, sells (\d+)(?:, Fri \d+)?(?:, Sat \d+)?", words)):
                menus.setdefault(name, {})[sold[1]] = (F(sold[2]), int(sold[3]))
    return prices, declared, menus


def millilitres(lines, size=None):
    """The poured parts of a drink, in ml: ounces, dashes and parts worked out, garnishes and steps left out."""
    poured, parts = {}, {}
    for line in lines:
        found = re.fullmatch(r"(?:top +|layer +)?([\d./]+) ?(ml|oz|l|dash|dashes|part|parts)(?: = [\d.]+ ml)? +(.+?)(?:, chilled|, frozen|, hot)?", line)
        if found:
            number, unit, goods = F(found[1]), found[2], found[3]
            if unit.startswith("part"):
                parts[goods] = number
                continue
            poured[goods] = poured.get(goods, 0) + number * {"ml": 1, "l": 1000, "oz": OUNCE}.get(unit, DASH)
        elif line.startswith("size "):
            size = F(line.split()[1])
    for goods, share in parts.items():
        poured[goods] = share * size / sum(parts.values())
    return poured


class Season(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.scratch = tempfile.TemporaryDirectory()
        cls.top = pathlib.Path(cls.scratch.name)
        cls.bar = season.lay_out(cls.top / "bar")
        cls.winter = season.lay_out(cls.top / "winter")
        cls.spring = season.lay_out(cls.top / "spring", spring=True)
        cls.gill = season.Gill(GILL, cls.top)
        cls.git("init", "-q", "-b", "main")
        cls.git("add", "-A")
        cls.git("commit", "-q", "-m", "Winter")
        season.turn_to_spring(cls.bar)
        cls.git("add", "-A")
        cls.git("commit", "-q", "-m", "Spring")
        cls.prices, cls.declared, cls.menus = read_house(cls.winter)
        cls.facts = cls.gill.json("facts", "winter")
        cls.drinks = {one["name"]: one for one in cls.facts["drinks"]}
        cls.preps = {one["name"]: one for one in cls.facts["preps"]}

    @classmethod
    def tearDownClass(cls):
        cls.scratch.cleanup()

    @classmethod
    def git(cls, *words):
        return subprocess.run(["git", "-C", cls.bar, "-c", "user.name=Odile Farran", "-c", "user.email=odile@forme.example", *words],
                              capture_output=True, text=True, check=True).stdout

    def near(self, got, wanted, why, share=F(1, 10**6)):
        self.assertIsNotNone(got, why)
        self.assertLessEqual(abs(F(got) - wanted), max(abs(wanted) * share, F(1, 10**7)), f"{why}: {float(got)}, by hand {float(wanted)}")

    # What a prep costs a millilitre (or a gram): what went in over what comes out, each part priced the same way.

    def cost_of_preps(self):
        price = self.prices
        juice = price["lemon"] / LEMON["juice"]
        oleo = 10 * price["lemon"] + 400 * price["white sugar"]  # 90 g of peel are ten lemons'; 490 g come of it
        blend = (750 * price["Ponente rosso"] + 250 * price["Rubrica bitter"]) / 1000  # two liquids, poured together
        sherbet = (oleo + 300 * juice) / 540  # makes 540 ml
        tea = 20 * price["black tea leaves"] / 950  # makes 950 ml
        return {
            "vermouth blend": blend,
            "lemon sherbet": sherbet,
            "press tea": tea,
            "coconut rum": (700 * price["Brayer rum"] + 120 * price["coconut oil"]) / 650,
            "raspberry vinegar syrup": (500 * price["raspberry"] + 400 * price["white sugar"] + 250 * price["cider vinegar"]) / 800,
            "proof punch": (600 * price["dairy milk"] + 1200 * price["Brayer rum"] + 400 * price["Makeready cognac"] + 500 * sherbet
                            + 300 * juice + 900 * tea) / 3400,
        }

    def test_both_seasons_check_without_an_error(self):
        for folder, drinks in (("winter", 40), ("spring", 41)):
            self.assertIn(f"Read {drinks} drinks, 21 preps", self.gill("check", folder))
            self.assertEqual([one for one in self.gill.json("check", folder)["findings"] if one["severity"] == "error"], [])

    def test_preps_three_levels_deep_cost_what_they_cost_on_paper(self):
        for name, cost in self.cost_of_preps().items():
            # The blend's two liquids shrink by a hair when they meet, which paper does not know.
            self.near(self.preps[name]["cost_per_l"], cost * 1000, name, F(1, 10**3) if name == "vermouth blend" else F(1, 10**6))

    def test_drinks_cost_what_they_cost_on_paper(self):
        cost = dict(self.cost_of_preps())
        rate = lambda goods: cost.get(goods, self.prices.get(goods))
        by_name = {one["name"]: one for one in self.gill.json("cost", "winter")["drinks"]}
        compared = 0
        for name in ("Em Dash", "Forme", "Black Letter", "Chase", "Clean Proof", "Leading", "Kern", "Rag Right", "Colophon", "Duotone", "Blank Leaf"):
            lines = {one["name"]: one for one in self.drinks[name]["ingredients"]}
            poured = millilitres(self.declared[name])
            self.assertEqual(set(poured), {one for one in lines if lines[one]["role"] != "garnish"}, name)
            for goods, amount in poured.items():
                self.near(lines[goods]["volume_ml"], amount, f"{goods} in {name}")
                self.near(lines[goods]["cost"], amount * rate(goods), f"cost of {goods} in {name}", F(1, 10**3))
                compared += 2
            liquids = sum(amount * rate(goods) for goods, amount in poured.items())
            garnishes = sum(F(one["cost"]) for one in self.drinks[name]["ingredients"] if one["role"] == "garnish")
            price = self.menus["Winter 2026"][name][0]
            self.near(by_name[name]["cost"], liquids + garnishes, f"cost of {name}", F(1, 10**3))
            self.near(by_name[name]["pour_cost_percent"], F(by_name[name]["cost"]) / (price / TAX) * 100, f"pour cost of {name}")
            self.near(by_name[name]["margin"], price / TAX - F(by_name[name]["cost"]), f"margin of {name}")
            # House's target 24 %, rounded up to half a euro, tax on top.
            self.near(by_name[name]["price_for_target"], F(ceil(F(by_name[name]["cost"]) / F(24, 100) * TAX * 2), 2), f"price of {name}")
            compared += 4
        self.assertGreater(compared, 100)

    def test_a_week_is_five_days_and_a_friday_and_a_saturday(self):
        portions, costs, takings = 0, F(0), F(0)
        for line in (self.winter / "menu_winter.gill").read_text().splitlines():
            if found := re.fullmatch(r"    (.+?) +at ([\d.]+) EUR, sells (\d+)(?:, Fri (\d+))?(?:, Sat (\d+))?", line):
                name, price, usual, friday, saturday = found.groups()
                week = 5 * int(usual) + int(friday or usual) + int(saturday or usual)
                portions += week
                costs += week * F(self.drinks[name]["cost"]["amount"])
                takings += week * F(price) / TAX
        text = self.gill("cost", "winter")
        self.assertIn(f"Winter 2026: a week of {portions} portions", text)
        said = re.search(r"Costs ([\d.]+) EUR of ([\d.]+) EUR without tax: pour cost ([\d.]+) %, margin ([\d.]+) EUR, ([\d.]+) EUR a portion", text).groups()
        for printed, value in zip(said, (costs, takings, costs / takings * 100, takings - costs, (takings - costs) / portions)):
            self.assertLessEqual(abs(F(printed) - value), F(1, 10 ** len(printed.split(".")[1])) / 2 + F(1, 10**6), printed)

    def test_a_bowl_costs_an_eighth_a_cup(self):
        cost = self.cost_of_preps()
        bowl = self.drinks["The Chapel"]
        whole = {"Brayer rum": 320 * self.prices["Brayer rum"], "Makeready cognac": 80 * self.prices["Makeready cognac"],
                 "lemon sherbet": 240 * cost["lemon sherbet"], "lemon juice": 60 * self.prices["lemon"] / LEMON["juice"],
                 "press tea": 480 * cost["press tea"], "lemon wheel": 8 * LEMON["wheel"] / LEMON["each"] * self.prices["lemon"],
                 "nutmeg pinch": F(bowl["whole"]["ingredients"][-1]["mass_g"]) * self.prices["nutmeg"]}
        for line, of_all in zip(bowl["ingredients"], bowl["whole"]["ingredients"], strict=True):
            self.near(of_all["cost"], whole[line["name"]], f"{line['name']} in the bowl")
            self.near(line["cost"], whole[line["name"]] / 8, f"{line['name']} in a cup")
        self.near(bowl["cost"]["amount"], sum(whole.values()) / 8, "a cup")
        self.near(bowl["whole"]["cost"]["amount"], sum(whole.values()), "the bowl")

    def test_batches_hold_what_is_multiplied_on_paper(self):
        for name in ("Black Letter", "Em Dash", "Serif", "Leading", "Duotone"):
            batch = self.gill.json("batch", name, "--house", "winter", "--serves", 24)
            held = {one["name"]: one["volume_ml"] for one in batch["ingredients"]}
            poured = {goods: amount for goods, amount in millilitres(self.declared[name]).items() if goods in held}
            self.assertEqual(set(held), set(poured), name)
            for goods, amount in poured.items():
                self.near(held[goods], 24 * amount, f"{goods} in 24 of {name}")
        # The recipe makes 3.4 l; 5.1 l are one and a half of it.
        punch = {one["name"]: one["volume_ml"] for one in self.gill.json("batch", "proof punch", "--house", "winter", "--volume", "5.1l")["ingredients"]}
        self.assertEqual({name: round(amount, 6) for name, amount in punch.items()},
                         {"dairy milk": 900, "Brayer rum": 1800, "Makeready cognac": 600, "lemon sherbet": 750, "lemon juice": 450, "press tea": 1350})

    def test_the_plan_of_a_thursday_is_what_three_levels_ask_for(self):
        """8 January 2026 is a Thursday; the menu's own numbers hold. Whole recipes; par where a prep states one."""
        sold = {name: count for name, (_, count) in self.menus["Winter 2026"].items()}
        plan = self.gill.json("prep", "winter")
        self.assertEqual({one["name"]: one["serves"] for one in plan["drinks"]}, sold)
        made = {one["name"]: one for one in plan["preps"]}
        # The punch: 90 ml a pour, par 3 l, a recipe of 3.4 l. It takes 500 ml of sherbet and 900 ml of tea.
        self.near(made["proof punch"]["need_ml"], F(90 * sold["Clean Proof"]), "punch needed")
        self.near(made["proof punch"]["make_ml"], F(3400), "punch made")
        # A bowl of eight for eight cups, River's 25 ml, and the punch; 540 ml a recipe.
        sherbet = F(240) * sold["The Chapel"] / 8 + 25 * sold["River"] + 500
        self.near(made["lemon sherbet"]["need_ml"], sherbet, "sherbet needed")
        self.near(made["lemon sherbet"]["make_ml"], 540 * F(ceil(sherbet / 540)), "sherbet made")
        # 490 g of oleo to each recipe of sherbet, and it comes 490 g a recipe.
        self.near(made["lemon oleo"]["need_g"], 490 * F(ceil(sherbet / 540)), "oleo needed")
        self.near(made["lemon oleo"]["make_g"], 490 * F(ceil(sherbet / 540)), "oleo made")
        tea = F(900) + 480 * F(sold["The Chapel"], 8) + 480 * F(sold["Devil's Bowl"], 6)
        self.near(made["press tea"]["need_ml"], tea, "tea needed")
        self.near(made["press tea"]["make_ml"], 950 * F(ceil(tea / 950)), "tea made")
        order = [one["name"] for one in plan["preps"]]
        self.assertLess(order.index("lemon oleo"), order.index("lemon sherbet"))
        self.assertLess(order.index("lemon sherbet"), order.index("proof punch"))
        begun = {name: min(work["from_h"] for make in made[name]["makes"] for work in make["work"]) for name in order}
        self.assertLess(begun["lemon oleo"] + 12, begun["lemon sherbet"] + 1)  # the peel rests twelve hours
        pressed = {one["name"]: one for one in plan["pressed"]}
        juice = 25 * sold["Brevier"] + F(45, 2) * (sold["Minion"] + sold["Bourgeois"] + sold["Ligature"]) + 15 * (sold["Long Primer"] + sold["Hot Metal"])
        juice += 10 * (sold["River"] + sold["Inkball"] + sold["Mackle"]) + 60 * F(sold["The Chapel"], 8)
        prepared = 300 * F(ceil(sherbet / 540)) + 300
        self.near(pressed["lemon juice"]["need_ml"], juice + prepared, "lemon juice")
        self.near(pressed["lemon juice"]["fruit_count"], (juice + prepared) / LEMON["juice"], "lemons pressed")
        # Lemons: pressed on two days, each a whole number; six for the rings; the cut ones by weight. The pressed ones' peel is enough
        # for oleo, peels and twists (311 g of 459 g).
        cut = LEMON["wheel"] * (sold["Type Metal"] + sold["Hot Metal"] + sold["The Chapel"]) + LEMON["slice"] * (sold["River"] + sold["Blank Leaf"])
        cut += LEMON["wedge"] * sold["Inkball"]
        lemons = {one["name"]: one for one in plan["shopping"]}["lemon"]
        self.assertEqual(lemons["need_count"], ceil(ceil(prepared / LEMON["juice"]) + ceil(juice / LEMON["juice"]) + 6 + cut / LEMON["each"]))

    def test_shopping_buys_whole_packs_and_adds_up(self):
        sold = {name: count for name, (_, count) in self.menus["Winter 2026"].items()}
        plan = self.gill.json("prep", "winter")
        bought = {one["name"]: one for one in plan["shopping"]}
        poured = {name: F(0) for name in self.prices}
        for drink, count in sold.items():
            if drink in ("Chase", "Forme"):  # made as bottles, below
                continue
            for goods, amount in millilitres(self.declared[drink]).items():
                if goods in poured:
                    poured[goods] += amount * count / self.drinks[drink]["serves"]
        # `like`s, which the reader above leaves alone: the swaps of their texts.
        poured["Brayer rum"] += 60 * sold["Drop Cap"]
        poured["Makeready cognac"] += 45 * sold["Type Metal"]
        # Preps are made by the recipe: one of each, two of the blend (a litre is needed over its par).
        poured["Platen gin"] += 1000
        poured["Brayer rum"] += 1200 + 700
        poured["Makeready cognac"] += 400
        # Bottles: Chase, 10.02 pours of 75 ml shrink into 750 ml; what the program states of one is taken.
        chase = self.gill.json("batch", "Chase", "--house", "winter", "--bottle", "750ml")
        poured["Makeready cognac"] += F({one["name"]: one["volume_ml"] for one in chase["ingredients"]}["Makeready cognac"])
        for goods, pack, price in (("Platen gin", 700, F("17.5")), ("Brayer rum", 700, F("19.6")), ("Makeready cognac", 700, F(28)),
                                   ("Sallow Bank brut", 4500, F("58.5")), ("tomato juice", 1000, F(2)), ("Weir House tonic", 4800, F("14.4"))):
            row = bought[goods]
            self.near(row["need_ml"], poured[goods], f"{goods} needed", F(1, 10**4))
            packs = ceil(poured[goods] / pack)
            self.assertEqual([one["count"] for one in row["packs"]], [packs], goods)
            self.near(row["cost"], packs * price, f"money for {goods}")
        self.near(plan["cost"]["amount"], sum(F(one["cost"]) for one in plan["shopping"]), "all the shopping")
        self.assertIn(f"All together {plan['cost']['amount']:.2f} EUR", self.gill("prep", "winter"))

    def desk(self, name):
        with open(self.winter / "desk" / f"{name}.csv", encoding="utf-8", newline="") as file:
            return list(csv.DictReader(file))

    def test_variance_is_opening_and_received_less_count_against_sales(self):
        sold = {row["drink"]: int(row["portions"]) for row in self.desk("sales")}
        bottle = {"Ponente rosso": 750, "aromatic bitters": 200, "white sugar": 1000, "lemon": 1}
        def counted(name):
            """In ml, g or pieces, the parts of the counted blend among them (it is 3 : 1)."""
            held = {}
            for row in self.desk(name):
                size = {"bottles": bottle.get(row["name"], 700), "kg": 1000, "l": 1000, "ml": 1, "": 1}[row["unit"]]
                held[row["name"]] = held.get(row["name"], 0) + F(row["amount"]) * size
            blend = held.pop("vermouth blend", 0)
            for goods, share in (("Ponente rosso", F(3, 4)), ("Rubrica bitter", F(1, 4))):
                if goods in held:
                    held[goods] += blend * share
            return held
        opening, received, now = counted("opening"), counted("received"), counted("count")
        blend = 25 * sold["Black Letter"] + 20 * sold["Chase"]
        should = {
            "Tympan rye": F(50 * sold["Black Letter"] + 30 * sold["Chase"]),
            "Bodkin bourbon": F(60 * sold["Serif"] + 35 * sold["Forme"] + 50 * sold["Brevier"]),
            "Platen gin": F(2 * OUNCE * sold["Minion"] + 50 * sold["Leading"]),
            "Brayer rum": F(320, 8) * sold["The Chapel"],
            "Makeready cognac": F(20 * sold["Chase"] + 45 * sold["Bourgeois"]) + F(80, 8) * sold["The Chapel"],
            "Ponente rosso": F(25 * sold["Forme"]) + blend * F(3, 4),
            "Rubrica bitter": F(25 * sold["Forme"]) + blend * F(1, 4),
            "aromatic bitters": DASH * (2 * sold["Black Letter"] + 3 * sold["Serif"] + sold["Forme"] + 3 * sold["Brevier"]),
        }
        words = [word for name in ("opening", "count", "received", "sales") for word in (f"--{name}", f"winter/desk/{name}.csv")]
        report = self.gill.json("stock", "winter", *words)
        usage = {one["name"]: one for one in report["usage"]}
        for goods, amount in should.items():
            went = opening[goods] + received.get(goods, 0) - now[goods]
            row = usage[goods]
            self.near(row["should"]["ml"], amount, f"{goods} should", F(1, 10**4))
            self.near(row["went"]["ml"], went, f"{goods} went", F(1, 10**4))
            self.near(row["difference_value"], (went - amount) * self.prices[goods], f"{goods} money", F(1, 10**2))
            self.near(row["difference_percent"], (went - amount) / amount * 100, f"{goods} share", F(1, 10**2))
        self.assertEqual(usage["lemon"]["went"]["count"], 120 + 100 - 184)
        # The count's value: each at its own price; the blend and the honey water by what went into them.
        lines = {one["name"]: one for one in report["lines"] if one["value"] is not None}
        for row in self.desk("count"):
            if row["name"] in self.prices:
                size = {"bottles": bottle.get(row["name"], 700), "kg": 1000, "": 1}[row["unit"]]
                self.near(lines[row["name"]]["value"], F(row["amount"]) * size * self.prices[row["name"]], f"worth of {row['name']}")
        self.near(lines["honey water"]["value"], F(row_amount(self.desk("count"), "honey water")) * F(self.preps["honey water"]["density_g_per_ml"])
                  * 600 * self.prices["honey"] / 900, "worth of honey water")
        self.near(report["value"], sum(F(one["value"]) for one in lines.values()), "worth of the count")

    def test_a_suppliers_list_becomes_prices_and_moves_the_pour_cost(self):
        text = self.gill("stock", "winter", "--prices", "winter/desk/sallowmere_june.csv", "--name", "June", "--from", "2026-06-01")
        june = season.lay_out(self.top / "june")
        (june / "prices_june.gill").write_text(text)
        before = {one["name"]: one for one in self.gill.json("cost", "winter")["drinks"]}
        after = {one["name"]: one for one in self.gill.json("cost", "june")["drinks"]}
        # Serif: 60 ml of bourbon from 123.60 to 126.00 a case, 3 dashes of bitters from 13.00 GBP to 15.80 EUR a bottle.
        self.near(F(after["Serif"]["cost"]) - F(before["Serif"]["cost"]),
                  60 * (F("126") - F("123.6")) / 4200 + 3 * DASH * (F("15.8") - 13 * GBP) / 200, "Serif dearer", F(1, 10**4))
        self.near(F(after["Leading"]["cost"]) - F(before["Leading"]["cost"]), 50 * (F(111) / 4200 - F("17.5") / 700), "Leading dearer", F(1, 10**4))

    def test_a_peel_costs_counts_and_buys_by_one_rule(self):
        """Ninety drinks with 4 g of peel each, of lemons at 0.28 that give 9 g: 40 lemons in the plan, in the count and in the cost; with
        half a lemon's juice in each as well, the 45 that are juiced have peel enough."""
        for juice, lemons in (("", 40), ("  22.5 ml lemon juice\n", 45)):
            house = self.top / f"peel{lemons}.gill"
            house.write_text("house Peel\n  currency EUR\nprices p\n  from 2026-01-01\n  lemon 100 for 28 EUR\n  vodka 1 l for 10 EUR\ndrink One\n"
                             f"  glass coupe\n  60 ml vodka\n{juice}  shake 12 s\n  strain\n  garnish lemon peel\n"
                             "menu M\n  runs 2026-01-05 .. 2026-02-01\n  section S\n    One at 10 EUR, sells 90\n")
            (self.top / "ninety.csv").write_text("drink,portions\nOne,90\n")
            (self.top / "store.csv").write_text("name,amount,unit\nlemon,200,\nvodka,10,l\n")
            bought = {one["name"]: one for one in self.gill.json("prep", house.name)["shopping"]}["lemon"]
            self.assertEqual(bought["need_count"], lemons)
            usage = self.gill.json("stock", house.name, "--opening", "store.csv", "--count", "store.csv", "--sales", "ninety.csv")["usage"]
            self.near({one["name"]: one for one in usage}["lemon"]["should"]["count"], F(lemons), "lemons that should be used")
            cost = self.gill.json("facts", house.name)["drinks"][0]["cost"]["amount"]
            self.near(cost, F(60, 100) + F(28, 100) * lemons / 90, "a drink with a peel")

    def test_git_tells_the_spring_as_the_two_folders_do(self):
        by_git = self.gill.json("diff", "HEAD~1", "HEAD", "--house", "bar")
        by_folder = self.gill.json("diff", "winter", "spring")
        for key in ("drinks", "preps", "ingredients", "menus"):
            self.assertEqual(by_git[key], by_folder[key], key)
        drinks = {one["name"]: one for one in by_git["drinks"]}
        self.assertEqual(drinks["Deckle"]["change"], "added")
        self.assertEqual((drinks["Nonpareil"]["change"], drinks["Nonpareil"]["was"]), ("renamed", "Minion"))
        self.assertNotIn("Minion", drinks)
        # The syrup stands in preps.gill, the drinks that use it in three other files: each is told, sweeter, because of it.
        for name in ("Ampersand", "Pilcrow", "Quad", "White Line"):
            self.assertIn("ginger syrup", drinks[name]["because"], name)
            old, new = drinks[name]["facts"]["sugar_g_per_100ml"]
            self.assertGreater(new, old, name)
        # Rye from 45 to 42 % abv: 50 ml of it carry 1.5 ml less ethanol. Price and cost move by what the texts say.
        self.near(F(drinks["Black Letter"]["cost"][1]) - F(drinks["Black Letter"]["cost"][0]), 50 * (F("117.6") / 4200 - F("24.5") / 700), "rye cheaper")
        old, new = drinks["Black Letter"]["facts"]["ethanol_g"]
        self.assertAlmostEqual((old - new) / F("1.5"), 0.789, delta=0.012)  # g of ethanol in a ml at 20 °C: 0.7893, OIML R 22
        moved = {name: drinks[name]["facts"]["price"] for name in drinks if "price" in drinks[name]["facts"] and drinks[name]["change"] == "changed"}
        self.assertEqual({F(new) - F(old) for old, new in moved.values()}, {F(1, 2)})
        self.assertEqual(len(moved), 38)  # forty of winter, less the retired one and the one under its new name
        preps = {one["name"]: one for one in by_git["preps"]}
        self.assertEqual([round(one, 6) for one in preps["ginger syrup"]["facts"]["brix"]], [46, 50])
        self.assertEqual({one["name"] for one in by_git["ingredients"] if one["change"] != "reached"} & {"Platen gin", "lemon", "raspberry", "dairy cream"},
                         {"Platen gin", "lemon", "raspberry", "dairy cream"})

    def test_git_diff_itself_tells_a_drink_whose_syrup_stands_in_another_file(self):
        self.git("config", "diff.gill.command", f"'{pathlib.Path(GILL).resolve()}' diff --house . --as-git")
        (self.bar / ".git/info").mkdir(exist_ok=True)
        (self.bar / ".git/info/attributes").write_text("*.gill diff=gill\n")
        told = self.git("diff", "--ext-diff", "HEAD~1", "HEAD")
        block = told.split("\nAmpersand\n", 1)[1].split("\n\n\n", 1)[0]
        self.assertRegex(block[:600], r"sugar +8\.1 g/100 ml +8\.9 g/100 ml +\+0\.8")
        self.assertNotIn("NOT COMPARED", told)

    def test_labels_carry_the_day_that_the_calendar_gives(self):
        """Made on day 0, whole days kept (README). lemon sherbet keeps 5 d, proof punch 60 d, white syrup 21 d."""
        text = re.sub(r" +", " ", self.gill.pdf("labels", "winter", "--made", "2026-01-08", "--sheet", "90x60mm"))
        for name, days in (("lemon sherbet", 5), ("proof punch", 60), ("white syrup", 21), ("coconut rum", 30), ("press tea", 2)):
            day = datetime.date(2026, 1, 8) + datetime.timedelta(days=days)
            self.assertIn(f"Use by {day.isoformat()}", text.split(f"{name}\n", 1)[1].split("initials", 1)[0], name)

    def test_the_menus_print_their_prices_and_no_retired_drink(self):
        for folder, menu in (("winter", "Winter 2026"), ("spring", "Spring 2026")):
            _, _, menus = read_house(self.top / folder)
            text = self.gill("menu", folder, "--menu", menu, "--as", "markdown")
            printed = {name.strip(): F(price) for name, price in re.findall(r"^### (.+?) €?([\d.]+)(?: a cup)?$", text, re.MULTILINE)}
            self.assertEqual(printed, {name: price for name, (price, _) in menus[menu].items()})
        self.assertNotIn("Gutter", printed)

    def test_the_book_and_the_cards_hold_each_drink_that_is_served(self):
        self.gill("book", "spring", "--out", "book", "--as", "all")
        pages = {path.stem for path in (self.top / "book/drinks").glob("*.md")}
        self.assertIn("deckle", pages)
        self.assertIn("nonpareil", pages)
        self.assertNotIn("gutter", pages)
        self.assertEqual(pages, {path.stem for path in (self.top / "book/drinks").glob("*.html")})
        cards = self.gill.pdf("cards", "spring")
        self.assertIn("Nonpareil", cards)
        self.assertNotIn("Gutter", cards)


def row_amount(rows, name):
    return next(row["amount"] for row in rows if row["name"] == name)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=1)
