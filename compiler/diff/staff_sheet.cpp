#include "diff/staff_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "analysis/groups.h"
#include "base/text.h"
#include "diff/mixture.h"
#include "diff/overview.h"
#include "diff/page.h"
#include "diff/words.h"
#include "model/house_bottle.h"
#include "model/raw_egg.h"
#include "render/book/usage.h"
#include "render/wording/allergen_words.h"
#include "render/wording/numbers.h"

namespace gill::diff {

using analysis::StockId;

namespace {

const std::string no_station = "No station named";
const std::string prep_station = "Prep";

bool is_tap_water(const analysis::Stock& stock) {
  return stock.kind == analysis::StockKind::water && !stock.fizz && stock.buys.empty();
}

/// The stock that goes into what is served, through preps to any depth; by index.
std::vector<bool> stock_in_use(const analysis::Specs& specs, const std::vector<bool>& served) {
  std::vector<bool> used(specs.stock.size());
  std::vector<StockId> waiting;
  auto add = [&](const analysis::Recipe& recipe) {
    for (auto part : render::Usage::parts_of(recipe)) {
      if (used[part.index()]) continue;
      used[part.index()] = true;
      waiting.push_back(part);
    }
  };
  for (std::size_t i = 0; i < served.size(); ++i)
    if (served[i]) add(specs.drinks[i].recipe);
  while (!waiting.empty()) {
    auto id = waiting.back();
    waiting.pop_back();
    add(specs[id].recipe);
  }
  return used;
}

/// What is told of a build under the glass: with its garnish as it is put.
std::vector<std::pair<std::string, std::string>> serve_of(const Sheet& sheet) {
  static const std::set<std::string> reported = {"glass", "ice",   "garnish", "serves", "cup",   "batched",
                                                 "makes", "keeps", "bottle",  "par",    "takes", "caution"};
  std::vector<std::pair<std::string, std::string>> lines;
  for (const auto& property : sheet.properties)
    if (reported.contains(property.name)) lines.emplace_back(property.name, property.words);
  return lines;
}

StaffBuild build_of(const Sheet& sheet) {
  StaffBuild build{sheet.name, {}, false, {}, {}, serve_of(sheet), {}};
  for (const auto& pour : sheet.pours)
    if (!is_garnish(pour.role)) build.lines.push_back({pour.name, words_of(pour, nullptr, Columns::all)});
  for (const auto& step : sheet.method) build.method.push_back(step.words);
  return build;
}

StaffRework rework_of(const Change& change) {
  static const std::set<std::string> by_hand = {"glass", "ice",           "garnish", "serves",
                                                "cup",   "batched",       "makes",   "bottle",
                                                "keeps", "largest batch", "caution", "par"};
  StaffRework rework{
      change.name, change.was, change.likeness.has_value(), {}, method_changes_in_words(change)};
  auto swaps = swaps_of(change);
  for (const auto& [gone, come] : swaps)
    if (!is_garnish(come->after->role))
      rework.lines.push_back({fmt::format("{}, in place of {}", come->after->name, gone->before->name),
                              words_of(*gone->before, nullptr, Columns::all),
                              words_of(*come->after, nullptr, Columns::all)});
  for (const auto& pour : change.pours) {
    if (is_in(swaps, pour) || is_garnish(pour.either().role) || !reads_differently(pour)) continue;
    StaffAmount line{pour.either().name, {}, {}};
    if (pour.before) line.before = words_of(*pour.before, pour.after ? &*pour.after : nullptr, Columns::all);
    if (pour.after) line.after = words_of(*pour.after, pour.before ? &*pour.before : nullptr, Columns::all);
    rework.lines.push_back(std::move(line));
  }
  for (const auto& property : change.properties) {
    if (property.name == "station")
      rework.method.push_back(fmt::format("Made at {} now, not at {}.",
                                          property.after ? property.after->words : "no named station",
                                          property.before ? property.before->words : "no named station"));
    if (property.name == "guest")
      rework.method.push_back(property.after
                                  ? "To the guest: " + property.after->words
                                  : std::string("Nothing is set to be said to the guest any more."));
    if (by_hand.contains(property.name))
      rework.lines.push_back({property.name, property.before_words(), property.after_words()});
  }
  return rework;
}

class SheetBuilder {
 public:
  SheetBuilder(const Changes& changes, const Snapshot& before, const Snapshot& after)
      : changes_(changes),
        before_(before),
        after_(after),
        served_(changes.served),
        overview_(overview_of(changes)),
        renamed_(changes.preps) {}

  StaffSheet build() {
    StaffSheet sheet;
    sheet.house = changes_.house;
    sheet.before_label = changes_.before_label;
    sheet.after_label = changes_.after_label;
    sheet.sides = sides_in_words(changes_);
    bool is_same_menu =
        changes_.after_menu == changes_.before_menu && changes_.after_from == changes_.before_from;
    sheet.from = is_same_menu ? std::string() : changes_.after_from;
    sheet.alerts = allergen_alerts(changes_);
    sheet.not_compared = changes_.not_compared;
    for (const auto* change : overview_.tastes)
      if (is_served(*change)) sheet.taste.push_back(name_and_taste_cause(*change));
    for (const auto& [menu, line] : overview_.further_menus)
      sheet.other_menus.push_back(further_menu_words(*menu, *line));
    for (const auto& change : changes_.drinks) add_drink(change);
    for (const auto& move : changes_.menu_moves) add_move(move);
    add_preps();
    add_old_bottles();
    add_glasses();
    auto old_goods = goods_of(before_, served_.before), new_goods = goods_of(after_, served_.after);
    sheet.goods_to_bring = names_without(new_goods, old_goods);
    sheet.goods_to_put_away = names_without(old_goods, new_goods);
    for (auto& [key, station] : stations_)
      if (!station.empty()) sheet.stations.push_back(std::move(station));
    return sheet;
  }

 private:
  Station& station(const std::string& name, const std::string& unnamed) {
    const std::string& shown = name.empty() ? unnamed : name;
    // What belongs to no station comes last.
    auto& station = stations_[{shown == no_station, base::fold_name(shown)}];
    if (station.name.empty()) station.name = shown;
    return station;
  }

  Station& station_of(const analysis::Drink& drink) { return station(drink.station, no_station); }

  /// The guest line, the allergens and raw egg of a drink to be learnt.
  std::vector<std::string> duties_of(std::size_t index) const {
    const auto& drink = after_.specs.drinks[index];
    const auto& facts = after_.facts.drinks[index];
    std::vector<std::string> duties;
    if (!drink.guest.empty()) duties.push_back("To the guest: " + drink.guest);
    auto add = [&](const char* before, const std::vector<std::string>& codes) {
      std::vector<std::string> words;
      for (const auto& code : codes) words.push_back(render::wording::allergen_words(code));
      if (!words.empty()) duties.push_back(before + base::join(words, ", ") + ".");
    };
    add("Contains ", facts.allergens.present());
    add("May contain ", facts.allergens.possible());
    if (!facts.allergens.known) duties.emplace_back("Not all of its allergens are known: read every label.");
    const bool holds_egg =
        model::raw_egg_in(after_.specs, after_.facts, facts.entries, facts.trace, drink.recipe) != nullptr;
    if (holds_egg)
      duties.emplace_back(
          "Raw egg: say so before it is ordered. Your local code and a trained person decide.");
    return duties;
  }

  bool was_served(const Change& change) const {
    return change.before_index && served_.before[*change.before_index];
  }
  bool is_served(const Change& change) const {
    return change.after_index && served_.after[*change.after_index];
  }

  void learn(const Sheet& sheet, std::size_t index, const std::string& was, bool was_guessed) {
    auto build = build_of(sheet);
    build.was = was;
    build.was_guessed = was_guessed;
    build.duties = duties_of(index);
    station_of(after_.specs.drinks[index]).learn.push_back(std::move(build));
  }

  void add_drink(const Change& change) {
    const bool was = was_served(change), is = is_served(change);
    // What comes on the menu or goes off it while its spec stays follows by itself.
    for (const auto& move : changes_.menu_moves)
      if (change.after_index == move.after_index) return;
    if (is && !was) {
      learn(*change.after, *change.after_index, change.was, change.likeness.has_value());
    } else if (was && !is) {
      station_of(before_.specs.drinks[*change.before_index]).stop.push_back(change.name);
    } else if (is) {
      auto rework = rework_of(change);
      rework.tastes_otherwise =
          std::find(overview_.tastes.begin(), overview_.tastes.end(), &change) != overview_.tastes.end();
      if (!rework.lines.empty() || !rework.method.empty() || !rework.was.empty())
        station_of(after_.specs.drinks[*change.after_index]).change.push_back(std::move(rework));
    }
  }

  void add_move(const MenuMove& move) {
    if (move.is_on)
      learn(move.sheet, move.after_index, {}, false);
    else
      station_of(before_.specs.drinks[move.before_index]).stop.push_back(move.sheet.name + " (off the menu)");
  }

  static std::map<std::string, std::size_t> preps_in_use(const analysis::Specs& specs,
                                                         const std::vector<bool>& served) {
    auto used = stock_in_use(specs, served);
    std::map<std::string, std::size_t> preps;
    for (std::size_t i = 0; i < used.size(); ++i)
      if (used[i] && specs.stock[i].is_prep) preps[base::fold_name(specs.stock[i].head.name)] = i;
    return preps;
  }

  /// A prep's recipe with what it makes, where its own line does not say it.
  StaffBuild recipe_of(const Sheet& sheet, std::size_t index) const {
    auto build = build_of(sheet);
    const auto& facts = after_.facts.stock[index];
    bool is_stated = std::any_of(build.serve.begin(), build.serve.end(),
                                 [](const auto& line) { return line.first == "makes"; });
    double ml = facts.yield_ml, grams = facts.yield_g;
    if (is_stated || !facts.valid || (ml <= 0 && grams <= 0)) return build;
    auto about = [](double amount, std::string_view small, std::string_view large) {
      amount = render::wording::to_two_figures(amount);
      return amount >= 1000 ? fmt::format("about {:g} {}", amount / 1000, large)
                            : fmt::format("about {:g} {}", amount, small);
    };
    bool is_liquid = after_.specs.stock[index].effective_form() == analysis::Form::liquid && ml > 0;
    build.serve.insert(build.serve.begin(),
                       {"makes", is_liquid ? about(ml, "ml", "l") : about(grams, "g", "kg")});
    return build;
  }

  void add_preps() {
    auto old_preps = preps_in_use(before_.specs, served_.before),
         new_preps = preps_in_use(after_.specs, served_.after);
    std::set<std::string> made_before;
    for (const auto& [name, index] : old_preps) {
      const std::string& now = renamed_.of(name);
      made_before.insert(now);
      if (new_preps.contains(now)) continue;
      const auto& prep = before_.specs.stock[index];
      auto& stopped = station(prep.station, prep_station);
      stopped.preps_to_stop.push_back(prep.head.name);
      stopped.pour_away.push_back(prep.head.name);
    }
    Identities alone;
    alone.stock.resize(after_.specs.stock.size(), no_identity);
    alone.drinks.resize(after_.specs.drinks.size(), no_identity);
    SheetMaker maker(after_, alone, after_, std::vector<bool>(after_.specs.menus.size()), {});
    for (const auto& [name, index] : new_preps) {
      if (made_before.contains(name)) continue;
      auto sheet = maker.stock(StockId::at(index));
      station(after_.specs.stock[index].station, prep_station)
          .preps_to_start.push_back(recipe_of(sheet, index));
    }
    for (const auto& change : changes_.preps) {
      std::string name = base::fold_name(change.name);
      if (!change.before || !change.after || !made_before.contains(name) || !new_preps.contains(name))
        continue;
      auto rework = rework_of(change);
      add_made_of_old(change);
      if (rework.lines.empty() && rework.method.empty() && rework.was.empty()) continue;
      auto& changed = station(after_.specs.stock[*change.after_index].station, prep_station);
      const bool is_new_recipe = !change.pours.empty() || !change.method.empty();
      if (is_new_recipe) changed.new_recipes.push_back(recipe_of(*change.after, *change.after_index));
      if (is_another_mixture(change))
        changed.pour_away.push_back(change.was.empty() ? change.name : change.was);
      changed.preps_to_change.push_back(std::move(rework));
    }
  }

  /// A prep that is made as before, of one that is not: what stands in the fridge is of the old one.
  void add_made_of_old(const Change& change) {
    auto old = changed_preps_in(change);
    if (old.empty() || is_another_mixture(change)) return;
    station(after_.specs.stock[*change.after_index].station, prep_station)
        .pour_away.push_back(fmt::format("{} (made with the old {})",
                                         change.was.empty() ? change.name : change.was,
                                         base::join_with_and(old)));
  }

  /// The preps by which it tastes otherwise.
  std::vector<std::string> changed_preps_in(const Change& change) const {
    std::vector<std::string> old;
    for (const auto& other : changes_.preps)
      if (std::binary_search(change.taste_because.begin(), change.taste_because.end(), other.name))
        old.push_back(other.name);
    return old;
  }

  /// House bottles that stand there with what is poured no more.
  void add_old_bottles() {
    for (const auto& change : changes_.drinks) {
      if (!was_served(change)) continue;
      const analysis::DrinkId was = analysis::DrinkId::at(*change.before_index);
      std::optional<analysis::DrinkId> now;
      if (is_served(change)) now = analysis::DrinkId::at(*change.after_index);
      auto old = changed_preps_in(change);
      std::erase_if(old, [&](const std::string& prep) { return !is_in_bottle(was, prep); });
      const auto& name = before_.specs[was].head.name;
      auto& away = station_of(now ? after_.specs[*now] : before_.specs[was]).pour_away;
      if (holds_old_bottles(before_, was, after_, now, renamed_))
        away.push_back("house bottles of " + name);
      else if (!old.empty())
        away.push_back(
            fmt::format("house bottles of {} (made with the old {})", name, base::join_with_and(old)));
    }
    for (const auto& move : changes_.menu_moves)
      if (const auto was = analysis::DrinkId::at(move.before_index);
          !move.is_on && holds_old_bottles(before_, was, after_, std::nullopt, renamed_))
        station_of(before_.specs[was])
            .pour_away.push_back("house bottles of " + before_.specs[was].head.name);
  }

  /// By its name in the new house.
  bool is_in_bottle(analysis::DrinkId drink, const std::string& prep) const {
    auto bottle = model::house_bottle_of(before_.specs[drink], before_.facts[drink], before_.facts);
    return std::any_of(bottle.stock.begin(), bottle.stock.end(), [&](StockId stock) {
      return renamed_.of(base::fold_name(before_.specs[stock].head.name)) == base::fold_name(prep);
    });
  }

  /// What is bought that goes into something served, by its folded name.
  static std::map<std::string, std::string> goods_of(const Snapshot& snapshot,
                                                     const std::vector<bool>& served) {
    auto used = stock_in_use(snapshot.specs, served);
    std::map<std::string, std::string> goods;
    for (std::size_t i = 0; i < used.size(); ++i)
      if (const auto& stock = snapshot.specs.stock[i]; used[i] && !stock.is_prep && !is_tap_water(stock))
        goods[base::fold_name(stock.head.name)] = stock.head.name;
    return goods;
  }

  static std::vector<std::string> names_without(const std::map<std::string, std::string>& goods,
                                                const std::map<std::string, std::string>& others) {
    std::vector<std::string> names;
    for (const auto& [folded, name] : goods)
      if (!others.contains(folded)) names.push_back(name);
    return names;
  }

  /// By station: the glasses that stand there.
  std::map<std::string, std::map<std::string, std::string>> glasses_in_use(const analysis::Specs& specs,
                                                                           const std::vector<bool>& served) {
    std::map<std::string, std::map<std::string, std::string>> glasses;
    for (std::size_t i = 0; i < served.size(); ++i) {
      const auto& drink = specs.drinks[i];
      if (!served[i]) continue;
      const std::string& shown = drink.station.empty() ? no_station : drink.station;
      for (auto id : {drink.glass, drink.cup})
        if (id.valid())
          glasses[base::fold_name(shown)][base::fold_name(specs[id].head.name)] = specs[id].head.name;
      station(drink.station, no_station);
    }
    return glasses;
  }

  void add_glasses() {
    auto old_glasses = glasses_in_use(before_.specs, served_.before),
         new_glasses = glasses_in_use(after_.specs, served_.after);
    for (auto& [key, station] : stations_) {
      for (const auto& [name, shown] : new_glasses[key.second])
        if (!old_glasses[key.second].contains(name)) station.glasses_to_pull.push_back(shown);
      // What another station still pours into stays where it is.
      for (const auto& [name, shown] : old_glasses[key.second])
        if (std::none_of(new_glasses.begin(), new_glasses.end(),
                         [&, &glass = name](const auto& other) { return other.second.contains(glass); }))
          station.glasses_to_put_away.push_back(shown);
    }
  }

  const Changes& changes_;
  const Snapshot& before_;
  const Snapshot& after_;
  const Served& served_;
  const Overview overview_;
  const NewNames renamed_;
  std::map<std::pair<bool, std::string>, Station> stations_;
};

}  // namespace

bool Station::empty() const {
  return learn.empty() && change.empty() && stop.empty() && preps_to_start.empty() &&
         preps_to_change.empty() && preps_to_stop.empty() && pour_away.empty() && glasses_to_pull.empty() &&
         glasses_to_put_away.empty();
}

std::vector<AllergenAlert> allergen_alerts(const Changes& changes) {
  std::vector<AllergenAlert> alerts;
  for (bool new_ones : {false, true})
    for (const auto* list : {&changes.drinks, &changes.preps, &changes.ingredients})
      for (const auto& change : *list) {
        bool is_new = change.kind == Kind::added;
        const auto& allergens = change.allergens;
        bool tells = !allergens.gained.empty() || !allergens.possible_gained.empty() ||
                     !allergens.unknown_gained.empty() || (allergens.known_before && !allergens.known_after);
        if (tells && is_new == new_ones && change.kind != Kind::removed && !change.is_unserved)
          alerts.push_back({change.name, is_new, &allergens});
      }
  for (const auto& move : changes.menu_moves)
    if (!move.allergens.gained.empty() || !move.allergens.possible_gained.empty() ||
        !move.allergens.known_after)
      alerts.push_back({move.sheet.name, true, &move.allergens});
  return alerts;
}

StaffSheet staff_sheet(const Changes& changes, const Snapshot& before, const Snapshot& after) {
  return SheetBuilder(changes, before, after).build();
}

}  // namespace gill::diff
