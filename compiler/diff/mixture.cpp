#include "diff/mixture.h"

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "model/house_bottle.h"

namespace gill::diff {
namespace {

/// Shares that differ by less are the same pour, rounded.
constexpr double same_share = 1e-3;

using Shares = std::map<std::string, double>;

/// By what goes in, with its item word; grams of one recipe. Nothing where a line weighs nobody knows what.
std::optional<Shares> grams_of(const Sheet& sheet) {
  Shares grams;
  for (const auto& pour : sheet.pours) {
    if (pour.optional) continue;
    if (!pour.mass_g) return std::nullopt;
    grams[std::to_string(pour.identity) + " " + pour.item] += *pour.mass_g;
  }
  return grams;
}

bool are_same_shares(Shares a, Shares b) {
  auto share_out = [](Shares& grams) {
    double total = 0;
    for (const auto& [name, amount] : grams) total += amount;
    for (auto& [name, amount] : grams) amount = total > 0 ? amount / total : 0;
  };
  share_out(a);
  share_out(b);
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const auto& one, const auto& other) {
    return one.first == other.first && std::abs(one.second - other.second) < same_share;
  });
}

/// Shares, as they are poured, of what one serve of the drink takes from its bottle, by folded names.
Shares bottle_of(const Snapshot& house, analysis::DrinkId drink, const NewNames& renamed) {
  Shares parts;
  const auto& specs = house.specs[drink];
  if (!specs.batched) return parts;
  auto bottle = model::house_bottle_of(specs, house.facts[drink], house.facts);
  for (auto index : bottle.entries) {
    const auto& entry = house.facts[drink].entries[index];
    const auto amount = entry.volume_ml ? entry.volume_ml : entry.mass_g;
    if (!amount || entry.optional) continue;
    parts[renamed.of(base::fold_name(house.specs[entry.use.stock].head.name))] += *amount;
  }
  // How much of it follows from the rest.
  if (bottle.water_ml > 0) parts["water in place of melt"] = 0;
  return parts;
}

}  // namespace

NewNames::NewNames(const std::vector<Change>& preps) {
  for (const auto& change : preps)
    if (!change.was.empty()) names_[base::fold_name(change.was)] = base::fold_name(change.name);
}

const std::string& NewNames::of(const std::string& folded) const {
  auto found = names_.find(folded);
  return found == names_.end() ? folded : found->second;
}

bool is_another_mixture(const Change& prep) {
  if (!prep.before || !prep.after) return true;
  // Into which bottle it goes makes no other mixture.
  const bool is_made_otherwise = std::any_of(
      prep.method.begin(), prep.method.end(),
      [](const StepChange& step) { return (step.after ? step.after : step.before)->verb != "bottle"; });
  if (is_made_otherwise) return true;
  for (const auto& property : prep.properties) {
    const auto& either = property.after ? *property.after : *property.before;
    // How much is left of the same recipe shows in its figures.
    if (either.name != "makes" && either.reach == Property::Reach::taste) return true;
    const bool is_other_strength =
        either.name == "makes" &&
        std::any_of(prep.figures.begin(), prep.figures.end(), [](const FigureChange& figure) {
          return !is_cost(figure.after.figure) &&
                 !std::string_view(figure.after.figure->key).starts_with("yield");
        });
    if (is_other_strength) return true;
  }
  if (std::all_of(prep.pours.begin(), prep.pours.end(), [](const PourChange& pour) { return pour.follows; }))
    return false;
  auto before = grams_of(*prep.before), after = grams_of(*prep.after);
  return !before || !after || !are_same_shares(*before, *after);
}

bool holds_old_bottles(const Snapshot& before, analysis::DrinkId was, const Snapshot& after,
                       std::optional<analysis::DrinkId> now, const NewNames& renamed) {
  auto old = bottle_of(before, was, renamed);
  if (old.empty()) return false;
  return !now || !are_same_shares(old, bottle_of(after, *now, {}));
}

}  // namespace gill::diff
