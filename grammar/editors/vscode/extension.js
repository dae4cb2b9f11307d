// Starts `gill lsp` for the .gill files that are open; everything that the editor then shows is the server's.
'use strict';
const { workspace } = require('vscode');
const { LanguageClient } = require('vscode-languageclient/node');

let client;

function activate() {
  const settings = workspace.getConfiguration('gill');
  const server = { command: settings.get('program') || 'gill', args: ['lsp'] };
  client = new LanguageClient('gill', 'Gill', { run: server, debug: server }, {
    documentSelector: [{ language: 'gill', scheme: 'file' }],
    initializationOptions: { pictures: settings.get('pictures') === true },
    synchronize: { fileEvents: workspace.createFileSystemWatcher('**/*.gill') },
  });
  return client.start();
}

function deactivate() {
  return client && client.stop();
}

module.exports = { activate, deactivate };
