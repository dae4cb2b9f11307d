"""`gill check --as sarif` and `--as json`: valid against the published schema of SARIF 2.1.0 (OASIS Standard "Static Analysis
Results Interchange Format (SARIF) Version 2.1.0"), and the two forms and the text tell the same."""

import json
import re
import unittest

from program import SOURCE, HouseCase, gill, main

SCHEMA = SOURCE / "tests/lint/sarif/node_modules/@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json"
needs_schema = unittest.skipUnless(SCHEMA.exists(), "the schema is not fetched: npm ci in tests/lint/sarif")
# The keys of a finding in JSON, in their order.
KEYS = ["rule", "severity", "message", "file", "line", "column", "length", "help", "drink"]

BROKEN = """drink Bench Sour
  family   sour
  glass    coupe
  60 mll   aged rum
  22,5 mll lime jiuce
  1        egg white
  shake    30 ml
  garnish  none

drink Bench Sour
  45 ml    aged rum
  stir
  strain
"""


class Forms(HouseCase):
    def findings(self, *arguments):
        return json.loads(gill("check", *arguments, "--as", "json").stdout)["findings"]

    def sarif(self, *arguments, cwd=None):
        return json.loads(gill("check", *arguments, "--as", "sarif", cwd=cwd).stdout)

    def houses(self):
        """Every fixture of a rule, a house with nothing to say, one of odd file names, and the demo house."""
        yield from sorted((SOURCE / "tests/lint").glob("*.gill"))
        yield SOURCE / "specs"
        self.write("empty/house.gill", "")
        yield self.folder / "empty"
        self.write("odd/a b/ü%41:#?.gill", BROKEN)
        yield self.folder / "odd"

    @needs_schema
    def test_every_log_is_valid_and_tells_what_json_tells(self):
        validate = validator()
        for house in self.houses():
            with self.subTest(house.name):
                log = self.sarif(house)
                problems = [f"{list(problem.path)}: {problem.message}" for problem in validate.iter_errors(log)]
                self.assertEqual(problems, [])
                run, found = log["runs"][0], self.findings(house)
                self.assertEqual(len(run["results"]), len(found))
                for result, finding in zip(run["results"], found):
                    region = result["locations"][0]["physicalLocation"]["region"]
                    self.assertEqual(result["ruleId"], finding["rule"])
                    self.assertEqual(run["tool"]["driver"]["rules"][result["ruleIndex"]]["id"], finding["rule"])
                    self.assertEqual(result["level"], finding["severity"])
                    self.assertEqual(region["startLine"], finding["line"])
                    self.assertEqual(region["startColumn"], finding["column"])
                    self.assertEqual(region["endColumn"], finding["column"] + finding["length"])
                    self.assertTrue(result["message"]["text"].startswith(finding["message"]))
                    named = [one["name"] for one in result["locations"][0].get("logicalLocations", [])]
                    self.assertEqual(named, [finding["drink"]] if finding["drink"] else [])

    @needs_schema
    def test_the_schema_refuses_what_is_no_log(self):
        log = self.sarif(SOURCE / "tests/lint/raw-egg.gill")
        validate = validator()
        self.assertTrue(log["runs"][0]["results"])
        log["runs"][0]["results"][0]["level"] = "fatal"
        self.assertTrue(list(validate.iter_errors(log)))

    def test_json_has_the_fixed_keys_and_text_the_same_findings(self):
        self.write("house.gill", BROKEN)
        found = self.findings(self.folder)
        self.assertGreater(len(found), 5)
        for finding in found:
            self.assertEqual(list(finding), KEYS)
        text = gill("check", self.folder).stdout
        heads = re.findall(r"^(\S+):(\d+):(\d+): (error|warning|note): (.*) \[([a-z-]+)\]$", text, re.MULTILINE)
        self.assertEqual(
            heads,
            [(f["file"], str(f["line"]), str(f["column"]), f["severity"], f["message"], f["rule"]) for f in found],
        )

    def test_every_mistake_of_a_line_and_a_file_is_told_once_in_the_order_of_places(self):
        self.write("house.gill", BROKEN)
        found = [(f["line"], f["column"], f["rule"]) for f in self.findings(self.folder)]
        for mistake in [
            (4, 6, "unknown-unit"),
            (5, 3, "bad-number"),
            (5, 8, "unknown-unit"),
            (5, 12, "unknown-name"),
            (7, 12, "wrong-kind"),
            (10, 7, "duplicate-name"),
            (12, 3, "no-time"),
        ]:
            self.assertEqual(found.count(mistake), 1, mistake)
        places = [place[:2] for place in found]
        self.assertEqual(places, sorted(places))

    def test_paths_start_from_the_house_and_the_house_from_where_the_command_ran(self):
        self.write("bar/drinks/a b.gill", BROKEN)
        run = self.sarif("bar", cwd=self.folder)["runs"][0]
        place = run["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"]
        self.assertEqual(place, {"uri": "drinks/a%20b.gill", "uriBaseId": "HOUSE"})
        self.assertEqual(run["originalUriBaseIds"]["HOUSE"], {"uri": "bar/", "uriBaseId": "WORKINGFOLDER"})
        alone = self.sarif("bar/drinks/a b.gill", cwd=self.folder)["runs"][0]
        self.assertEqual(alone["originalUriBaseIds"]["HOUSE"]["uri"], "bar/drinks/")

    def test_a_correction_travels_with_its_finding(self):
        self.write("house.gill", "drink X\n  22,5 ml lime juice\n")
        result = next(r for r in self.sarif(self.folder)["runs"][0]["results"] if r["ruleId"] == "bad-number")
        change = result["fixes"][0]["artifactChanges"][0]["replacements"][0]
        self.assertEqual(change["deletedRegion"], {"startLine": 2, "startColumn": 3, "endColumn": 7})
        self.assertEqual(change["insertedContent"]["text"], "22.5")

    def test_strict_fails_on_warnings_and_no_form_changes_the_status(self):
        self.write("house.gill", "drink X\n  glass coupe\n  60 ml aged rum\n  stir\n  strain\n  garnish none\n")
        for form in ("text", "json", "sarif"):
            self.assertEqual(gill("check", self.folder, "--as", form).returncode, 0)
            self.assertEqual(gill("check", self.folder, "--as", form, "--strict").returncode, 1)
        self.assertEqual(gill("check", self.folder, "--as", "xml").returncode, 2)
        self.assertEqual(gill("check", self.folder / "nowhere").returncode, 2)


def validator():
    import jsonschema

    schema = json.loads(SCHEMA.read_text())
    return jsonschema.Draft4Validator(schema)


main()
