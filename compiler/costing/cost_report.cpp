#include "costing/cost_report.h"
#include "costing/garnish_notes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

#include "base/date.h"
#include "base/percent.h"
#include "base/text.h"
#include "costing/priced_twice.h"
#include "costing/words.h"
#include "render/book/usage.h"

namespace gill::costing {
namespace {

/// The quantity with which an entry was written; nothing where its amount was evaluated.
const units::Quantity* written(const analysis::Recipe& recipe, const model::Entry& entry) {
  if (entry.role == model::Role::amount) {
    const auto& amount = recipe.amounts[entry.index];
    return amount.form == analysis::Amount::Form::measured && amount.quantity.kind != units::Kind::part
               ? &amount.quantity
               : nullptr;
  }
  const auto& step = recipe.steps[entry.index];
  return step.amount ? &*step.amount : nullptr;
}

/// One pour moved at a time; what each does to the cost adds as squares.
double tolerance_of(DrinkId drink, const Costing& costing) {
  const auto& house = costing.house();
  double squares = 0;
  const auto& entries = house.facts[drink].entries;
  auto paid_for =
      model::come_with_fruit(entries, house.specs, house.units, costing.prices(), costing.measuring());
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const auto& entry = entries[i];
    if (entry.optional || !entry.mass_g || paid_for[i]) continue;
    const auto* quantity = written(house.specs[drink].recipe, entry);
    double share =
        costing.measuring().relative_tolerance(entry.use, quantity ? *quantity : units::Quantity());
    auto per_gram = costing.cost_of_a_gram(entry.use.stock);
    if (share > 0 && per_gram) squares += std::pow(share * *entry.mass_g * base::to_double(*per_gram), 2);
  }
  return std::sqrt(squares);
}

void set_shares(std::vector<Carrier>& carriers) {
  Exact total = 0;
  for (const auto& carrier : carriers) total += carrier.cost;
  for (auto& carrier : carriers) carrier.share = total > 0 ? base::to_double(carrier.cost / total) : 0;
  std::stable_sort(carriers.begin(), carriers.end(),
                   [](const Carrier& a, const Carrier& b) { return a.cost > b.cost; });
}

std::vector<Carrier> carriers_of(const Parts& parts, const Costing& costing) {
  std::vector<Carrier> carriers;
  for (const auto& part : parts.bought)
    if (const auto& price = costing.per_gram(part.stock); price && *price > 0)
      carriers.push_back({part.stock, model::settled(*price * model::decimal_of(part.paid_g)), 0});
  for (const auto& pieces : parts.pieces)
    if (auto cost = costing.cost(pieces)) carriers.push_back({pieces.use.stock, model::settled(*cost), 0});
  std::erase_if(carriers, [](const Carrier& carrier) { return carrier.cost == 0; });
  set_shares(carriers);
  return carriers;
}

DrinkCost drink_cost(DrinkId drink, analysis::MenuId menu, const Costing& costing) {
  const auto& house = costing.house();
  DrinkCost line;
  line.drink = drink;
  Parts parts = costing.parts(drink);
  line.without_price = costing.without_price(parts);
  line.without_weight = parts.unweighed_garnish;
  line.carriers = carriers_of(parts, costing);
  if (house.facts[drink].valid) line.cost = costing.cost(drink);
  line.price = model::price_of(drink, menu, house.specs, costing.prices().currency());
  if (!line.cost) return line;
  line.tolerance = tolerance_of(drink, costing);
  line.price_for_target = model::price_for_target(house.specs.house, *line.cost, costing.prices().currency());
  if (!line.price) return line;
  line.margin = line.price->without_tax.amount - *line.cost;
  line.pour_cost_percent = model::pour_cost_percent(*line.cost, line.price->without_tax.amount);
  return line;
}

std::vector<DrinkId> drinks_of(const House& house, analysis::MenuId menu) {
  std::vector<DrinkId> drinks;
  auto add = [&](DrinkId drink) {
    if (house.specs[drink].status == analysis::Status::retired) return;
    if (std::find(drinks.begin(), drinks.end(), drink) == drinks.end()) drinks.push_back(drink);
  };
  if (menu.valid()) {
    for (const auto& section : house.specs.menus[menu.index()].sections)
      for (const auto& entry : section.entries) add(entry.drink);
    return drinks;
  }
  for (std::size_t i = 0; i < house.specs.drinks.size(); ++i)
    if (!house.specs.drinks[i].head.from_library) add(DrinkId::at(i));
  std::sort(drinks.begin(), drinks.end(), [&](DrinkId a, DrinkId b) {
    return name_key(house.specs[a].head.name) < name_key(house.specs[b].head.name);
  });
  return drinks;
}

PrepCost prep_cost(StockId prep, const Costing& costing) {
  const auto& facts = costing.house().facts[prep];
  PrepCost line{prep, {}, {}, {}, {}, costing.without_price(costing.parts_of_a_gram(prep))};
  auto per_gram = costing.cost_of_a_gram(prep);
  if (!facts.valid || !per_gram) return line;
  line.cost = model::settled(*per_gram * model::decimal_of(facts.yield_g));
  line.cost_per_kg = model::settled(*per_gram * 1000);
  if (costing.measuring().is_liquid(prep) && facts.yield_ml > 0)
    line.cost_per_l = model::settled(*per_gram * model::decimal_of(facts.yield_g) /
                                     model::decimal_of(facts.yield_ml) * 1000);
  if (facts.yield_count && *facts.yield_count > 0)
    line.cost_each = model::settled(*line.cost / model::decimal_of(*facts.yield_count));
  return line;
}

MenuCost menu_cost(analysis::MenuId menu, const Costing& costing, const Costing& before) {
  const auto& house = costing.house();
  MenuCost total;
  total.menu = menu;
  const auto& sections = house.specs.menus[menu.index()].sections;
  for (const auto& section : sections)
    for (const auto& entry : section.entries) total.has_sales = total.has_sales || sells_in_a_week(entry) > 0;
  std::map<StockId, Exact> by_stock;
  for (const auto& section : sections) {
    for (const auto& entry : section.entries) {
      if (house.specs[entry.drink].status == analysis::Status::retired) continue;
      Exact portions = total.has_sales ? model::decimal_of(sells_in_a_week(entry)) : Exact(1);
      auto line = drink_cost(entry.drink, menu, costing);
      auto cost_before = before.cost(entry.drink);
      if (!line.cost || !line.price || !cost_before) {
        total.left_out.push_back(entry.drink);
        continue;
      }
      total.portions += portions;
      total.cost += portions * *line.cost;
      total.cost_before += portions * *cost_before;
      total.sales_without_tax += portions * line.price->without_tax.amount;
      for (const auto& carrier : line.carriers) by_stock[carrier.stock] += portions * carrier.cost;
    }
  }
  total.margin = total.sales_without_tax - total.cost;
  total.pour_cost_percent = model::pour_cost_percent(total.cost, total.sales_without_tax);
  total.pour_cost_percent_before = model::pour_cost_percent(total.cost_before, total.sales_without_tax);
  if (total.portions > 0) total.margin_per_portion = total.margin / total.portions;
  for (const auto& [stock, cost] : by_stock) total.carriers.push_back({stock, cost, 0});
  set_shares(total.carriers);
  return total;
}

std::string quoted(const analysis::Head& head) { return "`" + head.name + "`"; }

void add_notes_on_garnishes(CostReport& report, const House& house) {
  std::set<std::string> unweighed;
  for (const auto& line : report.drinks)
    for (auto stock : line.without_weight) unweighed.insert(quoted(house.specs[stock].head));
  std::vector<DrinkId> drinks;
  for (const auto& line : report.drinks) drinks.push_back(line.drink);
  for (auto note : {note_on_unweighed(unweighed, "costs are told"),
                    note_on_undeclared(undeclared_garnishes(house, drinks), "costs are told")})
    if (!note.empty()) report.notes.push_back(std::move(note));
}

/// What nothing prices, and what no stated rate brings into the house's currency.
void add_notes_on_prices(CostReport& report, const Costing& costing) {
  const auto& specs = costing.house().specs;
  std::map<std::string, std::vector<std::string>> without_rate;
  std::vector<std::string> unpriced;
  std::set<StockId> reported;
  for (const auto& line : report.drinks)
    for (auto stock : line.without_price) {
      if (!reported.insert(stock).second) continue;
      auto lines = costing.prices().without_rate(stock);
      auto& names = lines.empty() ? unpriced : without_rate[lines.front()->price.currency];
      names.push_back(quoted(specs[stock].head));
    }
  for (auto& [currency, names] : without_rate) {
    std::sort(names.begin(), names.end());
    report.notes.push_back(
        fmt::format("No rate from {} to {} is stated, so the price of {} counts for nothing. Add `rate 1 {} "
                    "= … {}` to the house.",
                    currency, report.currency, base::join_with_and(names), currency, report.currency));
  }
  add_notes_on_garnishes(report, costing.house());
  std::sort(unpriced.begin(), unpriced.end());
  if (!unpriced.empty())
    report.notes.push_back(
        fmt::format("No price (or no weight) is known of {}: the cost of what they go into is not told. Add "
                    "a `buy` line, or name them in a price list.",
                    base::join_with_and(unpriced)));
}

/// Drinks whose only price is in a currency that nothing brings into the house's.
void add_notes_on_menus(CostReport& report, const Costing& costing) {
  const auto& specs = costing.house().specs;
  std::set<std::string> notes;
  auto add = [&](const DrinkCost& line, const analysis::MenuEntry& entry) {
    if (entry.drink != line.drink || !entry.price || costing.prices().in_house_currency(*entry.price)) return;
    std::string note =
        report.currency.empty()
            ? fmt::format("`{}` is priced in {}, and the house names no currency: write `currency {}` in it.",
                          specs[line.drink].head.name, entry.price->currency, entry.price->currency)
            : fmt::format("`{}` is priced in {} and no rate to {} is stated.", specs[line.drink].head.name,
                          entry.price->currency, report.currency);
    if (notes.insert(note).second) report.notes.push_back(note);
  };
  for (const auto& line : report.drinks) {
    auto priced = model::price_of(line.drink, {}, specs, costing.prices().currency());
    if (line.price || priced) continue;
    for (const auto& menu : specs.menus)
      for (const auto& section : menu.sections)
        for (const auto& entry : section.entries) add(line, entry);
  }
}

/// Of a drink on two menus at two prices only one is in the table.
void add_notes_on_two_prices(CostReport& report, const House& house) {
  std::vector<DrinkId> drinks;
  for (const auto& line : report.drinks)
    if (line.price) drinks.push_back(line.drink);
  if (auto twice = priced_twice(drinks, house); !twice.empty())
    report.notes.push_back(
        fmt::format("On two menus of the same days at two prices, told here at the first: {}.",
                    base::join_with_and(twice)));
}

/// A price that was moved and moves no drink, with what was perhaps meant.
void add_notes_on_rises(CostReport& report, const Costing& costing) {
  const auto& house = costing.house();
  for (const auto& rise : report.rises) {
    bool used = false;
    for (const auto& line : report.drinks)
      for (const auto& part : costing.parts(line.drink).bought)
        used = used || part.stock == rise.stock || costing.prices().given_by(part.stock).fruit == rise.stock;
    if (used) continue;
    std::vector<std::string> alike;
    for (const auto& stock : house.specs.stock) {
      auto like = house.names[stock.head.declaration_id].like;
      if (like.valid() && house.specs.index_of[like.index()] == rise.stock.value &&
          !stock.head.from_library && !stock.is_prep)
        alike.push_back(quoted(stock.head));
    }
    report.notes.push_back(fmt::format(
        "No drink here is made of `{}`, so its price moves nothing{}", house.specs[rise.stock].head.name,
        alike.empty() ? "."
                      : fmt::format("; {} {} declared like it.", base::join_with_and(alike),
                                    alike.size() == 1 ? "is" : "are")));
  }
}

/// The first day of what a date says as far as it goes: `2026-04` begins on its first.
std::optional<std::chrono::sys_days> first_day(std::string date) {
  static constexpr std::string_view earliest = "2026-01-01";
  if (date.empty()) return std::nullopt;
  if (date.size() < earliest.size()) date += earliest.substr(date.size());
  return base::read_iso_date(date);
}

/// Everything bought for the drinks and preps of a report, each once.
std::set<StockId> bought_for(const CostReport& report, const Costing& costing) {
  const auto& prices = costing.prices();
  std::set<StockId> bought;
  auto add = [&](const Parts& parts) {
    for (const auto& part : parts.bought)
      bought.insert(prices.is_given(part.stock) ? prices.given_by(part.stock).fruit : part.stock);
    for (const auto& pieces : parts.pieces) bought.insert(pieces.use.stock);
  };
  for (const auto& line : report.drinks) add(costing.parts(line.drink));
  for (const auto& line : report.preps) add(costing.parts_of_a_gram(line.prep));
  return bought;
}

}  // namespace

std::vector<PriceSource> price_sources(const std::set<StockId>& bought, const Costing& costing,
                                       std::optional<std::chrono::sys_days> today) {
  const auto& house = costing.house();
  const auto& prices = costing.prices();
  std::map<const analysis::PriceList*, PriceSource> by_list;
  for (auto stock : bought) {
    const auto* list = prices.list_of(stock);
    if (list || !house.specs[stock].buys.empty()) by_list[list].stock.push_back(stock);
  }
  std::vector<PriceSource> sources;
  for (auto& [list, source] : by_list) {
    source.list = list;
    if (list) source.from = model::date_of(*list, house.specs);
    // What only follows another list says no day of its own.
    if (source.from.ends_with('~')) source.from.clear();
    if (auto day = first_day(source.from); day && today)
      source.age_days = static_cast<int>((*today - *day).count());
    std::sort(source.stock.begin(), source.stock.end(), [&](StockId a, StockId b) {
      return name_key(house.specs[a].head.name) < name_key(house.specs[b].head.name);
    });
    sources.push_back(std::move(source));
  }
  auto key = [](const PriceSource& source) {
    return std::tuple(source.from, source.list ? source.list->head.name : std::string());
  };
  std::sort(sources.begin(), sources.end(),
            [&](const PriceSource& a, const PriceSource& b) { return key(b) < key(a); });
  return sources;
}

std::string words_of(const PriceSource& source) {
  std::string since = source.from.empty() ? "no date" : "since " + source.from;
  if (source.age_days && *source.age_days >= 0)
    since += fmt::format(", {} {}", *source.age_days, *source.age_days == 1 ? "day" : "days");
  if (source.age_days && *source.age_days < 0) since += ", which is still to come";
  return fmt::format("{} ({})", source.list ? "`" + source.list->head.name + "`" : "`buy` lines", since);
}

std::variant<PriceRise, std::string> read_price_rise(const House& house, std::string_view text) {
  std::string line = base::collapse_space(text);
  auto percent = line.rfind('%');
  auto sign = line.find_last_of("+-");
  std::size_t sign_bytes = 1;
  if (auto minus = line.rfind("−");
      minus != std::string::npos && (sign == std::string::npos || minus > sign)) {
    sign = minus;
    sign_bytes = std::string_view("−").size();
  }
  std::string shape =
      fmt::format("`{}` says no rise: write a name and a change, as in `rye whiskey +15%`.", line);
  if (percent != line.size() - 1 || sign == std::string::npos || sign == 0 || percent <= sign) return shape;
  auto number = base::parse_exact(
      base::trim(std::string_view(line).substr(sign + sign_bytes, percent - sign - sign_bytes)));
  if (!number) return shape;
  Exact change = base::share_of_percent(*number);
  bool falls = line[sign] != '+';
  if (falls && change > 1)
    return fmt::format("`{}` takes more off than there is: a price falls by 100 % at most.", line);
  std::string name(base::trim(std::string_view(line).substr(0, sign)));
  auto id = house.names.find(symbols::NameSpace::stock, name);
  if (!id.valid()) {
    auto near = house.names.nearest(symbols::NameSpace::stock, name);
    return fmt::format("Nothing that the house buys is called `{}`{}", name,
                       near ? fmt::format("; did you mean `{}`?", *near) : ".");
  }
  StockId stock{house.specs.index_of[id.index()]};
  if (house.specs[stock].is_prep)
    return fmt::format("`{}` is made, not bought: name something that goes into it.",
                       house.specs[stock].head.name);
  return PriceRise{stock, falls ? Exact(1 - change) : Exact(1 + change)};
}

CostReport cost_report(const House& house, analysis::MenuId menu, const std::vector<PriceRise>& rises,
                       std::optional<std::chrono::sys_days> today, const std::string& on) {
  Costing before(house, on), costing(house, on);
  for (const auto& rise : rises) costing.raise(rise.stock, rise.factor);
  CostReport report;
  report.currency = costing.prices().currency();
  report.rises = rises;
  for (auto drink : drinks_of(house, menu)) {
    report.drinks.push_back(drink_cost(drink, menu, costing));
    report.drinks.back().cost_before = house.facts[drink].valid ? before.cost(drink) : std::nullopt;
  }
  auto of_the_house = render::Usage(house.specs).of_the_house();
  for (std::size_t i = 0; i < house.specs.stock.size(); ++i)
    if (house.specs.stock[i].is_prep && of_the_house[i])
      report.preps.push_back(prep_cost(StockId::at(i), costing));
  std::sort(report.preps.begin(), report.preps.end(), [&](const PrepCost& a, const PrepCost& b) {
    return name_key(house.specs[a.prep].head.name) < name_key(house.specs[b.prep].head.name);
  });
  std::vector<analysis::MenuId> menus;
  for (std::size_t i = 0; i < house.specs.menus.size(); ++i)
    if (!menu.valid() || menu == analysis::MenuId::at(i)) menus.push_back(analysis::MenuId::at(i));
  // The one that runs last first.
  std::sort(menus.begin(), menus.end(), [&](auto a, auto b) {
    return model::runs_before(house.specs.menus[b.index()], house.specs.menus[a.index()]);
  });
  for (auto id : menus) report.menus.push_back(menu_cost(id, costing, before));
  add_notes_on_rises(report, costing);
  add_notes_on_prices(report, costing);
  add_notes_on_menus(report, costing);
  if (!menu.valid()) add_notes_on_two_prices(report, house);
  report.price_sources = price_sources(bought_for(report, costing), costing, today);
  return report;
}

}  // namespace gill::costing
