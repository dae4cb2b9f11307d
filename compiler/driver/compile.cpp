#include "driver/compile.h"

#include <algorithm>

#include "driver/kept_house.h"

namespace gill::driver {

render::BookInput Compilation::book_input() const {
  return {specs, facts, units, names, sources, findings, suppressed};
}

bool Compilation::has_errors() const {
  return std::any_of(findings.begin(), findings.end(), [](const diagnostics::Diagnostic& finding) {
    return finding.severity == diagnostics::Severity::error;
  });
}

std::unique_ptr<Compilation> compile(const HouseFiles& house, const std::stop_token& stop) {
  KeptHouse once;
  once.update(house, stop);
  return once.take();
}

std::unique_ptr<Compilation> compile_for_findings(const HouseFiles& house, const std::stop_token& stop) {
  KeptHouse once(false);
  once.update(house, stop);
  return once.take();
}

}  // namespace gill::driver
