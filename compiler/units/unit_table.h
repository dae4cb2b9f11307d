#pragma once
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "diagnostics/diagnostic.h"
#include "symbols/symbol_table.h"
#include "syntax/line_view.h"
#include "units/quantity.h"

namespace gill::units {

/// One unit: `value in base units = factor × number + offset`, both exact.
struct Unit {
  /// As it is printed after a number: `ml`, `us oz`, `dash`, `leaf`.
  std::string symbol;
  /// Printed after more than one: `dashes`, `leaves`; the symbol itself for abbreviations.
  std::string plural;
  Kind kind;
  base::Exact factor = 1;
  base::Exact offset = 0;
  /// How loose the unit is, as a share of the value (a dash); nothing for exact ones.
  std::optional<double> tolerance;
  /// True for `leaf`, `sprig`, `twist` …: the unit counts a piece of the thing.
  bool is_item_word = false;
  /// Where the factor comes from.
  std::string source;
};

/// What to say of a word that stands where a unit should.
struct UnknownUnit {
  std::string message;
  std::string help;
  /// What it may mean: a unit that is known, or so many millilitres.
  std::vector<std::string> units;
  std::vector<int> millilitres;
};

/// How a unit was found on a line: `tokens` of them were read.
struct UnitMatch {
  UnitId unit;
  std::size_t tokens = 0;
};

/// Every unit of a run: the built-in ones, the library's, the house's, and what the house means by an ounce.
class UnitTable {
 public:
  const Unit& operator[](UnitId id) const { return units_[id.index()]; }
  std::size_t size() const { return units_.size(); }
  /// The unit of that spelling (singular, plural, long, with a trailing point, any case), or an invalid id.
  UnitId find(std::string_view spelling) const;
  /// Every spelling that is kept, folded, in order: `ml`, `millilitre`, `dashes`. A last point and a plural's
  /// ending are read beside them.
  std::vector<std::string> spellings() const;
  /// The longest run of tokens from `first` on that spells a unit.
  UnitMatch match(const syntax::LineView& line, std::size_t first) const;
  /// The unit spelt most like a misspelt one; nothing where none is near.
  std::optional<std::string> nearest(std::string_view spelling) const;
  /// How many suggestions it still makes, and so many from now on.
  int questions_left() const { return questions_left_; }
  void allow_questions(int count) const { questions_left_ = count; }
  /// Why the word is no unit: it means two things, or it is misspelt, or nobody declares it.
  UnknownUnit explain_unknown(std::string_view word) const;

 private:
  std::optional<UnknownUnit> choice_of_meanings(std::string_view word) const;
  friend class UnitTableBuilder;
  UnitId add(Unit unit, const std::vector<std::string>& spellings);
  void add_spelling(const std::string& spelling, UnitId id);
  std::vector<Unit> units_;
  std::unordered_map<std::string, UnitId> spellings_;
  /// The same in order, for `nearest`; made when it is first asked.
  mutable std::vector<std::pair<std::string, UnitId>> in_order_;
  mutable int questions_left_ = 300;
};

/// Builds the table from the `unit` declarations and the house's `ounce`, `cup`, `pint`, `quart` and `gallon`
/// lines.
UnitTable build_units(const symbols::SymbolTable& names, const std::vector<syntax::File>& files,
                      const source::SourceSet& sources, diagnostics::DiagnosticSink& sink);

/// `1 ml`, `2 dashes`, `1 1/2 oz`: a number with its unit as people write it.
std::string with_unit(std::string number, const Unit& unit, bool is_one);

}  // namespace gill::units
