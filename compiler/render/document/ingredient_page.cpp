#include <fmt/format.h>

#include "base/percent.h"
#include "base/text.h"
#include "render/document/pages.h"
#include "render/document/shared_parts.h"
#include "render/document/stock_parts.h"
#include "render/wording/measures.h"
#include "render/wording/numbers.h"
#include "units/money.h"

namespace gill::render::document {

namespace {

class IngredientPageBuilder {
 public:
  IngredientPageBuilder(const BookIndex& index, analysis::StockId id)
      : index_(index), id_(id), stock_(index.specs()[id]), facts_(index.facts()[id]), valid_(facts_.valid) {}

  Page build() {
    Page page;
    page.path = index_.path_of(id_);
    page.title = stock_.head.name;
    page.kind = "ingredient";
    std::vector<Run> parts = {Run("Ingredient")};
    if (stock_.kind != analysis::StockKind::unstated)
      parts.push_back(Run(std::string(analysis::name_of(stock_.kind))));
    if (stock_.head.from_library) parts.push_back(Run("from the standard library"));
    page.subtitle = joined(parts, " · ");
    auto& blocks = page.blocks;
    blocks.push_back(Group{"notices", stock_notices(index_, id_, valid_)});
    blocks.push_back(Group{"making", first_group()});
    blocks.push_back(Group{"serving", second_group()});
    return page;
  }

 private:
  std::vector<Block> first_group() const {
    std::vector<Block> blocks, notes, figures;
    auto cautions = cautions_of(index_, id_);
    if (!cautions.notice.blocks.empty()) blocks.push_back(std::move(cautions.notice));
    if (!stock_.head.text.empty()) notes.push_back(Prose{stock_.head.text});
    add_section(blocks, "notes", "Notes", std::move(notes));
    add_section(blocks, "used", "Used in", used_in(index_, id_));
    auto facts = composition_facts(index_, id_, valid_);
    add_pieces(facts);
    if (!facts.facts.empty()) figures.push_back(std::move(facts));
    add_section(blocks, "served", "What is in it", std::move(figures));
    return blocks;
  }

  void add_pieces(FactList& facts) const {
    for (const auto& [item, quantity] : stock_.each) {
      std::string term = item.valid() ? "One " + index_.units()[item].symbol : std::string("One");
      add_fact(facts, term, Run(wording::text_of(quantity, index_.units())));
    }
    std::vector<Run> gives;
    for (const auto& given : stock_.gives)
      gives.push_back(Run(wording::text_of(given.quantity, index_.units()) + " ")
                          .append(index_.link_to(given.what.stock)));
    if (!gives.empty()) facts.facts.push_back({"One gives", {joined_with_and(gives)}});
    if (stock_.waste)
      add_fact(facts, "Waste", Run(wording::trimmed(base::percent_of_share(*stock_.waste), 1) + " %"));
    if (!stock_.treated.empty()) add_fact(facts, "Treated", Run(stock_.treated));
  }

  std::vector<Block> second_group() const {
    std::vector<Block> blocks, keeping, buying, about;
    FactList kept;
    if (stock_.keeps) add_fact(kept, "Unopened", keeping_words(*stock_.keeps, index_.units()));
    if (stock_.opened) add_fact(kept, "Once opened", keeping_words(*stock_.opened, index_.units()));
    if (!kept.facts.empty()) keeping.push_back(std::move(kept));
    add_section(blocks, "keeping", "Keeping", std::move(keeping));
    FactList bought = buying_facts();
    if (!bought.facts.empty()) buying.push_back(std::move(bought));
    add_section(blocks, "buying", "Buying", std::move(buying));
    FactList facts;
    if (!stock_.aka.empty()) add_fact(facts, "Also called", Run(base::join(stock_.aka, ", ")));
    if (!stock_.head.source.empty()) add_fact(facts, "Source of the figures", Run(stock_.head.source));
    if (!facts.facts.empty()) about.push_back(std::move(facts));
    add_section(blocks, "about", "About it", std::move(about));
    return blocks;
  }

  Run buy_words(const analysis::Buy& buy) const {
    std::string pack = wording::text_of(buy.pack, index_.units());
    if (buy.packs != 1) pack = wording::trimmed(buy.packs, 1) + " × " + pack;
    Run run(pack + " for ");
    run.number(units::price_digits(buy.price), buy.price.currency);
    if (!buy.supplier.empty()) run.plain(", from " + buy.supplier);
    if (!buy.code.empty()) run.plain(", code " + buy.code);
    return run;
  }

  FactList buying_facts() const {
    FactList facts;
    std::vector<Run> offers;
    for (const auto& buy : stock_.buys) offers.push_back(buy_words(buy));
    if (!offers.empty()) facts.facts.push_back({"Bought as", std::move(offers)});
    for (const auto& list : index_.specs().price_lists)
      for (const auto& price : list.prices)
        if (price.use.stock == id_) add_fact(facts, "Prices, " + list.head.name, buy_words(price.buy));
    add_fact(facts, "Cost", cost_words(index_, id_, valid_));
    return facts;
  }

  const BookIndex& index_;
  analysis::StockId id_;
  const analysis::Stock& stock_;
  const model::StockFacts& facts_;
  bool valid_;
};

}  // namespace

Page ingredient_page(const BookIndex& index, analysis::StockId id) {
  return IngredientPageBuilder(index, id).build();
}

}  // namespace gill::render::document
