#include "diagnostics/sarif.h"

#include <fmt/format.h>

#include <cctype>

#include "base/json.h"
#include "diagnostics/rule_group.h"

namespace gill::diagnostics {

using base::Json;

namespace {

// Names of the folders that paths start from (SARIF 2.1.0, 3.14.14).
constexpr std::string_view house_base = "HOUSE", working_base = "WORKINGFOLDER";

/// A message as one text: what is wrong, then what to do.
std::string sentences(const Diagnostic& finding) {
  return finding.help.empty() ? finding.message : fmt::format("{}. {}", finding.message, finding.help);
}

Json artifact(const source::SourceFile& file) {
  Json location{{"uri", path_as_uri(file.path)}};
  if (!file.from_library) location["uriBaseId"] = house_base;
  return location;
}

/// Lines and columns from 1; the end is the column after the last one (SARIF 2.1.0, 3.30).
Json region(const source::SourceFile& file, const source::Span& span) {
  auto place = file.place_of(span);
  return {
      {"startLine", place.line}, {"startColumn", place.column}, {"endColumn", place.column + place.length}};
}

/// What an edit takes away: nothing at all where it only adds.
Json deleted(const source::SourceFile& file, const source::Span& span) {
  auto found = region(file, span);
  if (span.begin == span.end) found["endColumn"] = found["startColumn"];
  return found;
}

Json location(const source::SourceSet& sources, const source::Span& span) {
  const auto& file = sources[span.file_id];
  return {{"physicalLocation", {{"artifactLocation", artifact(file)}, {"region", region(file, span)}}}};
}

Json fix_of(const Diagnostic& finding, const source::SourceSet& sources) {
  auto changes = Json::array();
  for (const auto& edit : finding.fix->edits) {
    const auto& file = sources[edit.span.file_id];
    Json replacement{{"deletedRegion", deleted(file, edit.span)}, {"insertedContent", {{"text", edit.text}}}};
    changes.push_back({{"artifactLocation", artifact(file)}, {"replacements", Json::array({replacement})}});
  }
  return {{"description", {{"text", finding.help}}}, {"artifactChanges", changes}};
}

Json result(const Diagnostic& finding, const source::SourceSet& sources) {
  auto where = location(sources, finding.span);
  if (!finding.drink.empty())
    where["logicalLocations"] = Json::array({Json{{"name", finding.drink}, {"kind", "drink"}}});
  Json made{{"ruleId", info(finding.rule).name},
            {"ruleIndex", static_cast<std::size_t>(finding.rule)},
            {"level", name_of(finding.severity)},
            {"message", {{"text", sentences(finding)}}},
            {"locations", Json::array({where})}};
  auto related = Json::array();
  for (const auto& other : finding.related) {
    auto place = location(sources, other.span);
    place["message"] = {{"text", other.message}};
    related.push_back(place);
  }
  if (!related.empty()) made["relatedLocations"] = related;
  if (finding.fix && !finding.fix->edits.empty()) made["fixes"] = Json::array({fix_of(finding, sources)});
  return made;
}

Json rule_descriptor(Rule rule, const SarifTool& tool) {
  const auto& about = info(rule);
  Json made{{"id", about.name},
            {"shortDescription", {{"text", fmt::format("Finds {}.", about.summary)}}},
            {"defaultConfiguration", {{"level", name_of(about.severity)}}},
            {"properties", {{"tags", Json::array({name_of(about.group)})}}}};
  auto page = tool.page_of ? tool.page_of(rule) : std::nullopt;
  if (page) made["help"] = {{"text", *page}, {"markdown", *page}};
  return made;
}

/// Where `HOUSE` lies: an absolute folder by itself, a relative one below the folder where the command ran.
Json base_folders(const std::string& folder) {
  std::string ending = folder.empty() || folder.ends_with('/') ? "" : "/";
  if (folder.starts_with('/')) return {{house_base, {{"uri", "file://" + path_as_uri(folder) + ending}}}};
  Json bases{{working_base, {{"description", {{"text", "The folder where the command ran."}}}}}};
  bool is_here = folder.empty() || folder == "." || folder == "./";
  bases[house_base] = {{"uri", is_here ? std::string("./") : path_as_uri(folder) + ending},
                       {"uriBaseId", working_base}};
  return bases;
}

}  // namespace

std::string path_as_uri(std::string_view path) {
  std::string uri;
  // A colon in the first part would be read as a scheme (RFC 3986, 4.2).
  if (path.substr(0, path.find('/')).find(':') != std::string_view::npos) uri = "./";
  for (char c : path) {
    bool plain = std::isalnum(static_cast<unsigned char>(c)) ||
                 std::string_view("-._~/!$&'()*+,;=:@").find(c) != std::string_view::npos;
    uri += plain && static_cast<unsigned char>(c) < 0x80
               ? std::string(1, c)
               : fmt::format("%{:02X}", static_cast<unsigned char>(c));
  }
  return uri;
}

std::string render_sarif(const std::vector<Diagnostic>& findings, const source::SourceSet& sources,
                         const SarifTool& tool) {
  auto rules = Json::array(), results = Json::array();
  for (Rule rule : all_rules()) rules.push_back(rule_descriptor(rule, tool));
  for (const auto& finding : findings) results.push_back(result(finding, sources));
  Json driver{{"name", "Gill"}, {"version", tool.version}, {"rules", rules}};
  Json run{{"tool", {{"driver", driver}}},
           {"columnKind", "unicodeCodePoints"},
           {"originalUriBaseIds", base_folders(tool.folder)},
           {"results", results}};
  Json log{{"$schema",
            "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"},
           {"version", "2.1.0"},
           {"runs", Json::array({run})}};
  return base::json_text(std::move(log));
}

}  // namespace gill::diagnostics
