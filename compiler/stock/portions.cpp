#include "stock/portions.h"

#include <fmt/format.h>

#include <cmath>

#include "analysis/line_parts.h"
#include "base/text.h"
#include "stock/amount_reader.h"

namespace gill::stock {
namespace {

using analysis::SoldBy;

struct SoldAs {
  /// `a bowl`; empty where no menu sells it whole.
  std::string whole;
  bool by_serve = false;
};

SoldAs sold_as(DrinkId drink, const House& house) {
  SoldAs sold;
  for (const auto& menu : house.specs.menus)
    for (const auto& section : menu.sections)
      for (const auto& entry : section.entries) {
        if (entry.drink != drink) continue;
        if (entry.whole_price)
          sold.whole = entry.sold_by;
        else
          sold.by_serve = true;
      }
  return sold;
}

/// `bowls`, `cup`.
SoldBy sold_by_words(std::string words) {
  if (words.size() > 3 && words.ends_with('s') && !words.ends_with("ss")) words.pop_back();
  return analysis::sold_by_word(words == "glasse" ? std::string_view("glass") : std::string_view(words));
}

}  // namespace

std::variant<double, std::string> read_portions(const std::string& cell, DrinkId drink, const House& house,
                                                const base::CsvTable& table) {
  auto read = split_number(table, cell);
  const auto& specs = house.specs[drink];
  if (!read) return fmt::format("`{}` is no number of portions.", cell);
  const auto sold_by = sold_by_words(base::lower_ascii(read->words));
  if (!read->words.empty() && sold_by == SoldBy::nothing)
    return fmt::format("`{}` is no number of portions.", cell);
  if (read->number != base::floor(read->number))
    return fmt::format("`{}` is no whole number of portions.", cell);
  const double count = base::to_double(read->number);
  if (specs.serves <= 1) return count;
  if (!read->words.empty()) return sold_by == SoldBy::whole ? count * specs.serves : count;
  const auto sold = sold_as(drink, house);
  if (sold.whole.empty()) return count;
  if (!sold.by_serve) return count * specs.serves;
  return fmt::format(
      "`{0}` of `{1}`, which is sold whole and by the serve: write `{0} {2}s` or `{0} serves`.", cell,
      specs.head.name, sold.whole.substr(2));
}

}  // namespace gill::stock
