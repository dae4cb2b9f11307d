#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "source/source_file.h"

namespace gill::diagnostics {

enum class Severity : std::uint8_t { error, warning, note };
enum class RuleGroup : std::uint8_t { language, units, build, balance, stock, safety, housekeeping };

/// One name in the registry (registry.def).
enum class Rule : std::uint8_t {
#define RULE(identifier, name, severity, group, stages, summary) identifier,
#include "diagnostics/registry.def"
#undef RULE
};

struct RuleInfo {
  std::string_view name;
  Severity severity;
  RuleGroup group;
  std::string_view summary;
};

/// What the registry says of a rule.
const RuleInfo& info(Rule rule);
/// All rules, in the registry's order.
const std::vector<Rule>& all_rules();
/// The rule of that name; nothing where there is none.
std::optional<Rule> find_rule(std::string_view name);
/// `error`, `warning` or `note`.
std::string_view name_of(Severity severity);

/// Another place that a finding speaks of, with a few words.
struct Related {
  source::Span span;
  std::string message;
};

/// One stretch of a file's text with what should stand there.
struct Edit {
  source::Span span;
  std::string text;
};

/// What would fix a finding: all edits together. `check --fix` applies it when it is safe: only one thing can
/// be meant.
struct Fix {
  std::vector<Edit> edits;
  bool safe = false;
};

/// One finding. `message` is one line that can stand alone; `help` says what to write instead.
struct Diagnostic {
  Rule rule;
  Severity severity;
  source::Span span;
  std::string message;
  std::string help;
  /// The drink that it concerns; empty where there is none.
  std::string drink;
  std::vector<Related> related;
  /// Number of the declaration that the finding is about (its `allow` lines can quiet it); `no_subject` for
  /// none.
  std::uint32_t subject = UINT32_MAX;
  std::optional<Fix> fix = std::nullopt;
};

inline constexpr std::uint32_t no_subject = UINT32_MAX;

/// Collects findings. Stages add; only renderers print.
class DiagnosticSink {
 public:
  /// Adds a finding with the rule's own severity; the reference stays valid until the next `add`.
  Diagnostic& add(Rule rule, source::Span span, std::string message, std::string help = {});

  const std::vector<Diagnostic>& all() const { return findings_; }
  std::vector<Diagnostic>& all() { return findings_; }
  bool has_errors() const;
  std::size_t count(Severity severity) const;

 private:
  std::vector<Diagnostic> findings_;
};

/// Orders findings by file, place, then rule, and drops exact repeats.
void sort_by_place(std::vector<Diagnostic>& findings, const source::SourceSet& sources);

}  // namespace gill::diagnostics
