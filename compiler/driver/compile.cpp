#include "driver/compile.h"

#include <algorithm>

#include "driver/standard_library.h"
#include "model/evaluate_written.h"
#include "syntax/parse.h"

namespace gill::driver {

render::BookInput Compilation::book_input() const {
  return {specs, facts, units, names, sources, findings, suppressed};
}

bool Compilation::has_errors() const {
  return std::any_of(findings.begin(), findings.end(), [](const diagnostics::Diagnostic& finding) {
    return finding.severity == diagnostics::Severity::error;
  });
}

namespace {

/// The files of the standard library, parsed.
struct ParsedLibrary {
  source::SourceSet sources;
  std::vector<syntax::File> files;
  diagnostics::DiagnosticSink sink;
};

/// Parsed once a program: it is the same for every house, and for every state of one that is watched.
const ParsedLibrary& parsed_library() {
  static const ParsedLibrary library = [] {
    ParsedLibrary parsed;
    for (const auto& file : standard_library()) {
      auto id = parsed.sources.add("stdlib/" + std::string(file.path), std::string(file.text), true);
      parsed.files.push_back(syntax::parse(id, parsed.sources, parsed.sink));
    }
    return parsed;
  }();
  return library;
}

using Evaluate = model::HouseFacts (*)(const analysis::Specs&, const units::UnitTable&,
                                       diagnostics::DiagnosticSink&);

std::unique_ptr<Compilation> run_stages(const HouseFiles& house, Evaluate evaluate,
                                        const std::stop_token& stop) {
  auto result = std::make_unique<Compilation>();
  const ParsedLibrary& library = parsed_library();
  auto sink = library.sink;
  result->sources = library.sources;
  result->files = library.files;
  for (const auto& file : house.files) {
    if (stop.stop_requested()) return nullptr;
    auto id = result->sources.add(file.path, file.text, false);
    result->files.push_back(syntax::parse(id, result->sources, sink));
  }
  result->house_file_count = house.files.size();
  result->names = symbols::declare(result->files, result->sources, sink);
  if (stop.stop_requested()) return nullptr;
  result->units = units::build_units(result->names, result->files, result->sources, sink);
  result->specs =
      analysis::analyse(result->names, result->units, result->files, result->sources, house.name, sink);
  if (stop.stop_requested()) return nullptr;
  result->facts = evaluate(result->specs, result->units, sink);
  if (stop.stop_requested()) return nullptr;
  auto judged = lint::judge({result->specs, result->facts, result->units}, std::move(sink.all()));
  result->findings = std::move(judged.shown);
  result->suppressed = std::move(judged.suppressed);
  diagnostics::sort_by_place(result->findings, result->sources);
  diagnostics::sort_by_place(result->suppressed, result->sources);
  return result;
}

}  // namespace

std::unique_ptr<Compilation> compile(const HouseFiles& house, const std::stop_token& stop) {
  return run_stages(house, model::evaluate, stop);
}

std::unique_ptr<Compilation> compile_for_findings(const HouseFiles& house, const std::stop_token& stop) {
  return run_stages(house, model::evaluate_written, stop);
}

}  // namespace gill::driver
