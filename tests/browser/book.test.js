import assert from "node:assert/strict";
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { after, test } from "node:test";
import { address, browser, close, facts, guestMenu, kinds, open, pages } from "./demo.js";
import { fileURLToPath, pathToFileURL } from "node:url";

after(() => browser.close());

const visibleTexts = (page, selector) => page.locator(selector).evaluateAll(parts => parts.filter(part => part.checkVisibility()).map(part => part.textContent.trim()));
// The words that no output may hold: the one list of the C++ and the Python tests.
const clearing = readFileSync(new URL("../lint/clearing_words.txt", import.meta.url), "utf8").split("\n").filter(line => line && !line.startsWith("#"));
const clears = new RegExp(`(?<!\\w)(?:${clearing.join("|")})(?!\\w)`, "i");
const bodyText = page => page.locator("main").innerText();

test("no page complains, and none asks for anything outside the book", async () => {
  const page = await open("index.html");
  const inside = new URL(".", address("index.html")).href;
  for (const path of pages) {
    await page.goto(address(path));
    await page.locator(".find input").focus();
  }
  await page.waitForFunction(() => typeof window.gillBook === "function");
  assert.deepEqual(page.complaints, []);
  assert.deepEqual(page.requests.filter(url => !url.startsWith(inside)), []);
  assert.ok(page.requests.some(url => url.endsWith("/find.js")));
  await close(page);
});

test("the guests' menu stands alone and asks for nothing", async () => {
  const page = await open(pathToFileURL(guestMenu).href);
  assert.equal(page.requests.length, 1);
  assert.deepEqual(page.complaints, []);
  await close(page);
});

test("a page runs nothing that was written into it, and the book's own script all the same", async () => {
  const attack = '<script>window.ran = "script"</script><img src="x" onerror="window.ran = \'handler\'"><a href="javascript:window.ran=1" id="trap">x</a>';
  const source = fileURLToPath(address(kinds.prep));
  const attacked = source.replace(/\.html$/, "-attacked.html");
  writeFileSync(attacked, readFileSync(source, "utf8").replace("</main>", `${attack}</main>`));
  try {
    const page = await open(pathToFileURL(attacked).href);
    await page.evaluate(() => document.getElementById("trap").click());
    await page.waitForFunction(() => typeof window.gillBook === "function" || document.querySelector(".find input"));
    assert.equal(await page.evaluate(() => window.ran), undefined);
    assert.ok(page.complaints.some(words => words.includes("Content Security Policy")));
    await close(page);
  } finally {
    rmSync(attacked);
  }
});

test("the slash leads to the search, which finds by name and opens with Enter", async () => {
  const page = await open(kinds.prep);
  await page.keyboard.press("/");
  assert.equal(await page.evaluate(() => document.activeElement.id), "find-words");
  await page.keyboard.type("lanol");
  await page.locator(".found li").first().waitFor();
  assert.equal(await page.locator(".found a").first().textContent(), "Lanolin");
  await page.keyboard.press("Enter");
  await page.waitForURL("**/drinks/lanolin.html");
  await close(page);
});

test("arrows walk through what was found, Escape goes back and clears", async () => {
  const page = await open("index.html");
  await page.locator(".find input").fill("lemon");
  await page.locator(".found li").nth(1).waitFor();
  const names = await page.locator(".found a").allTextContents();
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("ArrowDown");
  assert.equal(await page.evaluate(() => document.activeElement.textContent), names[1]);
  await page.keyboard.press("ArrowUp");
  await page.keyboard.press("ArrowUp");
  assert.equal(await page.evaluate(() => document.activeElement.id), "find-words");
  await page.keyboard.press("Escape");
  assert.equal(await page.locator(".find input").inputValue(), "");
  assert.equal(await page.locator(".found").isVisible(), false);
  await close(page);
});

test("a search by an ingredient finds every drink that holds it, through preps", async () => {
  const page = await open("index.html");
  const name = "heather honey";
  const direct = facts.preps.filter(prep => prep.ingredients.some(part => part.name === name)).map(prep => prep.name);
  assert.ok(direct.length > 0);
  const drinks = facts.drinks.filter(drink => drink.ingredients.some(part => part.name === name || direct.includes(part.name))).map(drink => drink.name);
  await page.locator(".find input").fill(name);
  await page.locator(".found li").first().waitFor();
  const found = await page.locator(".found a").allTextContents();
  for (const drink of drinks) assert.ok(found.includes(drink), `${drink} is found by ${name}`);
  await close(page);
});

test("a search by an allergen says why, and by a tag too", async () => {
  const page = await open("index.html");
  await page.locator(".find input").fill("hazelnut");
  await page.locator(".found li").first().waitFor();
  const rows = await page.locator(".found li").allTextContents();
  assert.ok(rows.some(row => row.includes("Calamanco") && row.includes("hazelnut")), rows.join("; "));
  await page.locator(".find input").fill("signature");
  await page.waitForFunction(() => document.querySelector(".found")?.textContent.includes("tag signature"));
  await page.locator(".find input").fill("nothing is called this");
  await page.waitForFunction(() => document.querySelector("#find-count").textContent === "Nothing found.");
  await close(page);
});

const shownDrinks = page => visibleTexts(page, ".matches li > a:first-child");
const listed = new Set(pages.filter(path => path.startsWith("drinks/")));
const sorted = names => [...new Set(names)].sort();

/// The drinks that have a page, as the facts tell of them.
async function drinksOfBook(page) {
  const names = await page.locator(".body ul.index a").evaluateAll(links => links.filter(link => link.href.includes("/drinks/")).map(link => link.textContent));
  return facts.drinks.filter(drink => names.includes(drink.name));
}

for (const allergen of ["egg", "milk", "nuts", "sulphites", "sesame"]) {
  test(`without a declared ${allergen}: what has it, may have it or is not all known is left out`, async () => {
    const page = await open("index.html");
    const all = await drinksOfBook(page);
    const meets = code => code === allergen || code.startsWith(allergen + ":");
    const wanted = all.filter(drink => drink.allergens_known && ![...drink.allergens, ...drink.allergens_may].some(meets));
    assert.ok(wanted.length > 0 && wanted.length < all.length);
    await page.locator(".finder summary").click();
    await page.locator(`.finder input[value="${allergen}"]`).check();
    await page.locator(".matches li").first().waitFor();
    assert.deepEqual(sorted(await shownDrinks(page)), sorted(wanted.map(drink => drink.name)));
    const note = await page.locator(".allergen-note").innerText();
    assert.match(note, /are shared/);
    assert.match(await page.locator(".matches .count").innerText(), /without a declared/);
    assert.doesNotMatch(await bodyText(page), clears);
    await close(page);
  });
}

test("filters by family, glass and menu give what the facts give, and can be taken back", async () => {
  const page = await open("index.html");
  const all = await drinksOfBook(page);
  for (const [filter, key] of [["family", "family"], ["glass", "glass"]]) {
    const values = await page.locator(`.finder select[name=${filter}] option`).evaluateAll(options => options.map(option => option.value).filter(Boolean));
    assert.deepEqual(sorted(values), sorted(all.map(drink => drink[key]).filter(Boolean)));
    for (const value of values.slice(0, 4)) {
      await page.locator(`.finder select[name=${filter}]`).selectOption(value);
      await page.locator(".matches li").first().waitFor();
      assert.deepEqual(sorted(await shownDrinks(page)), sorted(all.filter(drink => drink[key] === value).map(drink => drink.name)));
    }
    await page.getByRole("button", { name: "All drinks" }).click();
    await page.locator(".body").waitFor();
    assert.equal(await page.locator(".matches").isVisible(), false);
  }
  const menu = await page.locator(".finder select[name=menu] option").nth(1).getAttribute("value");
  const section = page.locator(".body > section").filter({ has: page.getByRole("heading", { name: menu, level: 2 }) });
  const onMenu = await section.locator("li > a:first-child").allTextContents();
  await page.locator(".finder select[name=menu]").selectOption(menu);
  await page.locator(".matches li").first().waitFor();
  assert.deepEqual(sorted(await shownDrinks(page)), sorted(onMenu));
  await close(page);
});

test("the filter by base shows drinks that pour something of it, and alcohol-free ones have next to none", async () => {
  const page = await open("index.html");
  const all = await drinksOfBook(page);
  const abv = name => all.find(drink => drink.name === name).served.abv_percent;
  await page.locator(".finder input[name=free]").check();
  await page.locator(".matches li").first().waitFor();
  const free = await shownDrinks(page);
  assert.ok(free.length > 0);
  for (const name of free) assert.ok(abv(name) <= 0.5, name);
  await page.locator(".finder input[name=free]").uncheck();
  const bases = await page.locator(".finder select[name=base] option").evaluateAll(options => options.map(option => option.value).filter(Boolean));
  assert.ok(bases.includes("London dry gin"));
  let total = 0;
  for (const base of bases) {
    await page.locator(".finder select[name=base]").selectOption(base);
    await page.locator(".matches li").first().waitFor();
    const names = await shownDrinks(page);
    total += names.length;
    for (const name of names) assert.ok(abv(name) > 0.5, name);
  }
  assert.ok(total <= all.length);
  await close(page);
});

test("filters go together, and work by keyboard alone", async () => {
  const page = await open("index.html");
  await page.locator(".finder summary").focus();
  await page.keyboard.press("Enter");
  await page.locator('.finder input[value="egg"]').focus();
  await page.keyboard.press("Space");
  await page.locator('.finder input[value="milk"]').focus();
  await page.keyboard.press("Space");
  await page.locator(".matches li").first().waitFor();
  for (const name of await shownDrinks(page)) {
    const drink = facts.drinks.find(one => one.name === name);
    assert.ok(!drink.allergens.includes("egg") && !drink.allergens.includes("milk") && drink.allergens_known, name);
  }
  await close(page);
});

const firstNumber = text => Number(/[\d.]+/.exec(text)[0]);

test("amounts are told two and ten times and for a litre, by the compiler's own numbers", async () => {
  const page = await open("drinks/lanolin.html");
  const drink = facts.drinks.find(one => one.name === "Lanolin");
  const gin = drink.ingredients[0];
  const cells = page.locator(".build tbody tr").first().locator("td [data-scale]");
  const shown = async () => (await visibleTexts(page, ".build tbody tr:first-child td:first-child [data-scale]"))[0];
  assert.ok(await cells.count() > 0);
  for (const [label, factor, within] of [["×1", 1, 0], ["×2", 2, 0], ["×10", 10, 0], ["1 l", 1000 / drink.mixed.volume_ml, 0.5]]) {
    await page.getByLabel(label, { exact: true }).check();
    assert.ok(Math.abs(firstNumber(await shown()) - gin.volume_ml * factor) <= within, `${label}: ${await shown()}`);
    assert.equal(await page.locator(".scale-note").isVisible(), factor !== 1);
  }
  await page.getByLabel("×10", { exact: true }).check();
  const eggs = (await visibleTexts(page, ".build tbody tr:nth-child(4) td"))[0];
  assert.match(eggs, /10/);
  await close(page);
});

test("scaling works on every drink and prep, and goes back to what was", async () => {
  const page = await open("index.html");
  for (const path of pages.filter(path => /^(drinks|preps)\//.test(path))) {
    await page.goto(address(path));
    const build = page.locator(".build tbody");
    if (await page.getByLabel("×2", { exact: true }).count() === 0) continue;
    const before = await build.innerText();
    await page.getByLabel("×10", { exact: true }).check();
    assert.notEqual(await build.innerText(), before, path);
    await page.getByLabel("×1", { exact: true }).check();
    assert.equal(await build.innerText(), before, path);
  }
  await close(page);
});

test("a reader may want one measure only, and is remembered", async () => {
  const page = await open("drinks/lanolin.html");
  await page.getByLabel("oz", { exact: true }).check();
  const shown = await visibleTexts(page, ".build tbody td");
  assert.ok(shown.every(text => !text.includes("ml")), shown.join("; "));
  assert.equal(await page.locator(".build tbody [data-units]").first().getAttribute("colspan"), "1");
  await page.goto(address("drinks/weld.html"));
  assert.equal(await page.getByLabel("oz", { exact: true }).isChecked(), true);
  assert.ok((await visibleTexts(page, ".build tbody td")).every(text => !text.includes("ml")));
  await page.getByLabel("ml and oz", { exact: true }).check();
  assert.ok((await visibleTexts(page, ".build tbody td")).some(text => text.includes("ml")));
  await close(page);
});

test("the switches work by keyboard", async () => {
  const page = await open("drinks/lanolin.html");
  await page.getByLabel("×1", { exact: true }).focus();
  await page.keyboard.press("ArrowRight");
  assert.equal(await page.getByLabel("×2", { exact: true }).isChecked(), true);
  assert.match((await visibleTexts(page, ".build tbody tr:first-child td"))[0], /90/);
  await close(page);
});

test("without the script everything is there to read, and nothing that would not work", async () => {
  for (const path of Object.values(kinds)) {
    const page = await open(path, { javaScriptEnabled: false });
    assert.equal(await page.locator(".find").isVisible(), false, path);
    assert.equal(await page.locator("main h1").isVisible(), true, path);
    assert.ok((await bodyText(page)).length > 100, path);
    for (const box of await page.locator(".switches, .finder, .matches").all()) assert.equal(await box.isVisible(), false, path);
    await close(page);
  }
});

test("the first key leads to the content, and every focus can be seen", async () => {
  const page = await open("drinks/lanolin.html");
  await page.keyboard.press("Tab");
  assert.equal(await page.evaluate(() => document.activeElement.className), "skip");
  await page.keyboard.press("Enter");
  assert.match(page.url(), /#content$/);
  for (let i = 0; i < 25; ++i) {
    await page.keyboard.press("Tab");
    const [name, outline] = await page.evaluate(() => [document.activeElement.outerHTML.slice(0, 80), getComputedStyle(document.activeElement).outlineStyle]);
    if (name.startsWith("<body")) break;
    assert.notEqual(outline, "none", name);
  }
  await close(page);
});

for (const width of [360, 768, 1440]) {
  test(`no kind of page is wider than a screen of ${width}`, async () => {
    for (const path of [...Object.values(kinds), pathToFileURL(guestMenu).href]) {
      const page = await open(path, { viewport: { width, height: 800 } });
      const wide = await page.evaluate(() => document.scrollingElement.scrollWidth);
      assert.ok(wide <= width, `${path}: ${wide}`);
      await close(page);
    }
  });
}

test("a drink prints on a page or two, without what is only for a screen", async () => {
  const page = await open("drinks/lanolin.html");
  await page.emulateMedia({ media: "print" });
  for (const selector of ["nav", ".find", ".switches fieldset", ".skip"])
    for (const part of await page.locator(selector).all()) assert.equal(await part.isVisible(), false, selector);
  const pdf = (await page.pdf({ format: "A4", preferCSSPageSize: true })).toString("latin1");
  assert.ok(pdf.startsWith("%PDF-"));
  const sheets = (pdf.match(/\/Type\s*\/Page\b/g) ?? []).length;
  assert.ok(sheets >= 1 && sheets <= 2, `${sheets} sheets`);
  await close(page);
});

test("every kind of page prints", async () => {
  for (const path of [...Object.values(kinds), pathToFileURL(guestMenu).href]) {
    const page = await open(path);
    assert.ok((await page.pdf({ format: "A4" })).length > 1000, path);
    await close(page);
  }
});

test("every point of the chart of balance leads to its drink, and the table says the same", async () => {
  const page = await open("balance.html");
  for (const section of await page.locator(".body > section").all()) {
    const ways = await section.locator("svg a").evaluateAll(links => links.map(link => link.getAttribute("href")));
    const rows = await section.locator("tbody th a").evaluateAll(links => links.map(link => link.getAttribute("href")));
    assert.deepEqual(ways, rows);
    for (const way of ways) assert.ok(listed.has(way), way);
  }
  const name = await page.locator("svg a").first().getAttribute("aria-label");
  await page.locator("svg a").first().click();
  assert.equal(await page.locator("h1").textContent(), name);
  await close(page);
});
