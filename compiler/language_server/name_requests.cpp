#include <fmt/format.h>

#include "editor/calls.h"
#include "editor/hover.h"
#include "editor/rename.h"
#include "language_server/session.h"

namespace gill::language_server {

using editor::NamePlace;
using symbols::DeclarationId;

namespace {

Json answer_hover(Session& session, const Json& params) {
  auto asked = session.asked_at(params);
  auto hover = editor::hover(*asked.view, *asked.file, asked.offset,
                             session.client.pictures ? editor::Pictures::inside : editor::Pictures::left_out);
  if (!hover) return nullptr;
  return {{"contents", {{"kind", "markdown"}, {"value", hover->markdown}}},
          {"range", session.range(*asked.view, hover->span)}};
}

Json answer_definition(Session& session, const Json& params) {
  auto asked = session.asked_at(params);
  const auto* place = asked.view->names().at(asked.file->file_id, asked.offset);
  if (!place) return nullptr;
  return session.location(*asked.view, *asked.house, asked.view->names().declared(place->declaration));
}

Json answer_references(Session& session, const Json& params) {
  auto asked = session.asked_at(params);
  const auto* place = asked.view->names().at(asked.file->file_id, asked.offset);
  if (!place) return nullptr;
  bool with_declaration = !params.contains("context") || params["context"].value("includeDeclaration", true);
  Json places = Json::array();
  for (const auto& one : asked.view->names().of(place->declaration))
    if (with_declaration || !one.declares)
      places.push_back(session.location(*asked.view, *asked.house, one.span));
  return places;
}

Json answer_highlight(Session& session, const Json& params) {
  auto asked = session.asked_at(params);
  const auto* place = asked.view->names().at(asked.file->file_id, asked.offset);
  Json places = Json::array();
  if (!place) return places;
  constexpr int read = 2, written = 3;
  for (const auto& one : asked.view->names().of(place->declaration))
    if (one.span.file_id == asked.file->file_id)
      places.push_back(
          {{"range", session.range(*asked.view, one.span)}, {"kind", one.declares ? written : read}});
  return places;
}

Json answer_prepare_rename(Session& session, const Json& params) {
  auto asked = session.asked_at(params);
  auto place = editor::renamed_at(*asked.view, *asked.file, asked.offset);
  if (auto* refusal = std::get_if<editor::Refusal>(&place))
    throw ProtocolError(ErrorCode::request_failed, refusal->why);
  const auto& span = std::get<NamePlace>(place).span;
  return {{"range", session.range(*asked.view, span)},
          {"placeholder", std::string(asked.view->house().sources.text(span))}};
}

Json answer_rename(Session& session, const Json& params) {
  auto asked = session.asked_at(params);
  auto edits =
      editor::rename(*asked.view, *asked.file, asked.offset, params.at("newName").get<std::string>());
  if (auto* refusal = std::get_if<editor::Refusal>(&edits))
    throw ProtocolError(ErrorCode::request_failed, refusal->why);
  return session.workspace_edit(*asked.view, *asked.house, std::get<std::vector<diagnostics::Edit>>(edits));
}

// ---- which needs what

Json call_item(Session& session, const Asked& asked, DeclarationId id) {
  constexpr int function = 12, constant = 14;
  const auto& declaration = asked.view->house().names[id];
  const auto& file = asked.view->house().files[declaration.file_index];
  auto whole = asked.view->extent(file, declaration.declaration_index);
  bool is_bought = declaration.kind == symbols::DeclarationKind::ingredient;
  return {{"name", declaration.name},
          {"kind", is_bought ? constant : function},
          {"detail", symbols::keyword_of(declaration.kind)},
          {"uri", session.uri_of(*asked.view, *asked.house, file.file_id)},
          {"range", session.range(*asked.view, whole)},
          {"selectionRange", session.range(*asked.view, asked.view->names().declared(id))}};
}

/// The declaration that an item of the hierarchy stands for.
std::pair<Asked, DeclarationId> item_asked(Session& session, const Json& params) {
  const auto& item = params.at("item");
  auto asked = session.asked_at(
      {{"textDocument", {{"uri", item.at("uri")}}}, {"position", item.at("selectionRange").at("start")}});
  const auto* place = asked.view->names().at(asked.file->file_id, asked.offset);
  return {asked, place ? place->declaration : DeclarationId{}};
}

Json answer_prepare_calls(Session& session, const Json& params) {
  auto asked = session.asked_at(params);
  const auto* place = asked.view->names().at(asked.file->file_id, asked.offset);
  if (!place || (!asked.view->drink(place->declaration) && !asked.view->stock(place->declaration)))
    return nullptr;
  return Json::array({call_item(session, asked, place->declaration)});
}

Json calls(Session& session, const Asked& asked, const std::vector<editor::Need>& found, const char* end) {
  Json list = Json::array();
  for (const auto& need : found) {
    Json ranges = Json::array();
    for (const auto& place : need.places) ranges.push_back(session.range(*asked.view, place));
    list.push_back({{end, call_item(session, asked, need.declaration)}, {"fromRanges", std::move(ranges)}});
  }
  return list;
}

Json answer_incoming(Session& session, const Json& params) {
  auto [asked, id] = item_asked(session, params);
  return id.valid() ? calls(session, asked, editor::needed_by(*asked.view, id), "from") : Json(nullptr);
}

Json answer_outgoing(Session& session, const Json& params) {
  auto [asked, id] = item_asked(session, params);
  return id.valid() ? calls(session, asked, editor::needs(*asked.view, id), "to") : Json(nullptr);
}

}  // namespace

const std::vector<RequestHandler>& name_requests() {
  static const std::vector<RequestHandler> requests = {
      {"textDocument/hover", answer_hover},
      {"textDocument/definition", answer_definition},
      {"textDocument/declaration", answer_definition},
      {"textDocument/references", answer_references},
      {"textDocument/documentHighlight", answer_highlight},
      {"textDocument/prepareRename", answer_prepare_rename},
      {"textDocument/rename", answer_rename},
      {"textDocument/prepareCallHierarchy", answer_prepare_calls},
      {"callHierarchy/incomingCalls", answer_incoming},
      {"callHierarchy/outgoingCalls", answer_outgoing},
  };
  return requests;
}

}  // namespace gill::language_server
