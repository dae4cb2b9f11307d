#include "diff/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "base/percent.h"
#include "base/text.h"
#include "render/wording/allergen_words.h"
#include "render/wording/numbers.h"
#include "units/money.h"

namespace gill::diff {

std::string_view name_of(model::Role role) {
  static constexpr std::string_view names[] = {"amount", "rinse", "top",     "float",
                                               "mist",   "rim",   "garnish", "side"};
  static_assert(std::size(names) == static_cast<std::size_t>(model::Role::side) + 1);
  return names[static_cast<std::size_t>(role)];
}

std::string_view words_of(model::Role role) {
  static constexpr std::string_view words[] = {
      "", "in the glass first", "to top", "floated", "misted over", "on the rim", "garnish", "beside it"};
  static_assert(std::size(words) == static_cast<std::size_t>(model::Role::side) + 1);
  return words[static_cast<std::size_t>(role)];
}

bool is_garnish(model::Role role) { return role == model::Role::garnish || role == model::Role::side; }

std::string words_of(const Pour& pour, const Pour* other, Columns columns) {
  std::string words = columns == Columns::all ? pour.amount : pour.first_amount;
  if (words.empty()) words = std::string(words_of(pour.role));
  if (words.empty()) words = "not worked out";
  if (!other || other->temperature_words != pour.temperature_words) {
    if (!pour.temperature_words.empty())
      words += ", " + pour.temperature_words;
    else if (other && !other->temperature_words.empty())
      words += ", at room temperature";
  }
  if (!other || other->remarks != pour.remarks)
    for (const auto& remark : pour.remarks) words += ", " + remark;
  if (other ? other->optional != pour.optional : pour.optional)
    words += pour.optional ? ", optional" : ", always";
  return words;
}

bool reads_differently(const PourChange& change) {
  if (!change.before || !change.after) return true;
  return words_of(*change.before, &*change.after, Columns::all) !=
         words_of(*change.after, &*change.before, Columns::all);
}

std::string rename_words(const Change& change) {
  if (change.was.empty()) return {};
  if (!change.likeness) return "was " + change.was;
  return fmt::format("was {}, at a guess: {} % of the build is the same", change.was,
                     render::wording::fixed(base::percent_of_share(*change.likeness), 0));
}

std::string because_words(const Change& change) {
  if (change.because.empty()) return {};
  if (change.taste_because.empty()) {
    // A price is no reason for another recipe or another name.
    const bool is_recipe = change.is_own && change.kind == Kind::changed;
    const bool is_name = !change.was.empty();
    if (!is_recipe && !is_name) return "because of " + base::join_with_and(change.because);
    return fmt::format("its cost {}by the price of {}", is_recipe ? "also " : "",
                       base::join_with_and(change.because));
  }
  std::vector<std::string> prices;
  std::set_difference(change.because.begin(), change.because.end(), change.taste_because.begin(),
                      change.taste_because.end(), std::back_inserter(prices));
  std::string words = "because of " + base::join_with_and(change.taste_because);
  return prices.empty()
             ? words
             : fmt::format("{}; its cost also by the price of {}", words, base::join_with_and(prices));
}

std::string name_and_taste_cause(const Change& change) {
  if (change.taste_because.empty()) return change.name;
  return fmt::format("{} (because of {})", change.name, base::join_with_and(change.taste_because));
}

std::vector<std::string> method_changes_in_words(const Change& change) {
  std::vector<std::string> lines;
  for (const auto& step : change.method) switch (step.kind) {
      case StepChange::Kind::added:
        lines.push_back(fmt::format("New, step {}: {}", step.after_number, step.after->words));
        break;
      case StepChange::Kind::removed:
        lines.push_back(fmt::format("Gone, step {}: {}", step.before_number, step.before->words));
        break;
      case StepChange::Kind::changed:
        lines.push_back(
            fmt::format("Step {}: {} → {}", step.after_number, step.before->words, step.after->words));
        break;
      case StepChange::Kind::moved:
        lines.push_back(fmt::format("Step {}, which was step {}: {}", step.after_number, step.before_number,
                                    step.after->words));
        break;
    }
  if (change.pour_order_changed)
    lines.push_back(fmt::format("Poured into the glass in another order: {} → {}.",
                                base::join(poured_into_glass(change.before), ", "),
                                base::join(poured_into_glass(change.after), ", ")));
  return lines;
}

std::vector<std::string> poured_into_glass(const std::optional<Sheet>& sheet) {
  std::vector<std::string> names;
  if (!sheet) return names;
  for (auto identity : sheet->into_glass)
    for (const auto& pour : sheet->pours)
      if (pour.identity == identity && pour.role == model::Role::amount) {
        names.push_back(pour.name);
        break;
      }
  return names;
}

std::string words_of(const Allergen& allergen, const std::string& owner) {
  std::string words = render::wording::allergen_words(allergen.code);
  bool is_its_own = allergen.via.empty() || (allergen.via.size() == 1 && allergen.via.front() == owner);
  return is_its_own ? words : fmt::format("{}, from {}", words, base::join_with_and(allergen.via));
}

const FigureValue* figure_of(const std::optional<Sheet>& sheet, Figure figure) {
  if (!sheet) return nullptr;
  for (const auto& value : sheet->figures)
    if (value.figure == figure) return &value;
  return nullptr;
}

std::string property_words(const std::optional<Sheet>& sheet, std::string_view name) {
  if (!sheet) return {};
  for (const auto& property : sheet->properties)
    if (property.name == name) return property.words;
  return {};
}

std::string words_of(const std::optional<units::Money>& price) {
  if (!price) return "no price";
  return units::price_text(*price);
}

std::string counted(std::size_t count, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

}  // namespace gill::diff
