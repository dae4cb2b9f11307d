#include <fmt/format.h>

#include "analysis/specs.h"
#include "base/text.h"
#include "units/money.h"

namespace gill::analysis {
namespace {

/// The typed declarations, one quantity in base units after another, for people who fix the compiler.
class Dumper {
 public:
  Dumper(const Specs& specs, const units::UnitTable& units) : specs_(specs), units_(units) {}

  std::string print() {
    for (const auto& stock : specs_.stock)
      if (!stock.head.from_library) dump(stock);
    for (const auto& drink : specs_.drinks)
      if (!drink.head.from_library) dump(drink);
    for (const auto& menu : specs_.menus) dump(menu);
    for (const auto& list : specs_.price_lists) dump(list);
    return std::move(out_);
  }

 private:
  static std::string_view base_unit(units::Kind kind) {
    switch (kind) {
      case units::Kind::volume:
        return "ml";
      case units::Kind::mass:
        return "g";
      case units::Kind::count:
        return "pieces";
      case units::Kind::part:
        return "parts";
      case units::Kind::time:
        return "s";
      case units::Kind::temperature:
        return "C";
      case units::Kind::strength:
        return "ml/ml ethanol";
      case units::Kind::mass_concentration:
        return "g/ml";
      case units::Kind::mass_fraction:
        return "g/g";
      case units::Kind::density:
        return "g/ml";
      case units::Kind::gas:
        return "vol";
      case units::Kind::pressure:
        return "bar";
      case units::Kind::energy:
        return "kJ";
      case units::Kind::money:
        return "";
      case units::Kind::share:
        return "";
      case units::Kind::length:
        return "mm";
    }
    return "";
  }

  static std::string show(const Quantity& quantity) {
    std::string text = quantity.is_range ? fmt::format("{:.6g}..{:.6g}", quantity.low, quantity.high)
                                         : base::to_decimal(quantity.value, 6);
    if (auto unit = quantity.kind == units::Kind::money ? std::string_view(quantity.currency)
                                                        : base_unit(quantity.kind);
        !unit.empty())
      text += fmt::format(" {}", unit);
    if (quantity.tolerance && !quantity.is_range) text += fmt::format(" +- {:.4g}", *quantity.tolerance);
    return text;
  }

  void field(std::string_view name, const std::optional<Quantity>& quantity) {
    if (quantity) out_ += fmt::format("  {} {}\n", name, show(*quantity));
  }

  void recipe(const Recipe& recipe) {
    for (const auto& line : recipe.order) {
      if (line.is_amount)
        amount(recipe.amounts[line.index]);
      else
        step(recipe.steps[line.index]);
    }
  }

  void amount(const Amount& amount) {
    static constexpr std::string_view forms[] = {"add", "fill to", "add until"};
    out_ += fmt::format("  {} {}", forms[static_cast<int>(amount.form)], show(amount.quantity));
    if (amount.second) out_ += fmt::format(" = {}", show(*amount.second));
    for (const auto& portion : amount.portions) {
      out_ += amount.portions.size() > 1 ? fmt::format(" {:g} x", portion.parts) : "";
      out_ += fmt::format(" <{}>", name_of(portion.use, specs_, units_));
    }
    for (const auto& use : amount.alternatives) out_ += fmt::format(" or <{}>", name_of(use, specs_, units_));
    if (amount.temperature) out_ += fmt::format(" at {}", show(*amount.temperature));
    for (auto [flag, word] : {std::pair{amount.chilled, "chilled"},
                              {amount.frozen, "frozen"},
                              {amount.hot, "hot"},
                              {amount.optional, "optional"},
                              {amount.sealed, "sealed"}})
      if (flag) out_ += fmt::format(" {}", word);
    for (const auto& note : amount.notes) out_ += fmt::format(" ({})", note);
    out_ += '\n';
  }

  void step(const Step& step) {
    out_ += fmt::format("  step {}", info(step.verb).name);
    for (const auto& quantity : {step.time, step.temperature, step.within, step.amount, step.target})
      if (quantity) out_ += fmt::format(" {}", show(*quantity));
    if (step.count) out_ += fmt::format(" {:g}", *step.count);
    if (step.share) out_ += fmt::format(" {:g}", *step.share);
    if (step.use) out_ += fmt::format(" <{}>", name_of(*step.use, specs_, units_));
    if (step.ice) {
      out_ += fmt::format(" with <{}>", specs_[step.ice->ice].head.name);
      if (step.ice->amount) out_ += fmt::format(" {}", show(*step.ice->amount));
    }
    if (!step.words.empty()) out_ += fmt::format(" \"{}\"", step.words);
    if (step.to_tin) out_ += " to tin";
    for (const auto& note : step.notes) out_ += fmt::format(" ({})", note);
    out_ += '\n';
  }

  void dump(const Stock& stock) {
    out_ += fmt::format("{} {}\n", stock.is_prep ? "prep" : "ingredient", stock.head.name);
    if (stock.kind != StockKind::unstated) out_ += fmt::format("  kind {}\n", name_of(stock.kind));
    field("strength", stock.strength);
    field("sugar", stock.sugar);
    for (const auto& acid : stock.acids)
      out_ += fmt::format("  acid {} {}\n", name_of(acid.acid), show(acid.quantity));
    field("density", stock.density);
    field("fizz", stock.fizz);
    for (const auto& [item, quantity] : stock.each)
      out_ += fmt::format("  each {}{}\n", item.valid() ? units_[item].symbol + " " : std::string(),
                          show(quantity));
    for (const auto& origin : stock.origins)
      out_ += fmt::format("  origin {}{}\n", origin.may ? "may be " : "", name_of(origin.origin));
    for (const auto& allergen : stock.allergens)
      out_ += fmt::format("  allergen {}{}\n", allergen.may ? "may " : "", allergen.code);
    for (const auto& buy : stock.buys)
      out_ +=
          fmt::format("  buy {:g} x {} for {}\n", buy.packs, show(buy.pack), units::price_text(buy.price));
    recipe(stock.recipe);
    field("makes", stock.makes);
  }

  void dump(const Drink& drink) {
    out_ += fmt::format("drink {}\n", drink.head.name);
    if (drink.family.valid()) out_ += fmt::format("  family <{}>\n", specs_[drink.family].head.name);
    if (drink.glass.valid()) out_ += fmt::format("  glass <{}>\n", specs_[drink.glass].head.name);
    recipe(drink.recipe);
    for (const auto& expect : drink.expects)
      out_ += fmt::format("  expect {} {}\n", name_of(expect.property),
                          expect.property == Property::allergens || expect.property >= Property::vegan
                              ? std::string()
                              : show(expect.range));
  }

  void dump(const Menu& menu) {
    out_ += fmt::format("menu {} {}..{}\n", menu.head.name, menu.runs_from, menu.runs_to);
    for (const auto& section : menu.sections) {
      out_ += fmt::format("  section {}\n", section.name);
      for (const auto& entry : section.entries)
        out_ += fmt::format("    <{}>{}{}\n", specs_[entry.drink].head.name,
                            entry.price ? " " + units::price_text(*entry.printed_price()) : std::string(),
                            entry.sold_by.empty() ? "" : " " + entry.sold_by);
    }
  }

  void dump(const PriceList& list) {
    out_ += fmt::format("prices {}\n", list.head.name);
    for (const auto& price : list.prices)
      out_ += fmt::format("  <{}> {:g} x {} for {}\n", name_of(price.use, specs_, units_), price.buy.packs,
                          show(price.buy.pack), units::price_text(price.buy.price));
  }

  const Specs& specs_;
  const units::UnitTable& units_;
  std::string out_;
};

}  // namespace

std::string dump(const Specs& specs, const units::UnitTable& units) { return Dumper(specs, units).print(); }

std::string dump_readings(const Specs& specs, const source::SourceSet& sources) {
  std::string text;
  for (const auto& reading : specs.readings) {
    const auto& source = sources[reading.file_id];
    if (source.from_library) continue;
    auto written = sources.written(source.read_from);
    text += fmt::format("{}:{}: {} -> {}\n", source.path, sources[written.file_id].place_of(written).line,
                        base::collapse_space(sources.text(written)), base::trim(source.text));
  }
  return text.empty() ? text : "\nread as\n" + text;
}

}  // namespace gill::analysis
