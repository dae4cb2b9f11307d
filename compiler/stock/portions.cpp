#include "stock/portions.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "analysis/line_parts.h"
#include "base/text.h"
#include "stock/amount_reader.h"
#include "stock/pack_words.h"

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

/// A portion in German, French, Spanish and Italian. Common practice, no source.
constexpr std::string_view foreign_serves[] = {
    "portion", "portionen", "porcion", "porciones", "porzione", "porzioni", "racion",    "raciones",
    "glas",    "glaser",    "verre",   "verres",    "copa",     "copas",    "bicchiere", "bicchieri",
    "tasse",   "tassen",    "taza",    "tazas",     "tazza",    "tazze",    "getrank",   "getranke",
    "boisson", "boissons",  "bebida",  "bebidas",   "bevanda",  "bevande"};

/// `bowls`, `cup`.
SoldBy sold_by_words(const std::string& written) {
  std::string words = base::fold_without_accents(written);
  if (std::find(std::begin(foreign_serves), std::end(foreign_serves), words) != std::end(foreign_serves))
    return SoldBy::serve;
  if (words.size() > 3 && words.ends_with('s') && !words.ends_with("ss")) words.pop_back();
  return analysis::sold_by_word(words == "glasse" ? std::string_view("glass") : std::string_view(words));
}

/// `unit` stands for whatever is sold.
bool is_one_of_any(const std::string& unit) {
  return is_piece_word(unit) || base::fold_name(unit) == "unit" || base::fold_name(unit) == "x";
}

}  // namespace

std::string unit_of_row(const std::string& cell, const std::string& unit_cell, const base::CsvTable& table) {
  auto read = split_number(table, cell);
  return read && !read->words.empty() ? read->words : unit_cell;
}

bool counts_portions(const std::string& unit) {
  if (unit.empty() || is_one_of_any(unit)) return true;
  return sold_by_words(unit) != SoldBy::nothing && vessel_kind_of(unit) != VesselKind::bottle_or_tin;
}

std::variant<double, std::string> read_portions(const std::string& cell, const std::string& unit_cell,
                                                DrinkId drink, const House& house,
                                                const base::CsvTable& table) {
  auto read = split_number(table, cell);
  const auto& specs = house.specs[drink];
  if (!read) return fmt::format("`{}` is no number of portions.", cell);
  const std::string unit = read->words.empty() ? unit_cell : read->words;
  const std::string written = read->words.empty() && !unit.empty() ? cell + " " + unit : cell;
  const bool is_alone = unit.empty() || is_one_of_any(unit);
  const auto sold_by = is_alone ? SoldBy::nothing : sold_by_words(unit);
  if (!is_alone && sold_by == SoldBy::nothing)
    return fmt::format("`{}` of `{}` is no number of portions; write how many of them.", written,
                       specs.head.name);
  if (read->number != base::floor(read->number))
    return fmt::format("`{}` is no whole number of portions.", written);
  const double count = base::to_double(read->number);
  const auto sold = sold_as(drink, house);
  if (specs.serves <= 1) {
    if (sold_by != SoldBy::whole || !sold.whole.empty()) return count;
    return fmt::format("`{}` of `{}`, which is made one by one: write how many portions.", written,
                       specs.head.name);
  }
  if (!is_alone) return sold_by == SoldBy::whole ? count * specs.serves : count;
  if (sold.whole.empty()) return count;
  if (!sold.by_serve) return count * specs.serves;
  return fmt::format(
      "`{0}` of `{1}`, which is sold whole and by the serve: write `{0} {2}s` or `{0} serves`.", cell,
      specs.head.name, sold.whole.substr(2));
}

std::optional<double> share_of_drink(const Exact& number, const std::string& unit, DrinkId drink,
                                     const House& house) {
  const auto& facts = house.facts[drink];
  auto id = unit_of(unit, house.units);
  const bool is_volume = id.valid() && house.units[id].kind == units::Kind::volume;
  if (!is_volume || !facts.valid || facts.served.volume_ml <= 0) return std::nullopt;
  return base::to_double(number * house.units[id].factor) / facts.served.volume_ml;
}

}  // namespace gill::stock
