// colour.js GRAMMAR FILE...: what a TextMate grammar makes of each file, as JSON: for each line its stretches [from, to, scope],
// where the scope is the innermost one.
'use strict';
const fs = require('fs');
const path = require('path');
const oniguruma = require('vscode-oniguruma');
const textmate = require('vscode-textmate');

async function main([grammarPath, ...files]) {
  const wasm = fs.readFileSync(path.join(path.dirname(require.resolve('vscode-oniguruma')), 'onig.wasm'));
  await oniguruma.loadWASM(wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength));
  const registry = new textmate.Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
      createOnigString: (text) => new oniguruma.OnigString(text),
    }),
    loadGrammar: async () => textmate.parseRawGrammar(fs.readFileSync(grammarPath, 'utf8'), grammarPath),
  });
  const grammar = await registry.loadGrammar('source.gill');
  const told = files.map((file) => {
    let stack = textmate.INITIAL;
    return fs.readFileSync(file, 'utf8').split('\n').map((line) => {
      const found = grammar.tokenizeLine(line, stack);
      stack = found.ruleStack;
      return found.tokens.map((token) => [token.startIndex, token.endIndex, token.scopes[token.scopes.length - 1]]);
    });
  });
  process.stdout.write(JSON.stringify(told));
}

main(process.argv.slice(2));
