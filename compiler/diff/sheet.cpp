#include "diff/sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "base/percent.h"
#include "base/text.h"
#include "diff/meaning.h"
#include "render/book/usage.h"
#include "render/wording/measures.h"
#include "render/wording/method_lines.h"
#include "render/wording/numbers.h"
#include "units/money.h"

namespace gill::diff {

namespace wording = render::wording;
using Reach = Property::Reach;
using analysis::StockId;
using units::Quantity;

namespace {

/// The units of the new house's columns in this side's table; its own columns where one is not known here.
std::vector<units::UnitId> columns(const std::vector<units::UnitId>& wanted,
                                   const units::UnitTable& wanted_units,
                                   const std::vector<units::UnitId>& own, const units::UnitTable& units) {
  std::vector<units::UnitId> result;
  for (auto id : wanted) {
    auto here = units.find(wanted_units[id].symbol);
    if (!here.valid() || units[here].kind != wanted_units[id].kind) return own;
    result.push_back(here);
  }
  return result;
}

const std::vector<units::UnitId>& prep_columns(const analysis::House& house) {
  return house.show_preps.empty() ? house.show_drinks : house.show_preps;
}

/// Collects the properties of a declaration.
class Properties {
 public:
  Properties(Sheet& sheet, const units::UnitTable& units) : sheet_(sheet), units_(units) {}

  void words(std::string name, const std::string& words, Reach reach = Reach::none) {
    if (!words.empty()) add(std::move(name), base::collapse_space(words), words, reach);
  }
  /// A name: spelt otherwise it is the same.
  void name(std::string name, const std::string& words) {
    if (!words.empty()) add(std::move(name), base::fold_name(words), words, Reach::none);
  }
  void quantity(std::string name, const std::optional<Quantity>& quantity, Reach reach = Reach::none) {
    if (!quantity) return;
    add(std::move(name), Meaning().add("", *quantity).text(), words_of(*quantity), reach);
  }
  void number(std::string name, double value, const std::string& words, Reach reach = Reach::none) {
    add(std::move(name), fmt::format("{:.10g}", value), words, reach);
  }
  void list(std::string name, const std::vector<std::string>& parts, Reach reach = Reach::none) {
    words(std::move(name), base::join(parts, "; "), reach);
  }
  void add(std::string name, std::string meaning, std::string words, Reach reach) {
    sheet_.properties.push_back({std::move(name), std::move(meaning), std::move(words), reach});
  }

 private:
  std::string words_of(const Quantity& quantity) const {
    std::string text = wording::text_of(quantity, units_);
    if (!quantity.is_range && quantity.tolerance && *quantity.tolerance > 0)
      text +=
          fmt::format(" ± {} %", wording::trimmed(base::percent_of_share(quantity.relative_tolerance()), 1));
    return text;
  }

  Sheet& sheet_;
  const units::UnitTable& units_;
};

std::string yes_or_no(bool yes) { return yes ? "yes" : "no"; }

std::string keeps_words(const analysis::Keeps& keeps, const units::UnitTable& units) {
  return fmt::format("{} {}", wording::text_of(keeps.duration, units), analysis::name_of(keeps.storage));
}

void add_keeps(Properties& properties, std::string name, const std::optional<analysis::Keeps>& keeps,
               const units::UnitTable& units) {
  if (!keeps) return;
  Meaning meaning;
  meaning.add(analysis::name_of(keeps->storage)).add("", keeps->duration);
  properties.add(std::move(name), meaning.text(), keeps_words(*keeps, units), Reach::none);
}

std::string_view name_of(analysis::Status status) {
  static constexpr std::string_view names[] = {"approved", "draft", "retired"};
  return names[static_cast<std::size_t>(status)];
}

std::string with_temperature(const std::string& name, const analysis::Drink& drink) {
  std::string words = name;
  if (drink.glass_chilled) words += ", chilled";
  if (drink.glass_frozen) words += ", frozen";
  for (const auto& note : drink.glass_notes) words += ", " + note;
  return words;
}

}  // namespace

SheetMaker::SheetMaker(const Snapshot& snapshot, const Identities& same, const Snapshot& columns_of,
                       const std::vector<bool>& is_season_menu, const std::set<Identity>& on_season)
    : snapshot_(snapshot),
      same_(same),
      measuring_(snapshot.specs, snapshot.units, snapshot.facts.stock, silent_),
      prices_(snapshot.specs, measuring_),
      shown_(snapshot.specs.drinks.size()) {
  const auto& house = columns_of.specs.house;
  const auto& own = snapshot.specs.house;
  drink_columns_ = columns(house.show_drinks, columns_of.units, own.show_drinks, snapshot.units);
  prep_columns_ =
      columns(diff::prep_columns(house), columns_of.units, diff::prep_columns(own), snapshot.units);
  std::vector<analysis::MenuId> menus;
  for (std::size_t i = 0; i < snapshot.specs.menus.size(); ++i) menus.push_back(analysis::MenuId::at(i));
  std::sort(menus.begin(), menus.end(), [&](analysis::MenuId a, analysis::MenuId b) {
    return model::runs_before(snapshot.specs.menus[a.index()], snapshot.specs.menus[b.index()]);
  });
  show_prices(menus, nullptr);
  std::erase_if(menus, [&](analysis::MenuId menu) { return !is_season_menu[menu.index()]; });
  show_prices(menus, &on_season);
}

void SheetMaker::show_prices(const std::vector<analysis::MenuId>& menus, const std::set<Identity>* only) {
  for (auto menu : menus)
    for (const auto& section : snapshot_.specs.menus[menu.index()].sections)
      for (const auto& entry : section.entries) {
        if (!entry.drink.valid() || !entry.price) continue;
        if (only && !only->contains(same_.drinks[entry.drink.index()])) continue;
        auto& shown = shown_[entry.drink.index()];
        const auto& price = *entry.printed_price();
        bool differs = shown.price && shown.price->amount != price.amount;
        shown = {menu, &price, entry.sold_by, shown.is_one_of_several || differs};
      }
}

// ---- drinks

Sheet SheetMaker::drink(analysis::DrinkId id) const {
  const auto& drink = snapshot_.specs[id];
  const auto& facts = snapshot_.facts[id];
  Sheet sheet;
  sheet.name = drink.head.name;
  sheet.is_drink = true;
  sheet.valid = facts.valid;
  add_recipe(sheet, drink.recipe, facts.entries, drink.serves, false);
  add_drink_properties(sheet, id);
  add_drink_figures(sheet, facts);
  add_drink_money(sheet, id);
  add_allergens(sheet, facts.allergens, facts.allergens.known);
  return sheet;
}

void SheetMaker::add_drink_properties(Sheet& sheet, analysis::DrinkId id) const {
  const auto& drink = snapshot_.specs[id];
  const auto& facts = snapshot_.facts[id];
  wording::RecipeContext context{snapshot_.specs, snapshot_.units, drink.recipe, facts.entries,
                                 drink_columns_,  drink.serves,    false};
  Properties properties(sheet, snapshot_.units);
  if (drink.glass.valid())
    properties.name("glass", with_temperature(snapshot_.specs[drink.glass].head.name, drink));
  properties.name("ice", wording::served_on_words(facts.served_on, context));
  std::vector<std::string> garnish;
  for (const auto& line : wording::garnish_lines(context))
    if (!line.is_none) garnish.push_back(line.is_side ? "beside it " + line.words : line.words);
  add_garnish(sheet, drink, garnish);
  if (drink.serves != 1) properties.number("serves", drink.serves, wording::trimmed(drink.serves, 1));
  if (drink.cup.valid()) properties.name("cup", snapshot_.specs[drink.cup].head.name);
  properties.quantity("size", drink.size);
  if (drink.batched) {
    Meaning meaning;
    for (const auto& use : drink.batched->uses) meaning.add("use", same_.stock[use.stock.index()]);
    if (drink.batched->with_water) meaning.add("with water");
    meaning.add("bottle", drink.batched->bottle);
    properties.add("batched", meaning.text(), batched_words(*drink.batched), Reach::none);
  }
  if (drink.family.valid()) properties.name("family", snapshot_.specs[drink.family].head.name);
  properties.name("station", drink.station);
  properties.words("status", std::string(name_of(drink.status)));
  properties.quantity("alcohol", drink.alcohol);
  auto tags = drink.tags;
  std::sort(tags.begin(), tags.end());
  properties.words("tag", base::join(tags, ", "));
  properties.words("guest", drink.guest);
  properties.list("right when", drink.right_when);
  properties.list("caution", drink.cautions);
  properties.words("text", drink.head.text);
}

/// Equal amounts in other units garnish alike: what is declared is told by its pour, what is not by its
/// words.
void SheetMaker::add_garnish(Sheet& sheet, const analysis::Drink& drink,
                             const std::vector<std::string>& words) const {
  std::vector<std::string> meanings;
  for (const auto& pour : sheet.pours)
    if (pour.role == model::Role::garnish || pour.role == model::Role::side)
      meanings.push_back(fmt::format("#{} {} {} {} {:.10g} {}", pour.identity, pour.item,
                                     static_cast<int>(pour.role), static_cast<int>(pour.measured.kind),
                                     pour.measured.value, base::join(pour.remarks, "|")));
  for (const auto& step : drink.recipe.steps)
    if (step.unknown_garnish)
      meanings.push_back(base::fold_name(step.words) + "|" + base::join(step.notes, "|"));
  std::sort(meanings.begin(), meanings.end());
  sheet.properties.push_back(
      {"garnish", base::join(meanings, "\n"), words.empty() ? "none" : base::join(words, "; "), Reach::none});
}

std::string SheetMaker::batched_words(const analysis::Batched& batched) const {
  std::vector<std::string> parts;
  for (const auto& use : batched.uses)
    parts.push_back(analysis::name_of(use, snapshot_.specs, snapshot_.units));
  if (batched.with_water) parts.emplace_back("with water");
  if (batched.bottle) parts.push_back("bottle " + wording::text_of(*batched.bottle, snapshot_.units));
  return base::join(parts, ", ");
}

void SheetMaker::add_drink_figures(Sheet& sheet, const model::DrinkFacts& facts) const {
  auto add = [&](Figure figure, std::optional<double> value, std::optional<double> tolerance = {}) {
    if (!sheet.valid) value = tolerance = std::nullopt;
    sheet.figures.push_back({figure, value, tolerance, {}});
  };
  for (const auto& figure : model::drink_figures()) {
    if (!figure.is_compared) continue;
    add(&figure.row, model::value_of(figure, facts),
        figure.tolerance ? std::optional(model::tolerance_of(figure, facts)) : std::nullopt);
    if (!figure.tolerance || !sheet.valid) continue;
    auto& added = sheet.figures.back();
    added.drink = &facts;
    added.specs = &snapshot_.specs;
    added.effect = figure.tolerance;
  }
}

/// Cost, the price that the menu shows, and cost over price without tax.
void SheetMaker::add_drink_money(Sheet& sheet, analysis::DrinkId id) const {
  const auto& facts = snapshot_.facts[id];
  FigureValue cost{&figures::cost, {}, {}, snapshot_.facts.currency};
  FigureValue price{&figures::price, {}, {}, snapshot_.facts.currency};
  FigureValue pour_cost{&figures::pour_cost_percent, {}, {}, {}};
  if (sheet.valid && facts.cost) cost.value = base::to_double(facts.cost->amount);
  if (facts.serves > 1) cost.of = "a serve";
  const auto& shown = shown_[id.index()];
  if (shown.price) {
    price.value = base::to_double(shown.price->amount);
    price.currency = shown.price->currency;
    price.of = shown.sold_by;
    if (shown.is_one_of_several) sheet.price_menu = snapshot_.specs.menus[shown.menu.index()].head.name;
    auto evaluated = model::price_of(id, shown.menu, snapshot_.specs, snapshot_.facts.currency);
    if (cost.value && evaluated)
      if (auto percent = model::pour_cost_percent(facts.cost->amount, evaluated->without_tax.amount))
        pour_cost.value = base::to_double(*percent);
  }
  for (auto& value : {cost, price, pour_cost}) sheet.figures.push_back(value);
}

// ---- stock

Sheet SheetMaker::stock(StockId id) const {
  const auto& stock = snapshot_.specs[id];
  const auto& facts = snapshot_.facts[id];
  Sheet sheet;
  sheet.name = stock.head.name;
  sheet.valid = facts.valid;
  if (stock.is_prep) add_recipe(sheet, stock.recipe, facts.entries, 1, true);
  add_stock_properties(sheet, id);
  add_stock_figures(sheet, stock, facts);
  add_allergens(sheet, facts.allergens, facts.allergens.known);
  return sheet;
}

namespace {

/// What was measured of a prep.
void add_measured(Properties& properties, const analysis::Stock& stock) {
  properties.quantity("strength as measured", stock.strength, Reach::taste);
  properties.quantity("sugar as measured", stock.sugar, Reach::taste);
  properties.quantity("density as measured", stock.density, Reach::taste);
  properties.quantity("refractometer", stock.refractometer, Reach::taste);
  properties.quantity("hydrometer", stock.hydrometer, Reach::taste);
  for (const auto& acid : stock.acids)
    properties.quantity(fmt::format("{} acid as measured", analysis::name_of(acid.acid)), acid.quantity,
                        Reach::taste);
}

/// What is stated of a thing that is bought.
void add_composition(Properties& properties, const analysis::Stock& stock) {
  // Strength, sugar, acid, fat and density of what is bought are compared as figures.
  std::vector<std::string> acids;
  for (const auto& acid : stock.acids) acids.emplace_back(analysis::name_of(acid.acid));
  std::sort(acids.begin(), acids.end());
  properties.list("acids", acids, Reach::taste);
  properties.quantity("protein", stock.protein, Reach::taste);
  properties.quantity("salt", stock.salt, Reach::taste);
  properties.quantity("other", stock.other, Reach::taste);
  std::vector<std::string> sugars;
  for (const auto& share : stock.sugars)
    sugars.push_back(fmt::format("{} % {}", wording::trimmed(base::percent_of_share(share.share), 1),
                                 analysis::name_of(share.kind)));
  std::sort(sugars.begin(), sugars.end());
  properties.list("sugars", sugars, Reach::taste);
  properties.quantity("caffeine", stock.caffeine);
  properties.quantity("quinine", stock.quinine);
  properties.quantity("sulphites", stock.sulphites);
}

void add_gives(Properties& properties, const analysis::Stock& stock, const Snapshot& snapshot) {
  std::vector<std::string> gives, gives_meaning;
  for (const auto& given : stock.gives) {
    std::string name = analysis::name_of(given.what, snapshot.specs, snapshot.units);
    gives.push_back(wording::text_of(given.quantity, snapshot.units) + " " + name);
    gives_meaning.push_back(Meaning().add(base::fold_name(name)).add("", given.quantity).text());
  }
  std::sort(gives_meaning.begin(), gives_meaning.end());
  if (!gives.empty())
    properties.add("gives", base::join(gives_meaning, ""), base::join(gives, ", "), Reach::cost);
}

void add_origin(Properties& properties, const analysis::Stock& stock) {
  std::string origins;
  for (const auto& line : stock.origins)
    origins += fmt::format("{}{}{}", origins.empty() ? "" : ", ", line.may ? "may be " : "",
                           analysis::name_of(line.origin));
  properties.words("origin", origins);
}

}  // namespace

void SheetMaker::add_stock_properties(Sheet& sheet, StockId id) const {
  const auto& stock = snapshot_.specs[id];
  Properties properties(sheet, snapshot_.units);
  if (stock.kind != analysis::StockKind::unstated)
    properties.words("kind", std::string(analysis::name_of(stock.kind)), Reach::taste);
  if (stock.form) {
    static constexpr const char* forms[] = {"liquid", "solid", "powder"};
    properties.words("form", forms[static_cast<std::size_t>(*stock.form)], Reach::taste);
  }
  properties.quantity("makes", stock.makes, Reach::taste);
  if (stock.is_prep)
    add_measured(properties, stock);
  else
    add_composition(properties, stock);
  properties.quantity("fizz", stock.fizz, Reach::taste);
  if (stock.ph) properties.number("pH", *stock.ph, wording::trimmed(*stock.ph, 2), Reach::taste);
  for (const auto& [item, quantity] : stock.each)
    properties.quantity(item.valid() ? "each " + snapshot_.units[item].symbol : "each", quantity,
                        Reach::taste);
  add_gives(properties, stock, snapshot_);
  properties.words("treated", stock.treated, Reach::taste);
  add_origin(properties, stock);
  if (stock.foams) properties.words("foams", yes_or_no(*stock.foams), Reach::taste);
  if (stock.holds_fat) properties.words("holds fat", yes_or_no(*stock.holds_fat), Reach::taste);
  properties.name("colour", stock.colour);
  if (stock.waste)
    properties.number("waste", *stock.waste, wording::trimmed(base::percent_of_share(*stock.waste), 1) + " %",
                      Reach::cost);
  add_prices(sheet, id);
  add_keeps(properties, "keeps", stock.keeps, snapshot_.units);
  add_keeps(properties, "opened", stock.opened, snapshot_.units);
  properties.quantity("bottle", stock.bottle);
  properties.quantity("par", stock.par);
  properties.quantity("takes", stock.takes);
  properties.quantity("largest batch", stock.largest_batch);
  properties.name("station", stock.station);
  properties.list("caution", stock.cautions);
  properties.words("text", stock.head.text);
}

/// What it is bought for now: by the price list that counts, else by its `buy` lines. A new list with the old
/// prices changes nothing.
void SheetMaker::add_prices(Sheet& sheet, StockId id) const {
  std::vector<std::pair<std::string, std::string>> offers;
  auto add = [&](const analysis::Buy& buy, const std::string& supplier) {
    std::string packs = buy.packs == 1 ? std::string() : wording::trimmed(buy.packs, 2) + " × ";
    std::string words = fmt::format("{}{} for {}", packs, wording::text_of(buy.pack, snapshot_.units),
                                    units::price_text(buy.price));
    Meaning meaning;
    meaning.add(base::fold_name(supplier)).add("packs", buy.packs).add("", buy.pack);
    meaning.add("price", base::to_double(buy.price.amount)).add(buy.price.currency);
    offers.emplace_back(meaning.text(),
                        supplier.empty() ? words : fmt::format("{} from {}", words, supplier));
  };
  for (const auto& offer : prices_.offers(id)) add(*offer.buy, offer.supplier);
  for (const auto* buy : prices_.without_rate(id)) add(*buy, buy->supplier);
  if (offers.empty()) return;
  std::sort(offers.begin(), offers.end());
  std::string meaning;
  std::vector<std::string> words;
  for (const auto& [one, text] : offers) meaning += one, words.push_back(text);
  sheet.properties.push_back({"bought", meaning, base::join(words, "; "), Reach::cost});
}

void SheetMaker::add_stock_figures(Sheet& sheet, const analysis::Stock& stock,
                                   const model::StockFacts& facts) const {
  auto add = [&](Figure figure, std::optional<double> value, std::optional<double> tolerance = {}) {
    if (!sheet.valid) value = tolerance = std::nullopt;
    sheet.figures.push_back({figure, value, tolerance, {}});
  };
  for (const auto& row : model::stock_figures())
    if (stock.is_prep || !row.is_of_preps_only)
      add(&row.row, row.value(facts), model::tolerance_of(row, facts));
  if (stock.is_prep) add(&figures::keeps_days, facts.keeps_days);
  bool liquid = stock.effective_form() == analysis::Form::liquid;
  FigureValue cost{liquid ? &figures::cost_per_l : &figures::cost_per_kg, {}, {}, snapshot_.facts.currency};
  auto money = liquid ? model::cost_per_l(facts) : model::cost_per_kg(facts);
  if (sheet.valid && money) cost.value = base::to_double(money->amount);
  sheet.figures.push_back(cost);
}

void SheetMaker::add_allergens(Sheet& sheet, const model::Allergens& allergens, bool known) const {
  auto& into = sheet.allergens;
  for (const auto& route : allergens.routes) {
    Allergen allergen{route.code, {}};
    for (auto id : route.via) allergen.via.push_back(snapshot_.specs[id].head.name);
    (route.may ? into.possible : into.present).push_back(std::move(allergen));
  }
  auto by_code = [](const Allergen& a, const Allergen& b) { return a.code < b.code; };
  std::sort(into.present.begin(), into.present.end(), by_code);
  std::sort(into.possible.begin(), into.possible.end(), by_code);
  into.known = known;
  for (auto id : allergens.unknown) into.unknown.push_back(snapshot_.specs[id].head.name);
  for (const auto& name : allergens.undeclared) into.unknown.push_back(name);
  std::sort(into.unknown.begin(), into.unknown.end());
}

// ---- glass, ice, family, house

Sheet SheetMaker::glass(analysis::GlassId id) const {
  const auto& glass = snapshot_.specs[id];
  Sheet sheet;
  sheet.name = glass.head.name;
  Properties properties(sheet, snapshot_.units);
  properties.quantity("holds", glass.holds);
  properties.quantity("line", glass.line);
  std::vector<std::string> points;
  for (const auto& point : glass.shape)
    points.push_back(fmt::format("{:.6g} mm at {:.6g} mm", point.diameter_mm, point.height_mm));
  properties.words("shape", base::join(points, ", "));
  properties.number("stem", glass.stem_mm, wording::trimmed(glass.stem_mm, 1) + " mm");
  properties.number("foot", glass.foot_mm, wording::trimmed(glass.foot_mm, 1) + " mm");
  properties.number("wall", glass.wall_mm, wording::trimmed(glass.wall_mm, 1) + " mm");
  properties.name("material", glass.material);
  properties.words("text", glass.head.text);
  return sheet;
}

Sheet SheetMaker::ice(analysis::IceId id) const {
  const auto& ice = snapshot_.specs[id];
  Sheet sheet;
  sheet.name = ice.head.name;
  Properties properties(sheet, snapshot_.units);
  auto share = [&](const char* name, double value) {
    properties.number(name, value, wording::trimmed(base::percent_of_share(value), 1) + " %");
  };
  properties.quantity("each", ice.each);
  share("melt", ice.melt);
  share("packs", ice.packs);
  share("wet", ice.wet);
  properties.words("text", ice.head.text);
  return sheet;
}

Sheet SheetMaker::family(analysis::FamilyId id) const {
  const auto& family = snapshot_.specs[id];
  Sheet sheet;
  sheet.name = family.head.name;
  Properties properties(sheet, snapshot_.units);
  if (family.method) properties.words("method", std::string(analysis::info(*family.method).name));
  if (family.ice) properties.words("ice", snapshot_.specs[family.ice->ice].head.name);
  properties.quantity("strength", family.strength);
  properties.quantity("sugar", family.sugar);
  properties.quantity("acid", family.acid);
  properties.quantity("balance", family.balance);
  properties.quantity("volume", family.volume);
  properties.words("text", family.head.text);
  return sheet;
}

namespace {

void add_measures(Properties& properties, const analysis::House& house, const units::UnitTable& units) {
  std::vector<std::string> measures;
  std::string measures_meaning;
  for (const auto& measure : house.measures) {
    measures.push_back(wording::text_of(measure, units));
    measures_meaning += Meaning().add("", measure).text();
  }
  if (!measures.empty())
    properties.add("measures", measures_meaning, base::join(measures, ", "), Reach::none);
}

/// How the house reckons with money.
void add_money(Properties& properties, const analysis::House& house) {
  if (house.tax)
    properties.words("tax",
                     fmt::format("{} % {}", wording::trimmed(base::percent_of_share(house.tax->rate), 3),
                                 house.tax->included ? "included" : "added"));
  if (house.pour_cost)
    properties.number(
        "pour cost", *house.pour_cost,
        fmt::format("up to {} %", wording::trimmed(base::percent_of_share(*house.pour_cost), 1)));
  if (house.round_prices_to)
    properties.words("round prices to", units::price_digits({*house.round_prices_to, house.currency}));
  std::vector<std::string> rates;
  for (const auto& rate : house.rates)
    rates.push_back(fmt::format("1 {} = {} {}", rate.from, base::to_decimal(rate.factor, 6), rate.to));
  std::sort(rates.begin(), rates.end());
  properties.list("rate", rates);
}

}  // namespace

Sheet SheetMaker::house() const {
  const auto& house = snapshot_.specs.house;
  Sheet sheet;
  sheet.name = house.head.name;
  Properties properties(sheet, snapshot_.units);
  auto temperature = [&](const char* name, double value) {
    properties.number(name, value, wording::trimmed(value, 1) + " °C");
  };
  auto columns = [&](const char* name, const std::vector<units::UnitId>& ids) {
    std::vector<std::string> symbols;
    for (auto id : ids) symbols.push_back(snapshot_.units[id].symbol);
    properties.words(name, base::join(symbols, ", "));
  };
  properties.words("place", house.place);
  properties.words("currency", house.currency);
  add_measures(properties, house, snapshot_.units);
  columns("show", house.show_drinks);
  columns("show preps", house.show_preps);
  temperature("room", house.room_c);
  temperature("fridge", house.fridge_c);
  temperature("freezer", house.freezer_c);
  temperature("ice", house.ice_c);
  auto hands = [&](const std::string& name, const analysis::Hand& hand) {
    properties.number(name, hand.factor, wording::trimmed(hand.factor, 2) + " times the usual");
  };
  for (const auto& [verb, hand] : house.hands)
    hands(fmt::format("hands {}", analysis::info(verb).name), hand);
  if (house.strain_hand.factor != 1) hands("hands strain", house.strain_hand);
  properties.words("alcohol unit", house.alcohol_unit);
  properties.words("allergen list", house.allergen_list);
  properties.number("strongest", house.strongest_g, wording::trimmed(house.strongest_g, 1) + " g");
  add_money(properties, house);
  properties.list("notice", house.notices);
  properties.words("text", house.head.text);
  return sheet;
}

}  // namespace gill::diff
