#include "language_server/abilities.h"

#include "editor/tokens.h"

namespace gill::language_server {
namespace {

/// The value at a path of keys; null where any of them is missing.
Json at_path(const Json& value, std::initializer_list<const char*> keys) {
  const Json* here = &value;
  for (const char* key : keys) {
    if (!here->is_object() || !here->contains(key)) return nullptr;
    here = &(*here)[key];
  }
  return *here;
}

bool is_true(const Json& value, std::initializer_list<const char*> keys) {
  auto found = at_path(value, keys);
  return found.is_boolean() && found.get<bool>();
}

}  // namespace

ClientAbilities abilities_of(const Json& params) {
  ClientAbilities client;
  Json can = at_path(params, {"capabilities"});
  for (const auto& encoding : at_path(can, {"general", "positionEncodings"}))
    if (encoding == "utf-8") client.encoding = Encoding::utf8;
  client.snippets = is_true(can, {"textDocument", "completion", "completionItem", "snippetSupport"});
  client.versioned_edits = is_true(can, {"workspace", "workspaceEdit", "documentChanges"});
  client.related_places = is_true(can, {"textDocument", "publishDiagnostics", "relatedInformation"});
  client.rule_links = is_true(can, {"textDocument", "publishDiagnostics", "codeDescriptionSupport"});
  client.progress = is_true(can, {"window", "workDoneProgress"});
  client.watches_files = is_true(can, {"workspace", "didChangeWatchedFiles", "dynamicRegistration"});
  client.shows_documents = is_true(can, {"window", "showDocument", "support"});
  client.nested_symbols =
      is_true(can, {"textDocument", "documentSymbol", "hierarchicalDocumentSymbolSupport"});
  client.pictures = is_true(params, {"initializationOptions", "pictures"});
  return client;
}

Json server_abilities(const ClientAbilities& client, const std::string& version) {
  Json can;
  can["positionEncoding"] = client.encoding == Encoding::utf8 ? "utf-8" : "utf-16";
  can["textDocumentSync"] = {{"openClose", true}, {"change", 2}, {"save", true}};
  can["hoverProvider"] = true;
  can["completionProvider"] = {{"resolveProvider", true}, {"triggerCharacters", {" "}}};
  can["signatureHelpProvider"] = {{"triggerCharacters", {" "}}};
  for (const char* simple : {"definitionProvider", "declarationProvider", "referencesProvider",
                             "documentHighlightProvider", "documentSymbolProvider", "workspaceSymbolProvider",
                             "documentFormattingProvider", "documentRangeFormattingProvider",
                             "foldingRangeProvider", "callHierarchyProvider", "inlayHintProvider"})
    can[simple] = true;
  can["documentOnTypeFormattingProvider"] = {{"firstTriggerCharacter", "\n"}};
  can["codeActionProvider"] = {
      {"codeActionKinds", {"quickfix", "refactor.rewrite", "refactor.extract", "source.fixAll"}}};
  can["codeLensProvider"] = {{"resolveProvider", false}};
  can["documentLinkProvider"] = {{"resolveProvider", false}};
  can["renameProvider"] = {{"prepareProvider", true}};
  Json types = Json::array();
  for (auto name : editor::token_names) types.push_back(name);
  can["semanticTokensProvider"] = {{"legend", {{"tokenTypes", types}, {"tokenModifiers", Json::array()}}},
                                   {"full", {{"delta", true}}}};
  can["executeCommandProvider"] = {{"commands", {"gill.preview"}}};
  return {{"capabilities", can}, {"serverInfo", {{"name", "gill"}, {"version", version}}}};
}

}  // namespace gill::language_server
