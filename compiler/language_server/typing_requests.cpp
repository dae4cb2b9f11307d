#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "driver/house_meaning.h"
#include "driver/tidy_house.h"
#include "editor/actions.h"
#include "editor/completion.h"
#include "editor/hover.h"
#include "editor/line_changes.h"
#include "editor/printed_mends.h"
#include "language_server/session.h"

namespace gill::language_server {

namespace {

int kind_number(editor::Completion::Kind kind) {
  switch (kind) {
    case editor::Completion::Kind::name:
      return 6;  // Variable
    case editor::Completion::Kind::prep:
      return 3;  // Function
    case editor::Completion::Kind::step:
      return 2;  // Method
    case editor::Completion::Kind::property:
      return 10;  // Property
    case editor::Completion::Kind::unit:
      return 11;  // Unit
    case editor::Completion::Kind::word:
      return 12;  // Value
    case editor::Completion::Kind::rule:
      return 20;  // EnumMember
    case editor::Completion::Kind::snippet:
      return 15;  // Snippet
  }
  return 1;
}

/// The house as it was last compiled: what is offered while somebody types waits for no check.
const editor::HouseView& view_for_typing(Session& session, const Document& document) {
  auto& house = session.houses.of(document);
  if (const auto* last = house.last()) return *last;
  const auto* view = house.view(session.documents, session.request_stop);
  if (!view) throw ProtocolError(ErrorCode::request_cancelled, "the request was given up");
  return *view;
}

const Document& open_document(Session& session, const Json& params) {
  auto uri = params.at("textDocument").at("uri").get<std::string>();
  const auto* document = session.documents.find(uri);
  if (!document) throw ProtocolError(ErrorCode::invalid_params, fmt::format("no document {} is open", uri));
  return *document;
}

Json answer_completion(Session& session, const Json& params) {
  const auto& document = open_document(session, params);
  const auto& view = view_for_typing(session, document);
  TextPositions positions(document.text, session.client.encoding);
  auto offset = positions.offset(position_in(params.at("position")));
  auto found = editor::complete(view, document.text, offset, session.client.snippets);
  Json range{{"start", position_of(positions, found.begin)}, {"end", position_of(positions, offset)}};
  Json items = Json::array();
  for (std::size_t i = 0; i < found.items.size(); ++i) {
    const auto& item = found.items[i];
    Json one{{"label", item.label}, {"kind", kind_number(item.kind)}, {"sortText", fmt::format("{:05}", i)}};
    if (!item.detail.empty()) one["detail"] = item.detail;
    if (item.kind == editor::Completion::Kind::snippet) one["insertTextFormat"] = 2;
    one["textEdit"] = {{"range", range}, {"newText", item.insert.empty() ? item.label : item.insert}};
    if (item.declaration.valid())
      one["data"] = {{"uri", document.uri}, {"name", item.label}, {"declaration", item.declaration.value}};
    items.push_back(std::move(one));
  }
  return {{"isIncomplete", found.has_more}, {"items", std::move(items)}};
}

/// What the book says of a thing, when an editor shows it beside the list.
Json answer_resolve(Session& session, const Json& params) {
  Json item = params;
  if (!item.contains("data") || !item["data"].contains("declaration")) return item;
  const auto* document = session.documents.find(item["data"].value("uri", std::string()));
  if (!document) return item;
  const auto& view = view_for_typing(session, *document);
  editor::DeclarationId id{item["data"]["declaration"].get<std::uint32_t>()};
  // The house may have been compiled anew since: the name must still be that one's.
  std::string name = item["data"].value("name", std::string());
  if (name.size() > 1 && name.starts_with('"')) name = name.substr(1, name.size() - 2);
  if (id.index() >= view.house().names.size() || !view.is_called(id, name)) return item;
  auto told = editor::told_of(view, id, {});
  if (!told.empty()) item["documentation"] = {{"kind", "markdown"}, {"value", told}};
  return item;
}

Json answer_signature(Session& session, const Json& params) {
  const auto& document = open_document(session, params);
  const auto& view = view_for_typing(session, document);
  TextPositions positions(document.text, session.client.encoding);
  auto form = editor::line_form(view, document.text, positions.offset(position_in(params.at("position"))));
  if (!form) return nullptr;
  Json parts = Json::array();
  for (auto [begin, end] : form->parts) parts.push_back({{"label", {begin, end}}});
  Json signature{{"label", form->label}, {"parameters", std::move(parts)}, {"activeParameter", form->active}};
  if (!form->explained.empty()) signature["documentation"] = form->explained;
  return {{"signatures", {signature}}, {"activeSignature", 0}, {"activeParameter", form->active}};
}

// ---- layout

/// Changes of a text; those of some of its lines alone mean something else where a line was read as two.
std::string with_changes(std::string_view text, const std::vector<editor::LineChange>& changes) {
  std::string result;
  std::size_t at = 0;
  for (const auto& change : changes) {
    result += text.substr(at, change.begin - at);
    result += change.text;
    at = change.end;
  }
  return result += text.substr(at);
}

std::string without_space(std::string_view text) {
  std::string result(text);
  std::erase_if(result, [](char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; });
  return result;
}

/// The lines from first to last that a tidy text has otherwise. Where they would say anything else without
/// the rest, only their white space changes.
std::vector<editor::LineChange> changes_within(const Document& document, const driver::HouseFiles& house,
                                               const std::string& path, const std::string& tidied,
                                               std::uint32_t first_line, std::uint32_t last_line) {
  auto changes = editor::line_changes(document.text, tidied);
  auto all = changes.size();
  std::erase_if(changes, [&](const auto& change) {
    return change.first_line < first_line ||
           std::max(change.first_line + 1, change.last_line) > last_line + 1;
  });
  if (changes.empty() || changes.size() == all) return changes;
  auto anew = house;
  for (auto& file : anew.files)
    if (file.path == path) file.text = with_changes(document.text, changes);
  if (driver::mean_the_same(house, anew)) return changes;
  std::erase_if(changes, [&](const auto& change) {
    auto before = std::string_view(document.text).substr(change.begin, change.end - change.begin);
    return without_space(before) != without_space(change.text);
  });
  return changes;
}

/// The edits that tidy those lines of a document; every meaning is held by the driver.
Json tidy_edits(Session& session, const Json& params, std::uint32_t first_line, std::uint32_t last_line) {
  const auto& document = open_document(session, params);
  auto& house = session.houses.of(document);
  std::string path = house.relative_path(document);
  std::set<std::string> only = {path};
  const auto& files = house.files(session.documents);
  auto tidied = driver::tidy_house(files, &only);
  auto found = std::find_if(tidied.files.begin(), tidied.files.end(),
                            [&](const driver::HouseFile& file) { return file.path == path; });
  Json edits = Json::array();
  if (found == tidied.files.end()) return edits;
  TextPositions positions(document.text, session.client.encoding);
  for (const auto& change : changes_within(document, files, path, found->text, first_line, last_line)) {
    Json range{{"start", position_of(positions, change.begin)}, {"end", position_of(positions, change.end)}};
    edits.push_back({{"range", std::move(range)}, {"newText", change.text}});
  }
  return edits;
}

constexpr std::uint32_t last_of_all = UINT32_MAX - 1;

Json answer_formatting(Session& session, const Json& params) {
  return tidy_edits(session, params, 0, last_of_all);
}

Json answer_range_formatting(Session& session, const Json& params) {
  auto begin = position_in(params.at("range").at("start")), end = position_in(params.at("range").at("end"));
  // A selection of whole lines ends in front of the next one.
  bool ends_before = end.character == 0 && end.line > begin.line;
  return tidy_edits(session, params, begin.line,
                    std::min(ends_before ? end.line - 1 : end.line, last_of_all));
}

/// The line that Enter has just ended.
Json answer_on_type(Session& session, const Json& params) {
  auto position = position_in(params.at("position"));
  auto line = std::min(position.line > 0 ? position.line - 1 : 0, last_of_all);
  return tidy_edits(session, params, line, line);
}

// ---- what can be done

std::string_view kind_name(editor::Action::Kind kind) {
  switch (kind) {
    case editor::Action::Kind::mend:
      return "quickfix";
    case editor::Action::Kind::rewrite:
      return "refactor.rewrite";
    case editor::Action::Kind::extract:
      return "refactor.extract";
    case editor::Action::Kind::mend_all:
      return "source.fixAll";
  }
  return "quickfix";
}

/// True where the client wants actions of that kind: kinds are a tree, and a part of the way names all below
/// it.
bool is_wanted(const Json& params, std::string_view kind) {
  if (!params.contains("context") || !params["context"].contains("only") ||
      !params["context"]["only"].is_array())
    return true;
  for (const auto& only : params["context"]["only"]) {
    auto wanted = only.get<std::string>();
    if (wanted.empty() || kind == wanted || kind.starts_with(wanted + ".")) return true;
  }
  return false;
}

/// What findings print to write, where it ends them: each way is tried, and the first that does is offered.
std::vector<editor::Action> tried_mends(Session& session, const Asked& asked, std::uint32_t begin,
                                        std::uint32_t end) {
  // A selection of a whole file is not compiled a thousand times.
  constexpr std::size_t max_trials = 24;
  const auto mends = editor::printed_mends(*asked.view, *asked.file, begin, end);
  const auto before = asked.view->house().findings;
  const auto& source = asked.view->text(*asked.file);
  const std::string path = source.path, text = source.text;
  std::vector<std::string> texts;
  std::vector<std::pair<std::size_t, std::size_t>> tried;
  for (std::size_t i = 0; i < mends.size(); ++i)
    for (std::size_t way = 0; way < mends[i].ways.size() && texts.size() < max_trials; ++way) {
      const auto& edit = mends[i].ways[way];
      texts.push_back(text.substr(0, edit.span.begin) + edit.text + text.substr(edit.span.end));
      tried.emplace_back(i, way);
    }
  std::vector<editor::Action> found;
  std::set<std::size_t> ended;
  asked.house->try_texts(
      session.documents, path, texts, [&](std::size_t trial, const driver::Compilation& compiled) {
        auto [i, way] = tried[trial];
        const auto& mend = mends[i];
        if (ended.contains(i) || !editor::has_ended(before[mend.finding], before, compiled.findings)) return;
        ended.insert(i);
        found.push_back({editor::Action::Kind::mend, mend.title, {mend.ways[way]}, false, mend.finding});
      });
  return found;
}

Json answer_actions(Session& session, const Json& params) {
  auto asked = session.asked(params);
  auto begin = session.offset(*asked.view, asked.file->file_id, params.at("range").at("start"));
  auto end = session.offset(*asked.view, asked.file->file_id, params.at("range").at("end"));
  if (end < begin) std::swap(begin, end);
  std::vector<editor::Action> actions;
  if (is_wanted(params, kind_name(editor::Action::Kind::mend)))
    actions = tried_mends(session, asked, begin, end);
  // The house was compiled with other texts since.
  asked = session.asked(params);
  for (auto& action : editor::actions(*asked.view, *asked.file, begin, end))
    actions.push_back(std::move(action));
  Json list = Json::array();
  for (const auto& action : actions) {
    auto kind = kind_name(action.kind);
    if (!is_wanted(params, kind)) continue;
    Json one{{"title", action.title},
             {"kind", kind},
             {"edit", session.workspace_edit(*asked.view, *asked.house, action.edits)}};
    if (action.is_preferred) one["isPreferred"] = true;
    if (action.finding)
      one["diagnostics"] = {
          session.diagnostic(*asked.view, *asked.house, asked.view->house().findings[*action.finding])};
    list.push_back(std::move(one));
  }
  return list;
}

}  // namespace

const std::vector<RequestHandler>& typing_requests() {
  static const std::vector<RequestHandler> requests = {
      {"textDocument/completion", answer_completion},
      {"completionItem/resolve", answer_resolve},
      {"textDocument/signatureHelp", answer_signature},
      {"textDocument/formatting", answer_formatting},
      {"textDocument/rangeFormatting", answer_range_formatting},
      {"textDocument/onTypeFormatting", answer_on_type},
      {"textDocument/codeAction", answer_actions},
  };
  return requests;
}

}  // namespace gill::language_server
