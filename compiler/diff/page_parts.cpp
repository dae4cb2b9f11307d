#include "diff/page_parts.h"

#include <fmt/format.h>

#include <cmath>
#include <set>

#include "base/text.h"
#include "diff/words.h"
#include "render/wording/numbers.h"

namespace gill::diff {

using render::document::Cell;
namespace wording = render::wording;

Cell cell(std::string words, bool differs) {
  Cell cell;
  if (differs)
    cell.run.strong(std::move(words));
  else
    cell.run.plain(std::move(words));
  return cell;
}

Cell header(const std::string& words) {
  Cell cell;
  cell.run.plain(words);
  cell.is_header = true;
  return cell;
}

bool is_row(const std::string& property) {
  static const std::set<std::string> rows = {"glass",  "ice",     "garnish", "serves", "cup",
                                             "size",   "batched", "station", "makes",  "keeps",
                                             "opened", "bottle",  "par",     "takes",  "largest batch"};
  return rows.contains(property);
}

std::string title_of(const std::string& property) {
  if (property == "guest") return "Guest line";
  if (property == "text") return "Description";
  return base::capitalised(property);
}

std::string change_in_words(const FigureChange& change) {
  if (!change.before.value || !change.after.value || !is_same_money(change.before, change.after)) return {};
  int places = places_of(change.after);
  // Of the figures as they are printed, so that whoever subtracts them finds the same.
  double unit = std::pow(10.0, -places);
  double difference =
      (std::round(*change.after.value / unit) - std::round(*change.before.value / unit)) * unit;
  std::string words = (difference > 0 ? "+" : "") + wording::fixed(difference, places);
  if (change.beyond_tolerance)
    words += *change.beyond_tolerance ? ", beyond tolerance" : ", within tolerance";
  return words;
}

bool shows(const FigureChange& change) {
  return change.after.figure->is_compared_in_print && text_of(change.before) != text_of(change.after);
}

std::string in_one_line(const FigureChange& change) {
  const auto& about = *change.after.figure;
  std::string before = text_of(change.before), after = text_of(change.after);
  std::string unit = about.is_money ? change.after.currency : std::string(about.unit);
  if (!unit.empty() && before.ends_with(" " + unit) && after.ends_with(" " + unit))
    before.resize(before.size() - unit.size() - 1);
  std::string words = fmt::format("{} {} → {}", about.words, before, after);
  if (change.beyond_tolerance)
    words += *change.beyond_tolerance ? " (beyond tolerance)" : " (within tolerance)";
  return words;
}

std::string codes_in_words(const std::vector<Allergen>& allergens, const std::string& owner) {
  std::vector<std::string> words;
  for (const auto& allergen : allergens) words.push_back(words_of(allergen, owner));
  return base::join(words, "; ");
}

}  // namespace gill::diff
