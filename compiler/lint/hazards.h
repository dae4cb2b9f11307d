#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "lint/lint.h"

namespace gill::lint {

/// One line of hazards.def.
struct Hazard {
  enum class Where { plants, any };
  diagnostics::Rule rule;
  diagnostics::Severity severity;
  Where where;
  std::vector<std::string> names;  ///< folded
  std::string_view what;
  std::string_view source;
};

const std::vector<Hazard>& all_hazards();

/// True where the words stand in the folded text with nothing of a word before or behind.
bool has_words(std::string_view folded_text, std::string_view words);

/// The hazard of that rule that a name speaks of (its words stand together in the text), or null.
const Hazard* find_hazard(diagnostics::Rule rule, std::string_view text);
/// The same of something of the stock, by its kind too; null where it is none.
const Hazard* find_hazard(diagnostics::Rule rule, const House& house, analysis::StockId stock);
/// For every stock, the hazards that its name or an `aka` speaks of: the first of each rule.
std::vector<std::vector<const Hazard*>> index_hazards(const analysis::Specs& specs);

/// Reports every line of a drink or a prep that names a hazard of the rule.
void report_hazards(diagnostics::Rule rule, const DrinkCase& drink, Reporter& report);
void report_hazards(diagnostics::Rule rule, const PrepCase& prep, Reporter& report);

}  // namespace gill::lint
