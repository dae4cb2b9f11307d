// The style sheets and the script, as they stand in the sources, before outside judges: stylelint and eslint.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { test } from "node:test";
import { ESLint } from "eslint";
import stylelint from "stylelint";

const here = dirname(fileURLToPath(import.meta.url));
const compiler = join(here, "..", "..", "compiler");
const sheets = ["render/html/book.css", "diff/changes.css", "watch/banner.css"];
const script = "render/html/book.js";

async function styleFaults(code) {
  const { results } = await stylelint.lint({ code, configFile: join(here, "stylelint.config.js") });
  return results.flatMap(result => [...result.warnings, ...result.parseErrors, ...result.invalidOptionWarnings])
    .map(fault => `${fault.line ?? ""}: ${fault.text}`);
}

async function scriptFaults(code) {
  const eslint = new ESLint({ cwd: here, overrideConfigFile: join(here, "eslint.config.js") });
  const [result] = await eslint.lintText(code, { filePath: join(here, "book.js") });
  return result.messages.map(fault => `${fault.line}: ${fault.message}`);
}

for (const sheet of sheets) {
  test(`stylelint finds nothing in ${sheet}`, async () => {
    assert.deepEqual(await styleFaults(readFileSync(join(compiler, sheet), "utf8")), []);
  });
}

test("stylelint finds a value that no browser knows", async () => {
  assert.equal((await styleFaults("p { display: blok; }")).length, 1);
});

test(`eslint finds nothing in ${script}`, async () => {
  assert.deepEqual(await scriptFaults(readFileSync(join(compiler, script), "utf8")), []);
});

test("eslint finds a name that nothing declares", async () => {
  assert.equal((await scriptFaults("(() => { document.title = house; })();")).length, 1);
});
