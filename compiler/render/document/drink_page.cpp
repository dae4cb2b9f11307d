#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "model/house_bottle.h"
#include "model/money.h"
#include "render/document/drink_picture_part.h"
#include "render/document/pages.h"
#include "render/document/recipe_data.h"
#include "render/document/shared_parts.h"
#include "render/document/stock_parts.h"
#include "render/wording/measures.h"
#include "render/wording/method_lines.h"
#include "render/wording/numbers.h"
#include "render/wording/unfinished.h"
#include "units/money.h"

namespace gill::render::document {

using analysis::StockId;
using wording::trimmed;

namespace {

/// What an alcohol unit is called where it is counted. From the countries' guidelines, from memory.
std::string unit_name(const std::string& country) {
  if (country == "UK") return "UK units";
  return country + " standard drinks";
}

class DrinkPageBuilder {
 public:
  DrinkPageBuilder(const BookIndex& index, analysis::DrinkId id)
      : index_(index),
        id_(id),
        drink_(index.specs()[id]),
        facts_(index.facts()[id]),
        valid_(facts_.valid),
        recipe_(wording::recipe_of(drink_, facts_, index.specs(), index.units())),
        cautions_(cautions_of(index, id)),
        bottle_(model::house_bottle_of(drink_, facts_, index.facts())) {}

  Page build() {
    Page page;
    page.path = index_.path_of(id_);
    page.title = drink_.head.name;
    page.kind = "drink";
    page.subtitle = subtitle();
    page.linked_data = recipe_data(index_, id_);
    auto& blocks = page.blocks;
    blocks.push_back(at_a_glance());
    blocks.push_back(Group{"notices", notices()});
    blocks.push_back(Group{"making", making()});
    blocks.push_back(Group{"serving", serving()});
    blocks.push_back(Group{"keeping", keeping()});
    return page;
  }

 private:
  static void add_notice(std::vector<Block>& blocks, Notice notice) {
    if (!notice.blocks.empty()) blocks.push_back(std::move(notice));
  }

  std::vector<Block> notices() const {
    std::vector<Block> blocks;
    add_notice(blocks, error_notice(index_, id_));
    blocks.push_back(
        allergens_notice(index_, facts_.allergens, facts_.allergens.known, drink_.recipe, &facts_.origins));
    if (valid_) add_statements(blocks, index_, facts_.statements);
    return blocks;
  }

  // ---- first: what it is and what it is poured into

  Run subtitle() const {
    std::vector<Run> parts;
    if (drink_.family.valid()) parts.push_back(index_.link_to(drink_.family));
    if (!drink_.station.empty()) parts.push_back(Run(drink_.station));
    if (drink_.status == analysis::Status::draft) parts.push_back(Run().strong("Draft: not approved"));
    return joined(parts, " · ");
  }

  FactList at_a_glance() const {
    FactList facts;
    facts.tone = Tone::lead;
    facts.facts.push_back({"Glass", {glass_words()}});
    facts.facts.push_back({"Ice", {ice_words()}});
    facts.facts.push_back({"Garnish", {garnish_words(false)}});
    Run beside = garnish_words(true);
    add_fact(facts, "Beside it", std::move(beside));
    if (facts_.serves > 1) facts.facts.push_back({"Serves", {Run(trimmed(facts_.serves, 1))}});
    if (!cautions_.in_brief.empty()) facts.facts.push_back({"Take care", {Run().strong(cautions_.in_brief)}});
    return facts;
  }

  Run glass_words() const {
    if (!drink_.glass.valid()) return Run("not said");
    Run run = index_.link_to(drink_.glass);
    if (drink_.glass_chilled) run.plain(", chilled");
    if (drink_.glass_frozen) run.plain(", frozen");
    for (const auto& note : drink_.glass_notes) run.plain(", " + note);
    if (drink_.cup.valid()) run.plain("; served in a ").append(index_.link_to(drink_.cup));
    return run;
  }

  Run ice_words() const {
    std::string words = wording::served_on_words(facts_.served_on, recipe_);
    auto ice = facts_.served_on.use.ice;
    return ice.valid() ? index_.link_to(ice, words) : Run(words);
  }

  Run garnish_words(bool beside) const {
    std::vector<Run> runs;
    for (const auto& garnish : wording::garnish_lines(recipe_)) {
      if (garnish.is_side != beside) continue;
      Run run = garnish.stock.valid() ? index_.link_to(garnish.stock, garnish.words) : Run(garnish.words);
      if (garnish.is_unknown) run.plain(" (nothing declares this: its allergens are not known)");
      runs.push_back(std::move(run));
    }
    if (runs.empty() && !beside) return Run("not said");
    return joined(runs, "; ");
  }

  // ---- second: how it is made

  std::vector<Block> making() const {
    std::vector<Block> blocks, build;
    if (drink_.batched) build.push_back(Paragraph{one_pour(), Tone::lead});
    if (!drink_.recipe.amounts.empty() || !facts_.entries.empty()) build.push_back(amounts());
    if (drink_.head.has_amount_errors)
      build.push_back(Paragraph{Run().strong("A line of this build could not be read and is missing here."),
                                Tone::normal});
    add_section(blocks, "build", "Build", std::move(build));
    auto method = method_list(recipe_);
    std::vector<Block> steps;
    if (drink_.batched && drink_.batched->with_water && !method.items.empty())
      steps.push_back(Paragraph{
          Run("From the bottle it is thin enough already. " + wording::mixed_without_bottle), Tone::normal});
    if (!method.items.empty()) steps.push_back(std::move(method));
    add_section(blocks, "method", "Method", std::move(steps));
    add_section(blocks, "right", "Right when", right_when());
    std::vector<Block> notes;
    if (!drink_.head.text.empty()) notes.push_back(Prose{drink_.head.text});
    add_section(blocks, "notes", "Notes", std::move(notes));
    add_notice(blocks, cautions_.notice);
    return blocks;
  }

  Table amounts() const {
    std::string caption =
        facts_.serves > 1 ? fmt::format("Build, for {}", trimmed(facts_.serves, 1)) : "Build";
    auto table = build_table(index_, recipe_, caption, bottle_.stock,
                             scales_of(valid_ ? facts_.mixed.volume_ml * facts_.serves : 0, "l"));
    table.scale_note =
        "Only these amounts change, rounded to what can be measured. A litre is what is poured, before ice "
        "melts into it. The method "
        "stays as written";
    table.scale_note += facts_.serves > 1 ? "." : ", and a shaker holds two.";
    return table;
  }

  /// `One pour from the batch bottle of 700 ml: 125 ml (4 1/8 oz). It holds …`
  Run one_pour() const {
    Run run("One pour from the batch bottle");
    if (drink_.batched->bottle) run.plain(" of " + wording::text_of(*drink_.batched->bottle, index_.units()));
    if (!valid_) return run.plain(": how much is not worked out.");
    double water = bottle_.water_ml * facts_.serves;
    run.plain(": ").append(in_columns(index_, bottle_.pour_ml * facts_.serves, recipe_.show));
    run.plain(". It holds what is marked “in the batch”");
    auto ml = index_.units().find("ml");
    if (water > 0 && ml.valid()) {
      auto measure = wording::measure_in(water, index_.units()[ml]);
      run.plain(", and ").number(measure.number, measure.unit).plain(" of water");
    }
    return run.plain(".");
  }

  std::vector<Block> right_when() const {
    std::vector<Block> blocks;
    if (drink_.right_when.size() == 1)
      blocks.push_back(Paragraph{Run(drink_.right_when.front()), Tone::lead});
    if (drink_.right_when.size() <= 1) return blocks;
    List list;
    for (const auto& words : drink_.right_when) list.items.push_back({Run(words), {}});
    blocks.push_back(std::move(list));
    return blocks;
  }

  // ---- third: what stands in the glass

  std::vector<Block> serving() const {
    std::vector<Block> blocks, picture, figures, substitutes;
    if (valid_ && drink_.glass.valid()) picture.push_back(drink_figure(index_, id_));
    if (!valid_)
      picture.push_back(Paragraph{
          Run(fmt::format("Not drawn: {}.", wording::why_not_worked_out(facts_.is_empty))), Tone::normal});
    add_section(blocks, "picture", "In the glass", std::move(picture));
    figures.push_back(served_facts());
    if (facts_.serves > 1) figures.push_back(Paragraph{whole_words(), Tone::normal});
    add_section(blocks, "served", facts_.serves > 1 ? "As served, each" : "As served", std::move(figures));
    for (const auto& alternative : facts_.alternatives) substitutes.push_back(alternative_facts(alternative));
    add_section(blocks, "stand-ins", "Permitted stand-ins", std::move(substitutes));
    return blocks;
  }

  FactList served_facts() const {
    FactList facts;
    for (const auto* figure : model::on_page(model::drink_figures())) {
      auto value = model::value_of(*figure, facts_);
      bool is_told = !figure->is_told || figure->is_told(facts_);
      if (value && is_told && std::abs(*value) >= figure->page_from)
        add_figure(facts, figure->row, *value, model::tolerance_of(*figure, facts_), valid_);
    }
    if (valid_)
      for (const auto& later : facts_.served_later) add_fact(facts, later_name(later), later_words(later));
    add_alcohol(facts);
    if (valid_) {
      Run energy;
      energy.number(trimmed(facts_.energy_kcal, 0), "kcal")
          .plain(" (")
          .number(trimmed(facts_.energy_kj, 0), "kJ")
          .plain(")");
      add_fact(facts, "Energy", std::move(energy));
    }
    return facts;
  }

  static std::string later_name(const model::ServedLater& later) {
    return fmt::format("After {} min on its ice", trimmed(later.minutes, 0));
  }

  /// Untouched, that is: an estimate.
  static Run later_words(const model::ServedLater& later) {
    Run run("about ");
    run.number(wording::fixed(later.figures.abv_percent, 1), "% abv")
        .plain(", ")
        .number(trimmed(later.figures.volume_ml, 0), "ml")
        .plain(", ")
        .number(trimmed(later.figures.temperature_c, 0), "°C");
    return run;
  }

  void add_alcohol(FactList& facts) const {
    if (!valid_) return;
    Run run;
    run.number(wording::fixed(facts_.ethanol_g, 1), "g");
    auto units = facts_.alcohol_units.find(index_.house().alcohol_unit);
    if (units != facts_.alcohol_units.end())
      run.plain(", ").number(wording::fixed(units->second, 1), unit_name(units->first));
    add_fact(facts, "Alcohol", std::move(run));
  }

  Run whole_words() const {
    if (!valid_) return Run("The whole is not worked out.");
    Run run("The whole, for " + trimmed(facts_.serves, 1) + ": ");
    run.number(trimmed(facts_.served.volume_ml * facts_.serves, 0), "ml").plain(", ");
    run.number(wording::fixed(facts_.ethanol_g * facts_.serves, 0), "g").plain(" of alcohol");
    if (facts_.cost)
      run.plain(", ").plain(
          units::money_text({facts_.cost->amount * model::decimal_of(facts_.serves), facts_.cost->currency}));
    return run.plain(".");
  }

  FactList alternative_facts(const model::Alternative& alternative) const {
    FactList facts;
    Run name = index_.link_to(alternative.substitute);
    name.plain(" for ").append(index_.link_to(alternative.instead_of));
    facts.facts.push_back({"With", {std::move(name)}});
    for (auto property :
         {model::TuneProperty::strength, model::TuneProperty::sugar, model::TuneProperty::acid}) {
      const auto& figure = model::figure_of(property);
      add_figure(facts, figure.row, figure.of_liquid(alternative.served).value_or(0), 0, valid_);
    }
    return facts;
  }

  // ---- last: what is kept of it

  std::vector<Block> keeping() const {
    std::vector<Block> blocks;
    add_section(blocks, "money", "On the menu", money_blocks());
    FactList about = about_facts();
    std::vector<Block> parts;
    if (!about.facts.empty()) parts.push_back(std::move(about));
    add_section(blocks, "about", "About it", std::move(parts));
    add_notice(blocks, making_notice(index_, id_));
    return blocks;
  }

  std::vector<Block> money_blocks() const {
    std::vector<Block> blocks;
    FactList facts;
    std::vector<Run> menus;
    for (const auto& place : index_.places_on_menus(id_)) menus.push_back(menu_words(place));
    if (!menus.empty()) facts.facts.push_back({menus.size() == 1 ? "Menu" : "Menus", std::move(menus)});
    if (!drink_.guest.empty()) facts.facts.push_back({"For the guest", {Run().emphasis(drink_.guest)}});
    add_cost(facts);
    if (!facts.facts.empty()) blocks.push_back(std::move(facts));
    return blocks;
  }

  Run menu_words(const OnMenu& place) const {
    const auto& menu = index_.specs().menus[place.menu];
    const auto& section = menu.sections[place.section];
    const auto& entry = index_.entry(place);
    Run run(menu.head.name);
    if (!section.name.empty()) run.plain(", " + section.name);
    if (!entry.price) return run;
    const auto& printed = *entry.printed_price();
    run.plain(": ").number(units::price_digits(printed), printed.currency);
    if (!entry.sold_by.empty()) run.plain(" " + entry.sold_by);
    auto price =
        model::price_of(entry, analysis::MenuId::at(place.menu), index_.house(), index_.facts().currency);
    if (!facts_.cost || !price || !valid_) return run;
    auto pour_cost = model::pour_cost_percent(facts_.cost->amount, price->without_tax.amount);
    if (!pour_cost) return run;
    auto percent = [](const base::Exact& value) { return wording::fixed(base::to_double(value), 1); };
    return run.plain(fmt::format(" (pour cost {} %, gross profit {} %)", percent(*pour_cost),
                                 percent(model::gross_profit_percent(*pour_cost))));
  }

  void add_cost(FactList& facts) const {
    if (index_.facts().currency.empty()) return;
    Run run;
    if (!valid_) {
      run.plain("not worked out");
    } else if (facts_.cost) {
      run.number(units::money_digits(*facts_.cost), index_.facts().currency);
    } else {
      std::vector<Run> missing;
      for (auto id : facts_.without_price) missing.push_back(index_.link_to(id));
      run.plain("not known");
      if (!missing.empty()) run.plain(": no price for ").append(joined_with_and(missing));
    }
    facts.facts.push_back({facts_.serves > 1 ? "Cost, each" : "Cost", {std::move(run)}});
    if (auto target = model::target_pour_cost_percent(index_.house()))
      facts.facts.push_back(
          {"The house aims at",
           {Run(fmt::format("pour cost up to {} %, gross profit {} % or more", base::to_decimal(*target, 1),
                            base::to_decimal(model::gross_profit_percent(*target), 1)))}});
  }

  FactList about_facts() const {
    FactList facts;
    if (drink_.like.valid()) add_fact(facts, "A variation of", index_.link_to(drink_.like));
    std::vector<Run> variations;
    for (auto id : index_.variations_of(id_)) variations.push_back(index_.link_to(id));
    if (!variations.empty()) facts.facts.push_back({"Variations", {joined(variations, ", ")}});
    if (!drink_.tags.empty()) add_fact(facts, "Tags", Run(base::join(drink_.tags, ", ")));
    if (drink_.alcohol)
      add_fact(facts, "Declared alcohol", Run(wording::text_of(*drink_.alcohol, index_.units())));
    if (!drink_.was.empty()) add_fact(facts, "Was called", Run(drink_.was));
    if (!drink_.authors.empty()) add_fact(facts, "By", Run(base::join_with_and(drink_.authors)));
    if (!drink_.since.empty()) add_fact(facts, "Since", Run(drink_.since));
    if (!drink_.approved_on.empty()) add_fact(facts, "Approved", Run(drink_.approved_on));
    std::vector<Run> tastings;
    for (const auto& tasting : drink_.tastings)
      tastings.push_back(Run(tasting.date + (tasting.words.empty() ? "" : ": " + tasting.words)));
    if (!tastings.empty()) facts.facts.push_back({"Tasted", std::move(tastings)});
    if (!drink_.head.source.empty()) add_fact(facts, "Source", Run(drink_.head.source));
    return facts;
  }

  const BookIndex& index_;
  analysis::DrinkId id_;
  const analysis::Drink& drink_;
  const model::DrinkFacts& facts_;
  bool valid_;
  wording::RecipeContext recipe_;
  Cautions cautions_;
  model::HouseBottle bottle_;
};

}  // namespace

Page drink_page(const BookIndex& index, analysis::DrinkId id) { return DrinkPageBuilder(index, id).build(); }

}  // namespace gill::render::document
