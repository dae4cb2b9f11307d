#include "diagnostics/diagnostic.h"

#include <algorithm>
#include <array>
#include <numeric>
#include <tuple>

namespace gill::diagnostics {
namespace {

constexpr RuleInfo registry[] = {
#define RULE(identifier, name, severity, group, stages, summary) \
  {name, Severity::severity, RuleGroup::group, summary},
#include "diagnostics/registry.def"
#undef RULE
};

}  // namespace

const RuleInfo& info(Rule rule) { return registry[static_cast<std::size_t>(rule)]; }

const std::vector<Rule>& all_rules() {
  static const std::vector<Rule> rules = [] {
    std::vector<Rule> result;
    for (std::size_t i = 0; i < std::size(registry); ++i) result.push_back(static_cast<Rule>(i));
    return result;
  }();
  return rules;
}

std::optional<Rule> find_rule(std::string_view name) {
  for (Rule rule : all_rules())
    if (info(rule).name == name) return rule;
  return std::nullopt;
}

std::string_view name_of(Severity severity) {
  switch (severity) {
    case Severity::error:
      return "error";
    case Severity::warning:
      return "warning";
    case Severity::note:
      return "note";
  }
  return "note";
}

namespace {

/// A message that quotes a line of a megabyte is cut; what stands at its end is rarely missed.
std::string cut(std::string text) {
  constexpr std::size_t max_bytes = 600;
  if (text.size() <= max_bytes) return text;
  std::size_t end = max_bytes;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xc0) == 0x80) --end;
  return text.substr(0, end) + "…";
}

}  // namespace

Diagnostic& DiagnosticSink::add(Rule rule, source::Span span, std::string message, std::string help) {
  findings_.push_back(Diagnostic{
      rule, info(rule).severity, span, cut(std::move(message)), cut(std::move(help)), {}, {}, no_subject});
  return findings_.back();
}

bool DiagnosticSink::has_errors() const { return count(Severity::error) > 0; }

std::size_t DiagnosticSink::count(Severity severity) const {
  return static_cast<std::size_t>(
      std::count_if(findings_.begin(), findings_.end(),
                    [&](const Diagnostic& finding) { return finding.severity == severity; }));
}

namespace {

/// A finding of a reading stands at what was written; a correction of words that nobody wrote is none.
void move_to_written(Diagnostic& finding, const source::SourceSet& sources) {
  finding.span = sources.written(finding.span);
  for (auto& related : finding.related) related.span = sources.written(related.span);
  if (!finding.fix) return;
  for (auto& edit : finding.fix->edits) {
    auto span = sources.written(edit.span);
    if (!(span == edit.span) && sources.text(span) != sources.text(edit.span)) {
      finding.fix.reset();
      return;
    }
    edit.span = span;
  }
}

}  // namespace

void sort_by_place(std::vector<Diagnostic>& findings, const source::SourceSet& sources) {
  std::vector<std::size_t> order(findings.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  for (auto& finding : findings) move_to_written(finding, sources);
  auto key = [&](std::size_t i) {
    const auto& finding = findings[i];
    return std::tuple(std::string_view(sources[finding.span.file_id].path), finding.span.begin,
                      finding.span.end, finding.rule, std::string_view(finding.message));
  };
  auto is_before = [&](std::size_t a, std::size_t b) {
    // Most stand in one file with their neighbours, whose path need not be read.
    const auto &of_a = findings[a].span, &of_b = findings[b].span;
    if (of_a.file_id == of_b.file_id && of_a.begin != of_b.begin) return of_a.begin < of_b.begin;
    return key(a) < key(b);
  };
  std::stable_sort(order.begin(), order.end(), is_before);
  auto same = [&](std::size_t a, std::size_t b) {
    return key(a) == key(b) && findings[a].drink == findings[b].drink;
  };
  order.erase(std::unique(order.begin(), order.end(), same), order.end());
  std::vector<Diagnostic> sorted;
  sorted.reserve(order.size());
  for (auto i : order) sorted.push_back(std::move(findings[i]));
  findings = std::move(sorted);
}

}  // namespace gill::diagnostics
