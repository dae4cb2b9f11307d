#include <fmt/format.h>

#include "base/fingerprint.h"
#include "language_server/session.h"
#include "language_server/uri.h"

namespace gill::language_server {

using diagnostics::Diagnostic;
using diagnostics::Rule;

namespace {

int severity_number(diagnostics::Severity severity) {
  switch (severity) {
    case diagnostics::Severity::error:
      return 1;
    case diagnostics::Severity::warning:
      return 2;
    case diagnostics::Severity::note:
      return 3;
  }
  return 3;
}

/// What nothing needs is shown faded.
bool is_of_no_use(Rule rule) { return rule == Rule::idle_allow || rule == Rule::unused_prep; }

std::uint64_t fingerprint_of(const Json& value) {
  base::Fingerprint fingerprint;
  fingerprint.add(value.dump(-1, ' ', false, Json::error_handler_t::replace));
  return fingerprint.value();
}

std::string key_of(const House& house) { return house.folder().empty() ? house.lone_uri() : house.folder(); }

}  // namespace

Json Session::diagnostic(const editor::HouseView& view, House& house, const Diagnostic& finding) {
  const auto& rule = diagnostics::info(finding.rule);
  Json result{{"range", range(view, finding.span)},
              {"severity", severity_number(finding.severity)},
              {"code", rule.name},
              {"source", "gill"},
              {"message", finding.help.empty() ? finding.message : finding.message + "\n" + finding.help}};
  if (client.rule_links)
    if (auto page = reference.rule_page(std::string(rule.name)))
      result["codeDescription"] = {{"href", uri_of_path(*page)}};
  if (is_of_no_use(finding.rule)) result["tags"] = {1};
  if (client.related_places && !finding.related.empty()) {
    result["relatedInformation"] = Json::array();
    for (const auto& related : finding.related)
      result["relatedInformation"].push_back(
          {{"location", location(view, house, related.span)}, {"message", related.message}});
  }
  return result;
}

void Session::tell(const std::string& uri, const std::string& house_key, Json findings) {
  auto& told = told_[house_key];
  auto fingerprint = findings.empty() ? 0 : fingerprint_of(findings);
  auto before = told.find(uri);
  if (before == told.end() ? findings.empty() : before->second == fingerprint) return;
  if (findings.empty())
    told.erase(uri);
  else
    told[uri] = fingerprint;
  Json params{{"uri", uri}, {"diagnostics", std::move(findings)}};
  if (const auto* document = documents.find(uri)) params["version"] = document->version;
  notify("textDocument/publishDiagnostics", std::move(params));
}

void Session::publish(House& house, const editor::HouseView& view) {
  std::map<std::string, Json> by_uri;
  for (std::size_t i = view.house().files.size() - view.house().house_file_count;
       i < view.house().files.size(); ++i)
    by_uri.emplace(uri_of(view, house, view.house().files[i].file_id), Json::array());
  std::map<source::FileId, Json*> lists;
  for (const auto& finding : view.house().findings) {
    if (view.house().sources[finding.span.file_id].from_library) continue;
    auto& list = lists[finding.span.file_id];
    if (!list)
      list = &by_uri.try_emplace(uri_of(view, house, finding.span.file_id), Json::array()).first->second;
    list->push_back(diagnostic(view, house, finding));
  }
  std::string key = key_of(house);
  // A file that is gone takes its findings with it.
  std::vector<std::string> gone;
  for (const auto& [uri, fingerprint] : told_[key])
    if (!by_uri.contains(uri)) gone.push_back(uri);
  for (const auto& uri : gone) tell(uri, key, Json::array());
  for (auto& [uri, findings] : by_uri) tell(uri, key, std::move(findings));
}

void Session::check(House& house, const std::stop_token& stop) {
  // The first look at a house is the one for which a person waits.
  bool shows = client.progress && !house.was_ever_checked();
  std::string token = fmt::format("gill-first-check-{}", next_state++);
  if (shows) {
    ask("window/workDoneProgress/create", {{"token", token}});
    notify("$/progress", {{"token", token}, {"value", {{"kind", "begin"}, {"title", "Reading the house"}}}});
  }
  positions_.clear();
  if (const auto* view = house.view(documents, false, stop)) {
    house.was_checked();
    publish(house, *view);
    if (!house.trouble().empty())
      notify("window/logMessage",
             {{"type", 2}, {"message", house.trouble() + "; only what is open is read"}});
  }
  if (shows) notify("$/progress", {{"token", token}, {"value", {{"kind", "end"}}}});
}

void Session::forget_unused() {
  for (const auto& key : houses.drop_unused()) {
    auto told = told_.find(key);
    if (told == told_.end()) continue;
    std::vector<std::string> uris;
    for (const auto& [uri, fingerprint] : told->second) uris.push_back(uri);
    for (const auto& uri : uris) tell(uri, key, Json::array());
    told_.erase(key);
  }
}

}  // namespace gill::language_server
