#include <fmt/format.h>

#include <algorithm>

#include "editor/hints.h"
#include "editor/outline.h"
#include "editor/tokens.h"
#include "language_server/session.h"
#include "language_server/uri.h"
#include "render/document/page_names.h"

namespace gill::language_server {

using symbols::DeclarationKind;

namespace {

int symbol_number(DeclarationKind kind) {
  switch (kind) {
    case DeclarationKind::house:
      return 2;  // Module
    case DeclarationKind::unit:
      return 16;  // Number
    case DeclarationKind::ingredient:
      return 14;  // Constant
    case DeclarationKind::prep:
      return 12;  // Function
    case DeclarationKind::glass:
    case DeclarationKind::ice:
      return 19;  // Object
    case DeclarationKind::family:
      return 11;  // Interface
    case DeclarationKind::drink:
      return 5;  // Class
    case DeclarationKind::prices:
      return 20;  // Key
    case DeclarationKind::menu:
      return 4;  // Package
  }
  return 13;
}

constexpr int section_number = 3;  // Namespace

Json symbol(Session& session, const Asked& asked, const editor::OutlineEntry& entry) {
  Json one{{"name", entry.name.empty() ? "(no name)" : entry.name},
           {"kind", entry.is_section ? section_number : symbol_number(entry.kind)},
           {"range", session.range(*asked.view, entry.whole)},
           {"selectionRange", session.range(*asked.view, entry.name_span)}};
  if (!entry.detail.empty()) one["detail"] = entry.detail;
  for (const auto& inner : entry.inner) one["children"].push_back(symbol(session, asked, inner));
  return one;
}

Json answer_symbols(Session& session, const Json& params) {
  auto asked = session.asked(params);
  Json list = Json::array();
  for (const auto& entry : editor::outline(*asked.view, *asked.file)) {
    if (session.client.nested_symbols) {
      list.push_back(symbol(session, asked, entry));
      continue;
    }
    list.push_back({{"name", entry.name},
                    {"kind", symbol_number(entry.kind)},
                    {"location", session.location(*asked.view, *asked.house, entry.whole)}});
  }
  return list;
}

Json answer_workspace_symbols(Session& session, const Json& params) {
  constexpr std::size_t most = 500;
  Json list = Json::array();
  auto query = params.value("query", std::string());
  for (auto& [key, house] : session.houses.all()) {
    Asked asked{house->view(session.documents, session.request_stop), nullptr, house.get(), 0};
    if (!asked.view) throw ProtocolError(ErrorCode::request_cancelled, "the request was given up");
    session.begin_positions();
    for (const auto& place : editor::find_declarations(*asked.view, query, most)) {
      const auto& declaration = asked.view->house().names[place.declaration];
      list.push_back({{"name", std::string(asked.view->house().sources.text(place.span))},
                      {"kind", symbol_number(declaration.kind)},
                      {"location", session.location(*asked.view, *house, place.span)},
                      {"containerName", asked.view->house().sources[place.span.file_id].path}});
    }
  }
  return list;
}

Json answer_folding(Session& session, const Json& params) {
  auto asked = session.asked(params);
  Json list = Json::array();
  for (const auto& fold : editor::folds(*asked.view, *asked.file)) {
    Json one{{"startLine", fold.first_line}, {"endLine", fold.last_line}};
    if (fold.is_comment) one["kind"] = "comment";
    list.push_back(std::move(one));
  }
  return list;
}

Json answer_links(Session& session, const Json& params) {
  auto asked = session.asked(params);
  Json list = Json::array();
  for (const auto& link : editor::links(*asked.view, *asked.file))
    list.push_back({{"range", session.range(*asked.view, link.span)}, {"target", link.address}});
  return list;
}

Json answer_lenses(Session& session, const Json& params) {
  auto asked = session.asked(params);
  auto uri = params.at("textDocument").at("uri").get<std::string>();
  Json list = Json::array();
  for (const auto& lens : editor::lenses(*asked.view, *asked.file)) {
    bool opens = lens.kind == editor::Lens::Kind::preview;
    Json command{{"title", lens.words}, {"command", opens ? "gill.preview" : ""}};
    auto range = session.range(*asked.view, lens.span);
    if (opens) command["arguments"] = {{{"textDocument", {{"uri", uri}}}, {"position", range["start"]}}};
    list.push_back({{"range", std::move(range)}, {"command", std::move(command)}});
  }
  return list;
}

Json answer_hints(Session& session, const Json& params) {
  auto asked = session.asked(params);
  auto begin = session.offset(*asked.view, asked.file->file_id, params.at("range").at("start"));
  auto end = session.offset(*asked.view, asked.file->file_id, params.at("range").at("end"));
  Json list = Json::array();
  for (const auto& hint : editor::hints(*asked.view, *asked.file, begin, end))
    list.push_back({{"position", session.position(*asked.view, asked.file->file_id, hint.offset)},
                    {"label", hint.words},
                    {"paddingLeft", true}});
  return list;
}

// ---- colours

/// Tokens as the protocol packs them: five numbers each, places relative to the token before.
std::vector<std::uint32_t> packed_tokens(Session& session, const Asked& asked) {
  std::vector<std::uint32_t> packed;
  Position last;
  const auto& positions = session.positions(*asked.view, asked.file->file_id);
  for (const auto& token : editor::coloured_tokens(*asked.view, *asked.file)) {
    auto begin = positions.position(token.begin), end = positions.position(token.end);
    if (end.line != begin.line || end.character <= begin.character) continue;
    bool is_same_line = begin.line == last.line;
    packed.insert(packed.end(),
                  {begin.line - last.line, is_same_line ? begin.character - last.character : begin.character,
                   end.character - begin.character, static_cast<std::uint32_t>(token.type), 0});
    last = begin;
  }
  return packed;
}

std::string remember(Session& session, const Json& params, const std::vector<std::uint32_t>& packed) {
  auto state = std::to_string(session.next_state++);
  session.told_tokens[params.at("textDocument").at("uri").get<std::string>()] = {state, packed};
  return state;
}

Json answer_tokens(Session& session, const Json& params) {
  auto packed = packed_tokens(session, session.asked(params));
  return {{"resultId", remember(session, params, packed)}, {"data", packed}};
}

/// What differs from what was sent before: one stretch, with what is the same in front and behind left out.
Json answer_token_changes(Session& session, const Json& params) {
  auto told = session.told_tokens.find(params.at("textDocument").at("uri").get<std::string>());
  if (told == session.told_tokens.end() ||
      told->second.first != params.at("previousResultId").get<std::string>())
    return answer_tokens(session, params);
  auto before = std::move(told->second.second);
  auto now = packed_tokens(session, session.asked(params));
  auto [old_end, new_end] = std::mismatch(before.begin(), before.end(), now.begin(), now.end());
  auto first = old_end - before.begin();
  auto most = std::min(before.size(), now.size()) - static_cast<std::size_t>(first);
  std::size_t same = 0;
  while (same < most && before[before.size() - 1 - same] == now[now.size() - 1 - same]) ++same;
  std::vector<std::uint32_t> fresh(now.begin() + first, now.end() - static_cast<std::ptrdiff_t>(same));
  auto taken = before.size() - same - static_cast<std::size_t>(first);
  Json edits = Json::array();
  if (taken > 0 || !fresh.empty())
    edits.push_back({{"start", first}, {"deleteCount", taken}, {"data", fresh}});
  return {{"resultId", remember(session, params, now)}, {"edits", std::move(edits)}};
}

// ---- a page of the book

Json page_of(Session& session, const Json& params) {
  auto asked = session.asked_at(params);
  const auto* place = asked.view->names().at(asked.file->file_id, asked.offset);
  auto holder = asked.view->holder(*asked.file, asked.offset);
  auto id = place ? place->declaration : holder ? holder->id : editor::DeclarationId{};
  // A glass or a family has no page of its own: the drink that names it is meant.
  if (!asked.view->drink(id) && !asked.view->stock(id) && holder) id = holder->id;
  std::string html;
  if (auto drink = asked.view->drink(id)) html = render::page_alone(asked.view->input(), *drink);
  if (auto stock = asked.view->stock(id)) html = render::page_alone(asked.view->input(), *stock);
  if (html.empty())
    throw ProtocolError(ErrorCode::request_failed,
                        "No drink, prep or ingredient stands here: none has a page.");
  return {{"title", asked.view->house().names[id].name}, {"html", std::move(html)}};
}

Json answer_command(Session& session, const Json& params) {
  if (params.at("command") != "gill.preview")
    throw ProtocolError(ErrorCode::invalid_params, "there is no command of that name");
  auto page = page_of(session, params.at("arguments").at(0));
  auto name = render::document::plain_file_name(page["title"].get<std::string>());
  auto path = session.reference.write_page(name, page["html"].get<std::string>());
  if (!path)
    throw ProtocolError(ErrorCode::request_failed, "The page cannot be written to the cache folder.");
  auto uri = uri_of_path(*path);
  if (session.client.shows_documents) session.ask("window/showDocument", {{"uri", uri}, {"external", true}});
  return {{"title", page["title"]}, {"uri", uri}};
}

}  // namespace

const std::vector<RequestHandler>& page_requests() {
  static const std::vector<RequestHandler> requests = {
      {"textDocument/documentSymbol", answer_symbols},
      {"workspace/symbol", answer_workspace_symbols},
      {"textDocument/foldingRange", answer_folding},
      {"textDocument/documentLink", answer_links},
      {"textDocument/codeLens", answer_lenses},
      {"textDocument/inlayHint", answer_hints},
      {"textDocument/semanticTokens/full", answer_tokens},
      {"textDocument/semanticTokens/full/delta", answer_token_changes},
      {"gill/preview", page_of},
      {"workspace/executeCommand", answer_command},
  };
  return requests;
}

}  // namespace gill::language_server
