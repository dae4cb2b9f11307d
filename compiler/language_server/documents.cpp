#include "language_server/documents.h"

#include <filesystem>

#include "language_server/uri.h"

namespace gill::language_server {

using base::Json;

Position position_in(const Json& value) {
  auto number = [&](const char* key) -> std::uint32_t {
    auto wanted = value.at(key).get<double>();
    if (!(wanted > 0)) return 0;
    return wanted >= UINT32_MAX ? UINT32_MAX : static_cast<std::uint32_t>(wanted);
  };
  return {number("line"), number("character")};
}

namespace {

void apply(std::string& text, const Json& change, Encoding encoding) {
  auto fresh = change.at("text").get<std::string>();
  auto range = change.find("range");
  if (range == change.end() || range->is_null()) {
    text = std::move(fresh);
    return;
  }
  TextPositions positions(text, encoding);
  auto begin = positions.offset(position_in(range->at("start")));
  auto end = positions.offset(position_in(range->at("end")));
  if (end < begin) std::swap(begin, end);
  text.replace(begin, end - begin, fresh);
}

}  // namespace

std::string real_path(const std::string& path) {
  std::error_code error;
  auto whole = std::filesystem::weakly_canonical(path, error);
  return error ? path : whole.string();
}

Document& Documents::open(const Json& item) {
  Document document{item.at("uri").get<std::string>(),
                    {},
                    {},
                    item.at("text").get<std::string>(),
                    item.value("version", std::int64_t{0})};
  if (auto path = path_of_uri(document.uri)) document.path = *path, document.real_path = real_path(*path);
  if (!document.path.empty()) uri_by_path_[document.path] = document.uri;
  return open_[document.uri] = std::move(document);
}

Document* Documents::change(const std::string& uri, std::int64_t version, const Json& changes,
                            Encoding encoding) {
  auto found = open_.find(uri);
  if (found == open_.end()) return nullptr;
  for (const auto& change : changes) apply(found->second.text, change, encoding);
  found->second.version = version;
  return &found->second;
}

std::optional<Document> Documents::close(const std::string& uri) {
  auto found = open_.find(uri);
  if (found == open_.end()) return std::nullopt;
  auto document = std::move(found->second);
  open_.erase(found);
  if (auto path = uri_by_path_.find(document.path); path != uri_by_path_.end() && path->second == uri)
    uri_by_path_.erase(path);
  return document;
}

const Document* Documents::find(const std::string& uri) const {
  auto found = open_.find(uri);
  return found == open_.end() ? nullptr : &found->second;
}

const Document* Documents::at_path(const std::string& path) const {
  auto found = uri_by_path_.find(path);
  return found == uri_by_path_.end() ? nullptr : find(found->second);
}

}  // namespace gill::language_server
