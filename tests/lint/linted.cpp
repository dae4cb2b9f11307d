#include "linted.h"

#include <fmt/format.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>

#include "support/fixture.h"

namespace gill::testing {

std::unique_ptr<driver::Compilation> linted(std::string_view text) {
  return driver::compile(driver::HouseFiles{"Two Jiggers", {{"house.gill", std::string(text)}}});
}

namespace {

std::size_t line_of(const driver::Compilation& house, const diagnostics::Diagnostic& finding) {
  return house.sources[finding.span.file_id].place_of(finding.span).line;
}

}  // namespace

std::vector<std::string> findings_of(const driver::Compilation& house, std::string_view rule) {
  std::vector<std::string> lines;
  for (const auto& finding : house.findings)
    if (diagnostics::info(finding.rule).name == rule)
      lines.push_back(fmt::format("{} {}: {}", diagnostics::name_of(finding.severity),
                                  line_of(house, finding), finding.message));
  return lines;
}

std::size_t count(std::string_view text, std::string_view rule) {
  return findings_of(*linted(text), rule).size();
}

diagnostics::Diagnostic only(std::string_view text, std::string_view rule) {
  auto house = linted(text);
  std::vector<diagnostics::Diagnostic> found;
  for (const auto& finding : house->findings)
    if (diagnostics::info(finding.rule).name == rule) found.push_back(finding);
  INFO(all_findings(*house));
  REQUIRE(found.size() == 1);
  return found.front();
}

std::string all_findings(const driver::Compilation& house) {
  std::string text;
  for (const auto& finding : house.findings)
    text += fmt::format("{}:{}: {}: {} [{}]\n", house.sources[finding.span.file_id].path,
                        line_of(house, finding), diagnostics::name_of(finding.severity), finding.message,
                        diagnostics::info(finding.rule).name);
  return text;
}

std::vector<std::pair<std::string, std::string>> files_below(const std::string& folder,
                                                             std::string_view ending) {
  std::vector<std::pair<std::string, std::string>> files;
  for (const auto& entry : std::filesystem::directory_iterator(std::string(GILL_SOURCE_DIR) + "/" + folder))
    if (entry.is_regular_file() && entry.path().string().ends_with(ending))
      files.emplace_back(entry.path().filename().string(), read_file(entry.path().string()));
  std::sort(files.begin(), files.end());
  return files;
}

std::vector<std::string> examples_of(std::string_view page) {
  constexpr std::string_view opening = "```gill\n", closing = "```";
  std::vector<std::string> examples;
  for (auto at = page.find(opening); at != std::string_view::npos; at = page.find(opening, at)) {
    at += opening.size();
    auto end = page.find(closing, at);
    examples.emplace_back(page.substr(at, end == std::string_view::npos ? end : end - at));
    if (end == std::string_view::npos) break;
    at = end + closing.size();
  }
  return examples;
}

}  // namespace gill::testing
