#include "language_server/session.h"

#include <fmt/format.h>

#include <algorithm>

#include "language_server/uri.h"

namespace gill::language_server {

using source::FileId;
using source::Span;

Json position_of(const TextPositions& positions, std::uint32_t offset) {
  auto position = positions.position(offset);
  return {{"line", position.line}, {"character", position.character}};
}

void Session::notify(const std::string& method, Json params) {
  send_({{"jsonrpc", "2.0"}, {"method", method}, {"params", std::move(params)}});
}

void Session::ask(const std::string& method, Json params) {
  send_({{"jsonrpc", "2.0"},
         {"id", fmt::format("gill-{}", next_request_++)},
         {"method", method},
         {"params", std::move(params)}});
}

const editor::HouseView& Session::compiled(House& house) {
  positions_.clear();
  const auto* view = house.view(documents, request_stop);
  if (!view) throw ProtocolError(ErrorCode::request_cancelled, "the request was given up");
  return *view;
}

Asked Session::asked(const Json& params) {
  auto uri = params.at("textDocument").at("uri").get<std::string>();
  House* house = houses.find(uri);
  std::string path = path_of_uri(uri).value_or(std::string());
  std::string of_library = reference.path_in_library(path);
  // A file of the library is seen with any house; without one, with none.
  if (!of_library.empty() && !houses.all().empty()) house = houses.all().begin()->second.get();
  if (!house)
    throw ProtocolError(ErrorCode::invalid_params,
                        fmt::format("no document {} is open, and no open house holds it", uri));
  const auto& view = compiled(*house);
  const auto* document = documents.find(uri);
  std::string relative = !of_library.empty() ? of_library
                         : document          ? house->relative_path(*document)
                                             : house->relative_path({uri, path, real_path(path), {}, 0});
  const auto* file = view.file(relative);
  if (!file) throw ProtocolError(ErrorCode::invalid_params, fmt::format("{} is no file of its house", uri));
  return {&view, file, house, 0};
}

Asked Session::asked_at(const Json& params) {
  auto asked = this->asked(params);
  asked.offset = offset(*asked.view, asked.file->file_id, params.at("position"));
  return asked;
}

const TextPositions& Session::positions(const editor::HouseView& view, FileId file) {
  auto found = positions_.find(file);
  if (found == positions_.end())
    found = positions_.emplace(file, TextPositions(view.house().sources[file].text, client.encoding)).first;
  return found->second;
}

Json Session::position(const editor::HouseView& view, FileId file, std::uint32_t offset) {
  return position_of(positions(view, file), offset);
}

Json Session::range(const editor::HouseView& view, const Span& span) {
  return {{"start", position(view, span.file_id, span.begin)},
          {"end", position(view, span.file_id, span.end)}};
}

std::uint32_t Session::offset(const editor::HouseView& view, FileId file, const Json& position) {
  return positions(view, file).offset(position_in(position));
}

std::string Session::uri_of(const editor::HouseView& view, House& house, FileId file) {
  const auto& source = view.house().sources[file];
  if (source.from_library)
    return uri_of_path(reference.file_of_library(source.path).value_or("/" + source.path));
  std::string path = house.path_of(source.path);
  if (path.empty()) return house.lone_uri();
  // The client's own way to write it, where it has the file open.
  for (const auto& [uri, document] : documents.all())
    if (document.path == path || document.real_path == path) return uri;
  return uri_of_path(path);
}

Json Session::location(const editor::HouseView& view, House& house, const Span& span) {
  return {{"uri", uri_of(view, house, span.file_id)}, {"range", range(view, span)}};
}

Json Session::workspace_edit(const editor::HouseView& view, House& house,
                             const std::vector<diagnostics::Edit>& edits) {
  std::map<FileId, Json> by_file;
  for (const auto& edit : edits) {
    auto& list = by_file.try_emplace(edit.span.file_id, Json::array()).first->second;
    list.push_back({{"range", range(view, edit.span)}, {"newText", edit.text}});
  }
  Json result = Json::object();
  if (!client.versioned_edits) result["changes"] = Json::object();
  if (client.versioned_edits) result["documentChanges"] = Json::array();
  for (auto& [file, list] : by_file) {
    std::string uri = uri_of(view, house, file);
    const auto* document = documents.find(uri);
    if (!client.versioned_edits) {
      result["changes"][uri] = std::move(list);
      continue;
    }
    Json version = document ? Json(document->version) : Json(nullptr);
    result["documentChanges"].push_back(
        {{"textDocument", {{"uri", uri}, {"version", version}}}, {"edits", std::move(list)}});
  }
  return result;
}

}  // namespace gill::language_server
