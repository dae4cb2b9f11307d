// The demo house's book, its facts and a browser, for every test of this folder. Debian's Chromium is driven as it is
// installed: nothing is downloaded.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, relative } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

export const root = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const gill = process.env.GILL ?? join(root, "build", "gill");
const house = join(root, "specs");

const folder = mkdtempSync(join(tmpdir(), "gill-browser-"));
process.on("exit", () => rmSync(folder, { recursive: true, force: true }));

/// What the program writes; 1, errors in the specs, is an answer as well.
function run(...words) {
  try {
    return execFileSync(gill, words, { encoding: "utf8", maxBuffer: 1 << 28, stdio: ["ignore", "pipe", "ignore"] });
  } catch (failure) {
    if (failure.status !== 1) throw failure;
    return failure.stdout;
  }
}

run("book", house, "--as", "all", "--out", join(folder, "book"));
export const book = join(folder, "book");
export const guestMenu = join(folder, "menu.html");
writeFileSync(guestMenu, run("menu", house));
export const facts = JSON.parse(run("facts", house, "--as", "json"));

// A house in trouble: what is in error, what is not known, names of other scripts, long names and hostile ones.
const troubled = join(folder, "troubled.gill");
writeFileSync(troubled, `house "<b>The Weir</b>"
ingredient odd leaf
  kind herb
ingredient "gin <script>alert(1)</script>"
  kind spirit
  strength 40 % abv
  caution <img src=x onerror=alert(1)>
prep half made
  500 ml water
  60 mll white sugar
drink "Withy </script> Cutter"
  | [a](javascript:alert(5)) <script>alert(6)</script> *and* ![p](https://example.org/p.png)
  glass coupe
  50 ml "gin <script>alert(1)</script>"
  2 dashes aromatic bitters
  shake 12 s
  strain
  garnish odd leaf
drink Bröken
  glass rocks
  60 mll London dry gin
drink 渡し船のあとの長い長い名前の一杯
  family sour
  glass coupe
  50 ml London dry gin
  25 ml lemon juice
  20 ml simple syrup
  shake 12 s
  strain
  garnish none
drink A Name of So Many Words That No Card and No Narrow Screen Was Ever Meant to Hold It on a Single Line
  glass highball
  build
  150 ml soda water
menu "Spring & Summer"
  "Withy </script> Cutter" at 12 EUR
  Bröken
`);
export const troubledBook = join(folder, "troubled");
run("book", troubled, "--as", "html", "--out", troubledBook);

export const address = path => pathToFileURL(join(book, path)).href;

export function filesBelow(place, ending) {
  return readdirSync(place, { withFileTypes: true }).flatMap(entry => entry.isDirectory()
    ? filesBelow(join(place, entry.name), ending) : entry.name.endsWith(ending) ? [join(place, entry.name)] : []).sort();
}

export const pages = filesBelow(book, ".html").map(file => relative(book, file));
export const read = path => readFileSync(join(book, path), "utf8");

/// One page of each kind, by what it is.
export const kinds = {
  index: "index.html", preps: "preps.html", allergens: "allergens.html", balance: "balance.html", inspection: "inspection.html",
  glossary: "glossary.html", drink: pages.find(path => path === "drinks/lanolin.html"), prep: pages.find(path => path.startsWith("preps/")),
  ingredient: pages.find(path => path.startsWith("ingredients/")),
};

export const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-dev-shm-usage"],
});

/// A new window with nothing remembered. What pages complain of and ask for is kept in `complaints` and `requests`.
export async function open(path, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
  const page = await context.newPage();
  page.complaints = [];
  page.requests = [];
  page.on("console", message => { if (["error", "warning"].includes(message.type())) page.complaints.push(message.text()); });
  page.on("pageerror", error => page.complaints.push(String(error)));
  page.on("request", request => page.requests.push(request.url()));
  await page.goto(path.startsWith("file:") ? path : address(path));
  return page;
}

export const close = page => page.context().close();
