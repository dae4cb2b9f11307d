#pragma once
#include <memory>
#include <string>

#include "driver/file_access.h"
#include "lint/lint.h"

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
  /// Those that are shown and those that were suppressed: cautions print either way.
  std::vector<diagnostics::Diagnostic> all_findings() const;
};

/// Runs the stages over the standard library and a house's files.
std::unique_ptr<Compilation> compile(const HouseFiles& house);

}  // namespace gill::driver
