#include <fmt/format.h>

#include <set>

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

void add(base::Fingerprint& fingerprint, const Json& value) {
  if (value.is_string()) return fingerprint.add(value.get_ref<const std::string&>());
  if (!value.is_structured()) return fingerprint.add(value.dump());
  for (const auto& item : value.items()) {
    if (value.is_object()) fingerprint.add(item.key());
    add(fingerprint, item.value());
  }
}

/// Of the findings of a file, as they are sent. Texts may be no UTF-8.
std::uint64_t fingerprint_of(const Json& findings) {
  base::Fingerprint fingerprint;
  add(fingerprint, findings);
  return fingerprint.value();
}

/// Of the findings of a file, by the places in its text. One that speaks of another file's text is told anew
/// each time that is looked at.
std::uint64_t fingerprint_of(const std::vector<const Diagnostic*>& findings) {
  static std::uint64_t times = 0;
  std::uint64_t all = 1469598103934665603U;
  auto add = [&](std::uint64_t value) { all = (all ^ value) * 1099511628211U + (all >> 29); };
  for (const auto* finding : findings) {
    add((static_cast<std::uint64_t>(finding->span.begin) << 32) + finding->span.end);
    add((static_cast<std::uint64_t>(finding->rule) << 8) + static_cast<std::uint64_t>(finding->severity));
    add(std::hash<std::string>()(finding->message));
    add(std::hash<std::string>()(finding->help));
    if (!finding->related.empty()) add(++times);
  }
  return all;
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

void Session::tell(const std::string& uri, const std::string& house_key, Json findings,
                   std::uint64_t fingerprint) {
  auto& told = told_[house_key];
  const auto* document = documents.find(uri);
  std::uint64_t message = findings.empty() ? 0 : fingerprint_of(findings);
  auto before = told.find(uri);
  // Of what is open a client hears once even where nothing is found: it can tell that from not being told
  // yet.
  bool is_known = before == told.end() ? findings.empty() && !document : before->second.message == message;
  if (findings.empty() && !document)
    told.erase(uri);
  else
    told[uri] = {fingerprint, message};
  if (is_known) return;
  Json params{{"uri", uri}, {"diagnostics", std::move(findings)}};
  if (document) params["version"] = document->version;
  notify("textDocument/publishDiagnostics", std::move(params));
}

void Session::publish(House& house, const editor::HouseView& view) {
  const auto& compiled = view.house();
  std::map<source::FileId, std::vector<const Diagnostic*>> by_file;
  for (const auto& finding : compiled.findings) by_file[finding.span.file_id].push_back(&finding);
  std::string key = key_of(house);
  std::set<std::string> present;
  for (std::size_t i = compiled.files.size() - compiled.house_file_count; i < compiled.files.size(); ++i) {
    auto file = compiled.files[i].file_id;
    std::string uri = uri_of(view, house, file);
    present.insert(uri);
    const auto& findings = by_file[file];
    // What stands in the same places of the same text makes the same message.
    auto fingerprint = fingerprint_of(findings);
    auto told = told_[key].find(uri);
    bool is_told = told == told_[key].end() ? findings.empty() && !documents.find(uri)
                                            : told->second.findings == fingerprint;
    if (is_told && !house.has_new_text(compiled.sources[file].path)) continue;
    Json list = Json::array();
    for (const auto* finding : findings) list.push_back(diagnostic(view, house, *finding));
    tell(uri, key, std::move(list), fingerprint);
  }
  // A file that is gone takes its findings with it.
  std::vector<std::string> gone;
  for (const auto& [uri, told] : told_[key])
    if (!present.contains(uri)) gone.push_back(uri);
  for (const auto& uri : gone) tell(uri, key, Json::array());
  house.was_told();
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
  if (const auto* view = house.view(documents, stop)) {
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
    for (const auto& [uri, of_uri] : told->second) uris.push_back(uri);
    for (const auto& uri : uris) tell(uri, key, Json::array());
    told_.erase(key);
  }
}

}  // namespace gill::language_server
