#pragma once
#include <memory>
#include <stop_token>
#include <string>

#include "driver/file_access.h"
#include "lint/lint.h"
#include "render/book/book.h"

namespace gill::driver {

/// A house through every stage, with what each made. It does not move: later parts point into earlier ones.
struct Compilation {
  source::SourceSet sources;
  std::vector<syntax::File> files;
  symbols::SymbolTable names;
  units::UnitTable units;
  analysis::Specs specs;
  model::HouseFacts facts;
  /// Sorted by place.
  std::vector<diagnostics::Diagnostic> findings;
  /// What `allow` lines suppressed.
  std::vector<diagnostics::Diagnostic> suppressed;
  std::size_t house_file_count = 0;

  bool has_errors() const;
  /// The house as pages, cards, labels and the manager's desk take it: what was suppressed with it, since
  /// cautions print either way. It points into this.
  render::BookInput book_input() const;
};

/// Runs the stages over the standard library and a house's files. Null where it was asked to stop meanwhile:
/// it looks up between two stages.
std::unique_ptr<Compilation> compile(const HouseFiles& house, const std::stop_token& stop = {});
/// The same for who asks for findings alone: of tolerances only what they reckon with.
std::unique_ptr<Compilation> compile_for_findings(const HouseFiles& house, const std::stop_token& stop = {});

}  // namespace gill::driver
