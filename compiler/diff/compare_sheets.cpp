#include "diff/compare_sheets.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <limits>
#include <map>
#include <set>
#include <tuple>
#include <unordered_map>

namespace gill::diff {
namespace {

bool nearly_equal(const std::optional<double>& a, const std::optional<double>& b) {
  if (a.has_value() != b.has_value()) return false;
  return !a || diff::nearly_equal(*a, *b);
}

bool both_equal(const std::optional<double>& a, const std::optional<double>& b) {
  return a && b && diff::nearly_equal(*a, *b);
}

/// The same number of the same unit on the card, whatever the unit has come to mean.
bool reads_the_same(const Measured& a, const Measured& b) {
  return a.form == b.form && a.by_eye == b.by_eye && a.unit == b.unit && a.until == b.until &&
         a.kind == b.kind && diff::nearly_equal(a.number, b.number) && diff::nearly_equal(a.parts, b.parts) &&
         a.states_tolerance == b.states_tolerance;
}

/// What a line comes to: by volume where both are liquids, else by mass, else by count.
bool comes_to_the_same(const Pour& a, const Pour& b) {
  if (a.volume_ml && b.volume_ml) return both_equal(a.volume_ml, b.volume_ml);
  if (a.mass_g && b.mass_g) return both_equal(a.mass_g, b.mass_g);
  return nearly_equal(a.count, b.count) && nearly_equal(a.mass_g, b.mass_g);
}

bool same_target(const Measured& a, const Measured& b) {
  return a.kind == b.kind && diff::nearly_equal(a.value, b.value) && a.until == b.until &&
         diff::nearly_equal(a.parts, b.parts);
}

bool same_measured(const Pour& before, const Pour& after) {
  const Measured& a = before.measured;
  const Measured& b = after.measured;
  if (a.kind != b.kind)
    return both_equal(before.volume_ml, after.volume_ml) || both_equal(before.mass_g, after.mass_g) ||
           both_equal(before.count, after.count);
  if (a.kind == units::Kind::volume || a.kind == units::Kind::mass)
    return diff::nearly_equal(a.value, b.value);
  if (a.kind == units::Kind::part) return comes_to_the_same(before, after);
  return diff::nearly_equal(a.value, b.value) && comes_to_the_same(before, after);
}

bool same_tolerance(const Measured& a, const Measured& b) {
  if (!a.states_tolerance && !b.states_tolerance) return true;
  return a.states_tolerance == b.states_tolerance && diff::nearly_equal(a.low, b.low) &&
         diff::nearly_equal(a.high, b.high) && diff::nearly_equal(a.tolerance, b.tolerance);
}

/// True where the line says what it said, and only something behind it has changed.
bool is_said_alike(const Pour& before, const Pour& after) {
  bool solved = before.measured.form != analysis::Amount::Form::measured;
  bool alike =
      solved ? before.measured.form == after.measured.form && same_target(before.measured, after.measured)
             : reads_the_same(before.measured, after.measured);
  bool warmth = before.temperature_words == after.temperature_words ||
                nearly_equal(before.temperature_c, after.temperature_c);
  return alike && warmth && before.optional == after.optional && before.remarks == after.remarks;
}

bool same_pour(const Pour& before, const Pour& after) {
  bool warmth = before.temperature_words == after.temperature_words ||
                nearly_equal(before.temperature_c, after.temperature_c);
  return same_amount(before, after) && warmth && before.optional == after.optional &&
         before.remarks == after.remarks;
}

/// Pairs the lines of two builds: the same thing in the same role, those that are equal first, the others in
/// order.
class PourPairing {
 public:
  PourPairing(const std::vector<Pour>& before, const std::vector<Pour>& after)
      : before_(before), after_(after), partner_(after.size(), none), taken_(before.size()) {
    for (std::size_t i = 0; i < before.size(); ++i) places_[place_of(before[i])].push_back(i);
  }

  std::vector<PourChange> pair() {
    pair(true);
    pair(false);
    std::vector<PourChange> changes;
    for (std::size_t i = 0; i < before_.size(); ++i)
      if (!taken_[i]) changes.push_back({Kind::removed, before_[i], std::nullopt, false});
    for (std::size_t j = 0; j < after_.size(); ++j) {
      if (partner_[j] == none) {
        changes.push_back({Kind::added, std::nullopt, after_[j], false});
        continue;
      }
      const Pour& old = before_[partner_[j]];
      if (same_pour(old, after_[j])) continue;
      changes.push_back({Kind::changed, old, after_[j], is_said_alike(old, after_[j])});
    }
    return changes;
  }

 private:
  using Place = std::tuple<Identity, std::string, model::Role>;
  static constexpr std::size_t none = std::numeric_limits<std::size_t>::max();
  // Nobody pours one thing so many times; past it lines are paired as they come, so that a file of nonsense
  // costs no hours.
  static constexpr std::size_t max_of_one_stock = 200;

  static Place place_of(const Pour& pour) { return {pour.identity, pour.item, pour.role}; }

  void pair(bool only_equal) {
    std::map<Place, std::size_t> first_free;
    for (std::size_t j = 0; j < after_.size(); ++j) {
      if (partner_[j] != none) continue;
      auto found = places_.find(place_of(after_[j]));
      if (found == places_.end()) continue;
      const auto& candidates = found->second;
      if (only_equal && candidates.size() > max_of_one_stock) continue;
      std::size_t& begin = first_free[found->first];
      while (begin < candidates.size() && taken_[candidates[begin]]) ++begin;
      for (std::size_t k = begin; k < candidates.size(); ++k) {
        std::size_t i = candidates[k];
        if (taken_[i] || (only_equal && !same_pour(before_[i], after_[j]))) continue;
        taken_[i] = true;
        partner_[j] = i;
        break;
      }
    }
  }

  const std::vector<Pour>& before_;
  const std::vector<Pour>& after_;
  std::map<Place, std::vector<std::size_t>> places_;
  std::vector<std::size_t> partner_;
  std::vector<bool> taken_;
};

// ---- method

/// What is left over on both sides: the same step elsewhere has moved, a step of the same verb at the same
/// place has changed, the rest came or went.
class StepPairing {
 public:
  StepPairing(const std::vector<MethodStep>& before, const std::vector<MethodStep>& after)
      : before_(before), after_(after), stays_before_(before.size()), stays_after_(after.size()) {}

  std::vector<StepChange> pair() {
    std::vector<std::string_view> old_meanings, new_meanings;
    for (const auto& step : before_) old_meanings.push_back(step.meaning);
    for (const auto& step : after_) new_meanings.push_back(step.meaning);
    for (auto [i, j] : common_sequence(old_meanings, new_meanings)) stays_before_[i] = stays_after_[j] = true;
    pair(StepChange::Kind::moved, &MethodStep::meaning);
    pair(StepChange::Kind::changed, &MethodStep::verb);
    for (std::size_t i = 0; i < before_.size(); ++i)
      if (!stays_before_[i])
        changes_.push_back({StepChange::Kind::removed, before_[i], std::nullopt, i + 1, 0});
    for (std::size_t j = 0; j < after_.size(); ++j)
      if (!stays_after_[j]) changes_.push_back({StepChange::Kind::added, std::nullopt, after_[j], 0, j + 1});
    std::stable_sort(changes_.begin(), changes_.end(),
                     [](const StepChange& a, const StepChange& b) { return place_of(a) < place_of(b); });
    return std::move(changes_);
  }

 private:
  static std::pair<std::size_t, bool> place_of(const StepChange& change) {
    return {change.after ? change.after_number : change.before_number, change.after.has_value()};
  }

  void pair(StepChange::Kind kind, std::string MethodStep::*key) {
    std::unordered_map<std::string_view, std::deque<std::size_t>> free;
    for (std::size_t i = 0; i < before_.size(); ++i)
      if (!stays_before_[i]) free[before_[i].*key].push_back(i);
    for (std::size_t j = 0; j < after_.size(); ++j) {
      if (stays_after_[j]) continue;
      auto found = free.find(after_[j].*key);
      if (found == free.end() || found->second.empty()) continue;
      std::size_t i = found->second.front();
      found->second.pop_front();
      stays_before_[i] = stays_after_[j] = true;
      changes_.push_back({kind, before_[i], after_[j], i + 1, j + 1});
    }
  }

  const std::vector<MethodStep>& before_;
  const std::vector<MethodStep>& after_;
  std::vector<bool> stays_before_, stays_after_;
  std::vector<StepChange> changes_;
};

/// True when things that both builds pour into the glass go in in another order.
bool order_differs(const std::vector<Identity>& before, const std::vector<Identity>& after) {
  std::multiset<Identity> in_before(before.begin(), before.end()), in_after(after.begin(), after.end());
  auto common = [](const std::vector<Identity>& all, std::multiset<Identity> others) {
    std::vector<Identity> kept;
    for (auto identity : all) {
      auto found = others.find(identity);
      if (found == others.end()) continue;
      others.erase(found);
      kept.push_back(identity);
    }
    return kept;
  };
  return common(before, in_after) != common(after, in_before);
}

// ---- figures and allergens

/// The root of the sum of squares of what each cause does to the difference: one lemon, one jigger and one
/// pair of hands make both drinks.
double difference_tolerance(const FigureValue& before, const FigureValue& after) {
  if (!before.drink || !after.drink)
    return std::max(before.tolerance.value_or(0), after.tolerance.value_or(0));
  std::map<std::string, double> effects;
  for (const auto& influence : after.drink->influences)
    effects[model::words_of(influence.cause, *after.specs)] += influence.effect.*after.effect;
  for (const auto& influence : before.drink->influences)
    effects[model::words_of(influence.cause, *before.specs)] -= influence.effect.*before.effect;
  double square = 0;
  for (const auto& [words, effect] : effects) square += effect * effect;
  return std::sqrt(square);
}

FigureChange change_of(const FigureValue& before, const FigureValue& after) {
  FigureChange change{before, after, std::nullopt, std::nullopt};
  if (before.value && after.value && (before.tolerance || after.tolerance)) {
    change.tolerance = difference_tolerance(before, after);
    change.beyond_tolerance = std::abs(*after.value - *before.value) > *change.tolerance;
  }
  return change;
}

const FigureValue* find(const std::vector<FigureValue>& values, Figure figure) {
  for (const auto& value : values)
    if (value.figure == figure) return &value;
  return nullptr;
}

std::vector<FigureChange> compare_figures(const std::vector<FigureValue>& before,
                                          const std::vector<FigureValue>& after) {
  std::vector<FigureChange> changes;
  auto add = [&](const FigureValue& old, const FigureValue& now) {
    bool same_money = is_same_money(old, now) || !old.value || !now.value;
    if (!nearly_equal(old.value, now.value) || !same_money) changes.push_back(change_of(old, now));
  };
  for (const auto& now : after) {
    const auto* old = find(before, now.figure);
    add(old ? *old : FigureValue{now.figure, {}, {}, now.currency, now.of}, now);
  }
  for (const auto& old : before)
    if (!find(after, old.figure)) add(old, FigureValue{old.figure, {}, {}, old.currency, old.of});
  return changes;
}

std::vector<Allergen> without(const std::vector<Allergen>& all, const std::vector<Allergen>& others) {
  std::vector<Allergen> left;
  for (const auto& one : all)
    if (std::none_of(others.begin(), others.end(),
                     [&](const Allergen& other) { return other.code == one.code; }))
      left.push_back(one);
  return left;
}

AllergenChange compare_allergens(const AllergenSheet* before, const AllergenSheet* after) {
  static const AllergenSheet nothing;
  const auto& old = before ? *before : nothing;
  const auto& now = after ? *after : nothing;
  AllergenChange change;
  change.gained = without(now.present, old.present);
  change.lost = without(old.present, now.present);
  change.possible_gained = without(now.possible, old.possible);
  change.possible_lost = without(old.possible, now.possible);
  change.known_before = old.known;
  change.known_after = now.known;
  for (const auto& name : now.unknown)
    if (std::find(old.unknown.begin(), old.unknown.end(), name) == old.unknown.end())
      change.unknown_gained.push_back(name);
  return change;
}

}  // namespace

std::string_view name_of(Kind kind) {
  static constexpr std::string_view names[] = {"added", "removed", "renamed", "changed"};
  return names[static_cast<std::size_t>(kind)];
}

std::string_view name_of(StepChange::Kind kind) {
  static constexpr std::string_view names[] = {"added", "removed", "changed", "moved"};
  return names[static_cast<std::size_t>(kind)];
}

bool same_amount(const Pour& before, const Pour& after) {
  const Measured& a = before.measured;
  const Measured& b = after.measured;
  if (a.form != b.form || a.by_eye != b.by_eye) return false;
  if (a.form != analysis::Amount::Form::measured)
    return same_target(a, b) && comes_to_the_same(before, after);
  if (a.by_eye) return comes_to_the_same(before, after);
  return same_measured(before, after) && (a.kind != b.kind || same_tolerance(a, b));
}

std::vector<std::pair<std::size_t, std::size_t>> common_sequence(const std::vector<std::string_view>& before,
                                                                 const std::vector<std::string_view>& after) {
  // Beyond this many comparisons a recipe is none that a person wrote, and only its equal ends are found.
  constexpr std::size_t max_comparisons = 4'000'000;
  std::vector<std::pair<std::size_t, std::size_t>> pairs, tail;
  std::size_t first = 0, old_end = before.size(), new_end = after.size();
  for (; first < old_end && first < new_end && before[first] == after[first]; ++first)
    pairs.emplace_back(first, first);
  for (; old_end > first && new_end > first && before[old_end - 1] == after[new_end - 1];
       --old_end, --new_end)
    tail.emplace_back(old_end - 1, new_end - 1);
  std::size_t rows = old_end - first, columns = new_end - first;
  if (rows > 0 && columns > 0 && rows * columns <= max_comparisons) {
    // The usual table of longest common subsequences, from the ends.
    std::vector<std::vector<std::uint32_t>> length(rows + 1, std::vector<std::uint32_t>(columns + 1));
    for (std::size_t i = rows; i-- > 0;)
      for (std::size_t j = columns; j-- > 0;)
        length[i][j] = before[first + i] == after[first + j] ? length[i + 1][j + 1] + 1
                                                             : std::max(length[i + 1][j], length[i][j + 1]);
    for (std::size_t i = 0, j = 0; i < rows && j < columns;) {
      if (before[first + i] == after[first + j]) {
        pairs.emplace_back(first + i++, first + j++);
        continue;
      }
      // Among equals the choice hangs on the words alone, so that it is the same whichever side is which.
      auto skipped_before = length[i + 1][j], skipped_after = length[i][j + 1];
      bool skips_before = skipped_before == skipped_after ? before[first + i] < after[first + j]
                                                          : skipped_before > skipped_after;
      ++(skips_before ? i : j);
    }
  }
  pairs.insert(pairs.end(), tail.rbegin(), tail.rend());
  return pairs;
}

std::vector<PropertyChange> compare_properties(const std::vector<Property>& before,
                                               const std::vector<Property>& after) {
  std::vector<PropertyChange> changes;
  auto find = [](const std::vector<Property>& all, const std::string& name) {
    return std::find_if(all.begin(), all.end(), [&](const Property& one) { return one.name == name; });
  };
  for (const auto& now : after) {
    auto old = find(before, now.name);
    if (old == before.end()) {
      changes.push_back({now.name, std::nullopt, now});
    } else if (old->meaning != now.meaning) {
      changes.push_back({now.name, *old, now});
    }
  }
  for (const auto& old : before)
    if (find(after, old.name) == after.end()) changes.push_back({old.name, old, std::nullopt});
  return changes;
}

bool Change::says_anything() const {
  return !properties.empty() || !pours.empty() || !method.empty() || pour_order_changed || !figures.empty() ||
         allergens.any();
}

bool Changes::empty() const {
  return drinks.empty() && preps.empty() && ingredients.empty() && glasses.empty() && ices.empty() &&
         families.empty() && menus.empty() && menu_moves.empty() && house_lines.empty() &&
         not_compared.empty();
}

Change compare_sheets(const Sheet* before, const Sheet* after) {
  static const Sheet nothing;
  const Sheet& old = before ? *before : nothing;
  const Sheet& now = after ? *after : nothing;
  Change change;
  change.kind = !before ? Kind::added : !after ? Kind::removed : Kind::changed;
  change.name = after ? after->name : before->name;
  change.properties = compare_properties(old.properties, now.properties);
  change.pours = PourPairing(old.pours, now.pours).pair();
  change.method = StepPairing(old.method, now.method).pair();
  change.pour_order_changed = order_differs(old.into_glass, now.into_glass);
  change.figures = compare_figures(old.figures, now.figures);
  change.allergens =
      compare_allergens(before ? &before->allergens : nullptr, after ? &after->allergens : nullptr);
  if (before) change.before = *before;
  if (after) change.after = *after;
  return change;
}

}  // namespace gill::diff
