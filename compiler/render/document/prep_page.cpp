#include <fmt/format.h>

#include "base/text.h"
#include "render/document/pages.h"
#include "render/document/shared_parts.h"
#include "render/document/stock_parts.h"
#include "render/wording/measures.h"
#include "render/wording/numbers.h"

namespace gill::render::document {

namespace {

class PrepPageBuilder {
 public:
  PrepPageBuilder(const BookIndex& index, analysis::StockId id)
      : index_(index),
        id_(id),
        prep_(index.specs()[id]),
        facts_(index.facts()[id]),
        valid_(facts_.valid),
        recipe_(wording::recipe_of(prep_, facts_, index.specs(), index.units())),
        cautions_(cautions_of(index, id)) {}

  Page build() {
    Page page;
    page.path = index_.path_of(id_);
    page.title = prep_.head.name;
    page.kind = "prep";
    page.subtitle = subtitle();
    auto& blocks = page.blocks;
    blocks.push_back(at_a_glance());
    blocks.push_back(Group{"notices", stock_notices(index_, id_, valid_)});
    blocks.push_back(Group{"making", making()});
    blocks.push_back(Group{"serving", serving()});
    return page;
  }

 private:
  Run subtitle() const {
    std::vector<Run> parts = {Run("Prep")};
    if (prep_.kind != analysis::StockKind::unstated)
      parts.push_back(Run(std::string(analysis::name_of(prep_.kind))));
    if (!prep_.station.empty()) parts.push_back(Run(prep_.station));
    if (prep_.head.from_library) parts.push_back(Run("from the standard library"));
    return joined(parts, " · ");
  }

  FactList at_a_glance() const {
    FactList facts;
    facts.tone = Tone::lead;
    facts.facts.push_back({"Makes", {yield_words()}});
    facts.facts.push_back({"Keeps", {keeps_words()}});
    if (prep_.takes) add_fact(facts, "Hands on", Run(wording::text_of(*prep_.takes, index_.units())));
    if (prep_.bottle) add_fact(facts, "Bottle", Run(wording::text_of(*prep_.bottle, index_.units())));
    if (prep_.par) add_fact(facts, "Par", Run(wording::text_of(*prep_.par, index_.units())));
    if (prep_.largest_batch)
      add_fact(facts, "Batch", Run(wording::text_of(*prep_.largest_batch, index_.units())));
    if (!cautions_.in_brief.empty()) facts.facts.push_back({"Take care", {Run().strong(cautions_.in_brief)}});
    return facts;
  }

  Run yield_words() const {
    if (prep_.makes) return Run(wording::text_of(*prep_.makes, index_.units()));
    if (!valid_) return Run("not worked out");
    Run run("about ");
    auto unit = index_.units().find(prep_.effective_form() == analysis::Form::liquid ? "ml" : "g");
    if (!unit.valid()) return run.plain(wording::trimmed(facts_.yield_ml, 0) + " ml");
    double amount = prep_.effective_form() == analysis::Form::liquid ? facts_.yield_ml : facts_.yield_g;
    auto measure = wording::measure_in(amount, index_.units()[unit]);
    return run.number(measure.number, measure.unit);
  }

  Run keeps_words() const {
    if (prep_.keeps) return keeping_words(*prep_.keeps, index_.units());
    if (!facts_.keeps_days) return Run("not said");
    Run run(fmt::format("{} days by its shortest part", wording::trimmed(*facts_.keeps_days, 1)));
    if (facts_.storage) run.plain(", " + std::string(analysis::name_of(*facts_.storage)));
    return run;
  }

  std::vector<Block> making() const {
    std::vector<Block> blocks, build, steps, notes;
    if (!prep_.recipe.amounts.empty()) build.push_back(amounts());
    if (prep_.head.has_amount_errors)
      build.push_back(Paragraph{Run().strong("A line of this prep could not be read and is missing here."),
                                Tone::normal});
    add_section(blocks, "build", "Ingredients", std::move(build));
    auto method = method_list(recipe_);
    if (!method.items.empty()) steps.push_back(std::move(method));
    add_section(blocks, "method", "Method", std::move(steps));
    if (!prep_.head.text.empty()) notes.push_back(Prose{prep_.head.text});
    add_section(blocks, "notes", "Notes", std::move(notes));
    if (!cautions_.notice.blocks.empty()) blocks.push_back(cautions_.notice);
    return blocks;
  }

  Table amounts() const {
    bool liquid = prep_.effective_form() == analysis::Form::liquid;
    auto table = build_table(index_, recipe_, "Ingredients", {},
                             scales_of(!valid_  ? 0
                                       : liquid ? facts_.yield_ml
                                                : facts_.yield_g,
                                       liquid ? "l" : "kg"));
    table.scale_note =
        "Only these amounts change, rounded to what can be measured. The method stays as written: a larger "
        "batch heats, cools "
        "and strains more slowly.";
    return table;
  }

  std::vector<Block> serving() const {
    std::vector<Block> blocks, figures, about;
    auto facts = composition_facts(index_, id_, valid_);
    if (valid_ && facts_.loss_percent > 0.05)
      add_figure(facts, model::stock_figure("loss_percent").row, facts_.loss_percent, 0, true);
    add_fact(facts, "Cost", cost_words(index_, id_, valid_));
    if (!facts.facts.empty()) figures.push_back(std::move(facts));
    add_section(blocks, "served", "As made", std::move(figures));
    add_section(blocks, "used", "Used in", used_in(index_, id_));
    FactList kept;
    if (!prep_.aka.empty()) add_fact(kept, "Also called", Run(base::join(prep_.aka, ", ")));
    if (!prep_.head.source.empty()) add_fact(kept, "Source", Run(prep_.head.source));
    if (!kept.facts.empty()) about.push_back(std::move(kept));
    add_section(blocks, "about", "About it", std::move(about));
    return blocks;
  }

  const BookIndex& index_;
  analysis::StockId id_;
  const analysis::Stock& prep_;
  const model::StockFacts& facts_;
  bool valid_;
  wording::RecipeContext recipe_;
  Cautions cautions_;
};

}  // namespace

Page prep_page(const BookIndex& index, analysis::StockId id) { return PrepPageBuilder(index, id).build(); }

}  // namespace gill::render::document
