// Pages before outside judges: axe-core (accessibility), html-validate (HTML), the vocabulary of schema.org.
import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { after, test } from "node:test";
import { pathToFileURL } from "node:url";
import { HtmlValidate } from "html-validate";
import { browser, close, facts, filesBelow, book, guestMenu, kinds, open, pages, read, troubledBook } from "./demo.js";

after(() => browser.close());

const require = createRequire(import.meta.url);
const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");

async function violations(page) {
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
  return violations.flatMap(violation => violation.nodes.map(node => `${violation.id}: ${node.html.slice(0, 140)} ${node.failureSummary}`));
}

for (const colorScheme of ["light", "dark"]) {
  for (const [kind, path] of [...Object.entries(kinds), ["guests' menu", pathToFileURL(guestMenu).href]]) {
    test(`axe-core finds nothing on the ${kind} page, ${colorScheme}`, async () => {
      for (const width of [360, 1280]) {
        const page = await open(path, { colorScheme, viewport: { width, height: 900 } });
        assert.deepEqual(await violations(page), []);
        await close(page);
      }
    });
  }
  test(`axe-core finds nothing while a search and filters are open, ${colorScheme}`, async () => {
    const page = await open("index.html", { colorScheme });
    await page.locator(".finder summary").click();
    await page.locator('.finder input[value="egg"]').check();
    await page.locator(".matches li").first().waitFor();
    await page.locator(".find input").fill("lemon");
    await page.locator(".found li").first().waitFor();
    assert.deepEqual(await violations(page), []);
    await close(page);
  });
}

test("a house in trouble: nothing of its text runs, nothing is asked for, axe-core finds nothing, no page is too wide", async () => {
  const files = filesBelow(troubledBook, ".html").filter(path => !path.includes("ingredients"));
  assert.ok(files.length >= 11, files.join(" "));
  for (const file of files) {
    const page = await open(pathToFileURL(file).href, { viewport: { width: 360, height: 800 } });
    page.on("dialog", dialog => assert.fail(dialog.message()));
    await page.locator(".find input").focus();
    assert.deepEqual(page.complaints, [], file);
    assert.ok(page.requests.every(url => url.startsWith("file:")), file);
    assert.deepEqual(await violations(page), [], file);
    assert.ok(await page.evaluate(() => document.scrollingElement.scrollWidth) <= 360, file);
    await close(page);
  }
});

test("html-validate finds no error on any page", async () => {
  const validator = new HtmlValidate(JSON.parse(readFileSync(new URL(".htmlvalidate.json", import.meta.url), "utf8")));
  const errors = [];
  for (const file of [...filesBelow(book, ".html"), ...filesBelow(troubledBook, ".html"), guestMenu]) {
    const report = await validator.validateFile(file);
    for (const result of report.results)
      for (const message of result.messages) errors.push(`${file}:${message.line}:${message.column} ${message.ruleId}: ${message.message}`);
  }
  assert.deepEqual(errors.slice(0, 20), []);
});

// ---- schema.org, by the vocabulary that the schema-dts package carries

const vocabulary = readFileSync(require.resolve("schema-dts/dist/schema.d.ts"), "utf8");

/// Every property of a type and of what it is a kind of.
function propertiesOf(type) {
  const match = new RegExp(`interface ${type}Base extends ([^{]*)\\{([^]*?)\\n\\}`).exec(vocabulary);
  assert.ok(match, `schema.org knows the type ${type}`);
  const own = [...match[2].matchAll(/^ {4}"(\w+)"\?/gm)].map(found => found[1]);
  const parents = [...match[1].matchAll(/(\w+)Base\b/g)].map(found => found[1]);
  return new Set([...own, ...parents.flatMap(parent => [...propertiesOf(parent)])]);
}

function checkProperties(value, where) {
  if (Array.isArray(value)) return value.forEach((one, at) => checkProperties(one, `${where}[${at}]`));
  if (value === null || typeof value !== "object") return;
  const known = propertiesOf(value["@type"]);
  for (const [name, inner] of Object.entries(value)) {
    if (name.startsWith("@")) continue;
    assert.ok(known.has(name), `${where}: ${value["@type"]} has no property ${name}`);
    checkProperties(inner, `${where}.${name}`);
  }
}

test("every drink page carries a schema.org Recipe with known properties, and those that readers of it want", () => {
  const drinks = pages.filter(path => path.startsWith("drinks/"));
  assert.ok(drinks.length > 10);
  for (const path of drinks) {
    const blocks = [...read(path).matchAll(/<script type="application\/ld\+json">([^]*?)<\/script>/g)];
    assert.equal(blocks.length, 1, path);
    const recipe = JSON.parse(blocks[0][1]);
    assert.equal(recipe["@context"], "https://schema.org");
    assert.equal(recipe["@type"], "Recipe");
    for (const name of ["name", "recipeIngredient", "recipeInstructions", "recipeYield", "author"]) assert.ok(recipe[name], `${path}: ${name}`);
    checkProperties(recipe, path);
    assert.ok(recipe.recipeInstructions.every(step => step["@type"] === "HowToStep" && step.text.length > 0), path);
    for (const claim of ["suitableForDiet", "review", "aggregateRating"]) assert.equal(recipe[claim], undefined, path);
    const drink = facts.drinks.find(one => one.name === recipe.name);
    assert.ok(drink, path);
    if (recipe.nutrition) assert.equal(recipe.nutrition.calories, `${Math.round(drink.energy_kcal)} kcal`, path);
  }
});
