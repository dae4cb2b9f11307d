// The protocol's own client library on a copy of the demo house (GILL_HOUSE): every answer has the shape that its types ask for, since
// the library parses it, and says what the house says.
const assert = require('node:assert/strict');
const child_process = require('node:child_process');
const fs = require('node:fs');
const path = require('node:path');
const test = require('node:test');
const url = require('node:url');
const rpc = require('vscode-jsonrpc/node');
const lsp = require('vscode-languageserver-protocol');

const HOUSE = process.env.GILL_HOUSE;
const uriOf = (name) => url.pathToFileURL(path.join(HOUSE, name)).href;
const textOf = (name) => fs.readFileSync(path.join(HOUSE, name), 'utf8');

/** The place of the first letter of words in a text. */
function placeOf(text, words) {
  const before = text.slice(0, text.indexOf(words)).split('\n');
  return lsp.Position.create(before.length - 1, before.at(-1).length);
}

/** The text with edits put in. */
function withEdits(text, edits) {
  const lines = text.split('\n');
  const offset = (place) => lines.slice(0, place.line).reduce((sum, line) => sum + line.length + 1, 0) + place.character;
  return [...edits].sort((a, b) => offset(b.range.start) - offset(a.range.start))
    .reduce((made, edit) => made.slice(0, offset(edit.range.start)) + edit.newText + made.slice(offset(edit.range.end)), text);
}

/** A server with a file of the house open; `work` gets the connection and what it is told. */
async function inHouse(name, work) {
  const server = child_process.spawn(process.env.GILL_PROGRAM, ['lsp', '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
  const connection = lsp.createProtocolConnection(new rpc.StreamMessageReader(server.stdout), new rpc.StreamMessageWriter(server.stdin));
  const told = new Map();
  const waiting = [];
  connection.onNotification(lsp.PublishDiagnosticsNotification.type, (params) => {
    told.set(params.uri, params.diagnostics);
    waiting.splice(0).forEach((look) => look());
  });
  const registered = new Promise((done) => {
    connection.onRequest(lsp.RegistrationRequest.type, (params) => done(params.registrations));
  });
  const progress = [];
  connection.onRequest(lsp.WorkDoneProgressCreateRequest.type, () => undefined);
  connection.onUnhandledProgress((params) => progress.push(params.value.kind));
  connection.listen();
  const capabilities = {
    textDocument: { documentSymbol: { hierarchicalDocumentSymbolSupport: true } },
    window: { workDoneProgress: true },
    workspace: { workspaceEdit: { documentChanges: true }, didChangeWatchedFiles: { dynamicRegistration: true } },
  };
  const begun = await connection.sendRequest(lsp.InitializeRequest.type, { processId: process.pid, rootUri: uriOf(''), capabilities });
  await connection.sendNotification(lsp.InitializedNotification.type, {});
  const uri = uriOf(name), text = textOf(name);
  await connection.sendNotification(lsp.DidOpenTextDocumentNotification.type, { textDocument: lsp.TextDocumentItem.create(uri, 'gill', 1, text) });
  const until = async (holds) => {
    while (!holds()) await new Promise((next) => waiting.push(next));
  };
  try {
    await work({ connection, begun, uri, text, told, until, registered, progress, document: { uri } });
    await connection.sendRequest(lsp.ShutdownRequest.type);
    await connection.sendNotification(lsp.ExitNotification.type);
    const status = await new Promise((done) => server.on('exit', done));
    assert.equal(status, 0);
  } finally {
    connection.dispose();
    server.kill();
  }
}

test('findings come and go with the text', () => inHouse('drinks/shaken.gill', async ({ connection, uri, text, told, until }) => {
  const change = (version, fresh) => connection.sendNotification(lsp.DidChangeTextDocumentNotification.type, { textDocument: { uri, version }, contentChanges: [{ text: fresh }] });
  await change(2, text.replace('lemon juice', 'lemom juice'));
  await until(() => told.get(uri)?.length > 0);
  assert.equal(told.get(uri)[0].code, 'unknown-name');
  assert.ok(lsp.Diagnostic.is(told.get(uri)[0]));
  await change(3, text);
  await until(() => told.get(uri).length === 0);
}));

test('hover, completion and a definition', () => inHouse('drinks/shaken.gill', async ({ connection, text, document }) => {
  const at = (words) => ({ textDocument: document, position: placeOf(text, words) });
  const hover = await connection.sendRequest(lsp.HoverRequest.type, at('Fustian'));
  assert.ok(lsp.Hover.is(hover));
  assert.match(hover.contents.value, /\*\*Strength:\*\* 17\.\d ± \d\.\d % abv/);
  const list = await connection.sendRequest(lsp.CompletionRequest.type, at('quince cordial'));
  assert.ok(list.items.every((item) => typeof item.label === 'string' && lsp.TextEdit.is(item.textEdit)));
  assert.ok(list.items.some((item) => item.label === 'quince cordial' && /^prep, /.test(item.detail)));
  const place = await connection.sendRequest(lsp.DefinitionRequest.type, at('quince cordial'));
  assert.ok(lsp.Location.is(place));
  assert.equal(place.uri, uriOf('preps/acid.gill'));
}));

test('a name is changed in three files, with the version of the open one', () => inHouse('drinks/shaken.gill', async ({ connection, text, uri, document }) => {
  const edit = await connection.sendRequest(lsp.RenameRequest.type, { textDocument: document, position: placeOf(text, 'quince cordial'), newName: 'medlar cordial' });
  assert.ok(lsp.WorkspaceEdit.is(edit));
  assert.equal(edit.documentChanges.length, 3);
  assert.deepEqual(edit.documentChanges.map((one) => one.textDocument.version).sort(), [1, null, null]);
  assert.ok(edit.documentChanges.some((one) => one.textDocument.uri === uri));
  await assert.rejects(connection.sendRequest(lsp.RenameRequest.type, { textDocument: document, position: placeOf(text, 'quince cordial'), newName: 'sharp orange' }), /declared already/);
}));

test('layout, a mend, the outline, hints, lenses and colours', () => inHouse('drinks/shaken.gill', async ({ connection, text, uri, document, told, until, begun }) => {
  const messy = text.replace('  1/2 oz         lemon juice', ' 1/2oz lemon juice').replace('22.5 ml', '22,5 ml');
  await connection.sendNotification(lsp.DidChangeTextDocumentNotification.type, { textDocument: { uri, version: 2 }, contentChanges: [{ text: messy }] });
  const edits = await connection.sendRequest(lsp.DocumentFormattingRequest.type, { textDocument: document, options: { tabSize: 2, insertSpaces: true } });
  assert.equal(withEdits(messy, edits), messy.replace(' 1/2oz lemon juice', '  1/2 oz         lemon juice'));
  await until(() => told.get(uri)?.length > 0);
  const range = { start: placeOf(messy, '22,5'), end: placeOf(messy, '22,5') };
  const actions = await connection.sendRequest(lsp.CodeActionRequest.type, { textDocument: document, range, context: { diagnostics: told.get(uri) } });
  const mend = actions.find((one) => one.isPreferred);
  assert.equal(withEdits(messy, mend.edit.documentChanges[0].edits).split('22.5 ml').length, text.split('22.5 ml').length);
  const symbols = await connection.sendRequest(lsp.DocumentSymbolRequest.type, { textDocument: document });
  assert.ok(symbols.every((one) => lsp.DocumentSymbol.is(one)));
  assert.equal(symbols[0].name, 'Fustian');
  const whole = { start: { line: 0, character: 0 }, end: { line: 30, character: 0 } };
  const hints = await connection.sendRequest(lsp.InlayHintRequest.type, { textDocument: document, range: whole });
  assert.ok(hints.length > 5 && hints.every((one) => lsp.InlayHint.is(one)));
  const lenses = await connection.sendRequest(lsp.CodeLensRequest.type, { textDocument: document });
  assert.ok(lenses.every((one) => lsp.CodeLens.is(one)));
  const tokens = await connection.sendRequest(lsp.SemanticTokensRequest.type, { textDocument: document });
  const types = begun.capabilities.semanticTokensProvider.legend.tokenTypes;
  assert.ok(tokens.data.every((value, i) => i % 5 !== 3 || value < types.length));
}));

test('the sections of a menu are its inner symbols, and folds hold whole declarations', () => inHouse('menus/winter_2026.gill', async ({ connection, text, document }) => {
  const [menu] = await connection.sendRequest(lsp.DocumentSymbolRequest.type, { textDocument: document });
  assert.deepEqual(menu.children.map((one) => one.name), [...text.matchAll(/^ *section +(.*)$/gm)].map((found) => found[1]));
  const folds = await connection.sendRequest(lsp.FoldingRangeRequest.type, { textDocument: document });
  assert.ok(folds.every((one) => lsp.FoldingRange.is(one) && one.endLine < text.split('\n').length));
}));

test('the first check shows that it works, and changes on disk are asked for', () => inHouse('drinks/long.gill', async ({ registered, connection, progress }) => {
  const registrations = await registered;
  assert.equal(registrations[0].method, 'workspace/didChangeWatchedFiles');
  await connection.sendRequest(lsp.WorkspaceSymbolRequest.type, { query: 'Fust' });
  while (progress.length < 2) await new Promise((next) => setTimeout(next, 20));
  assert.deepEqual(progress.slice(0, 2), ['begin', 'end']);
}));
