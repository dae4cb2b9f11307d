#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "render/document/page_names.h"
#include "render/document/pages.h"
#include "render/document/shared_parts.h"
#include "render/document/stock_parts.h"
#include "render/wording/allergen_words.h"
#include "render/wording/measures.h"
#include "render/wording/method_lines.h"
#include "render/wording/numbers.h"

namespace gill::render::document {

namespace {

using analysis::StockId;
using analysis::Verb;

bool heats(Verb verb) { return verb == Verb::heat || verb == Verb::simmer; }
bool cools(Verb verb) { return verb == Verb::cool || verb == Verb::chill || verb == Verb::freeze; }

/// What a code may want a plan, a record or a permit for. Common practice, no source; the local code has its
/// own list.
bool is_special(Verb verb) {
  return verb == Verb::ferment || verb == Verb::dehydrate || verb == Verb::smoke || verb == Verb::infuse ||
         verb == Verb::steep || verb == Verb::macerate || verb == Verb::clarify || verb == Verb::remove ||
         verb == Verb::carbonate || verb == Verb::charge || verb == Verb::bottle;
}

std::string without_stop(std::string sentence) {
  if (sentence.ends_with('.')) sentence.pop_back();
  return sentence;
}

class InspectionPageBuilder {
 public:
  explicit InspectionPageBuilder(const BookIndex& index) : index_(index) {}

  Page build() {
    Page page;
    page.path = "inspection";
    page.title = "Inspection sheet";
    page.kind = "inspection";
    page.subtitle = Run("Every prep: how it is kept, heated, cooled and processed, and what to take care of");
    page.blocks.push_back(
        Paragraph{Run(wording::local_code_line + " " + wording::evaluated_line), Tone::normal});
    for (auto id : index_.preps()) page.blocks.push_back(prep(id));
    if (index_.preps().empty())
      page.blocks.push_back(Paragraph{Run("The house declares no prep and uses none."), Tone::normal});
    return page;
  }

 private:
  Block prep(StockId id) {
    const auto& prep = index_.specs()[id];
    const auto& facts = index_.facts()[id];
    bool valid = facts.valid;
    auto lines = wording::method_lines(wording::recipe_of(prep, facts, index_.specs(), index_.units()));
    FactList list;
    if (!prep.station.empty()) add_fact(list, "Station", Run(prep.station));
    list.facts.push_back({"Storage", {storage(prep, facts)}});
    list.facts.push_back({"Keeps", {keeps(prep, facts)}});
    list.facts.push_back(
        {"pH", {prep.ph ? Run("measured, " + wording::trimmed(*prep.ph, 2)) : Run("not measured")}});
    add_figure(list, model::stock_figure("abv_percent").row, facts.abv_percent, 0, valid);
    list.facts.push_back({"Heating and cooling", heating(lines)});
    list.facts.push_back({"Processes", processes(prep, lines)});
    list.facts.push_back({"Allergens", {allergens_in_brief(facts.allergens, facts.allergens.known)}});
    std::vector<Block> blocks;
    if (!valid)
      blocks.push_back(Paragraph{Run().strong("This spec has an error; what stands here may be incomplete."),
                                 Tone::normal});
    blocks.push_back(std::move(list));
    auto cautions = cautions_of(index_, id).notice;
    if (!cautions.blocks.empty())
      blocks.push_back(Notice{Notice::Role::caution, "Take care", {std::move(cautions.blocks.front())}});
    return Section{names_.take(prep.head.name), index_.link_to(id), std::move(blocks)};
  }

  static Run storage(const analysis::Stock& prep, const model::StockFacts& facts) {
    if (prep.keeps) return Run(std::string(analysis::name_of(prep.keeps->storage)));
    if (facts.storage) return Run(std::string(analysis::name_of(*facts.storage)) + ", by its parts");
    return Run().strong("not said");
  }

  Run keeps(const analysis::Stock& prep, const model::StockFacts& facts) const {
    if (prep.keeps) return Run(wording::text_of(prep.keeps->duration, index_.units()));
    if (facts.keeps_days)
      return Run(fmt::format("{} days, by its shortest part", wording::trimmed(*facts.keeps_days, 1)));
    return Run().strong("not said");
  }

  static std::vector<Run> heating(const std::vector<wording::MethodLine>& lines) {
    std::vector<Run> runs;
    bool is_hot = false;
    for (const auto& line : lines) {
      if (!line.verb || !(heats(*line.verb) || cools(*line.verb))) continue;
      is_hot = heats(*line.verb);
      runs.push_back(Run(without_stop(line.sentence)));
    }
    if (runs.empty()) runs.push_back(Run("no step heats it or cools it"));
    if (is_hot) runs.push_back(Run().strong("No cooling step is written"));
    return runs;
  }

  std::vector<Run> processes(const analysis::Stock& prep,
                             const std::vector<wording::MethodLine>& lines) const {
    std::vector<Run> runs;
    for (const auto& line : lines)
      if (line.verb && is_special(*line.verb)) runs.push_back(Run(without_stop(line.sentence)));
    std::vector<std::string> acids;
    bool is_sealed = false;
    for (const auto& amount : prep.recipe.amounts) {
      is_sealed |= amount.sealed;
      for (const auto& portion : amount.portions)
        if (index_.specs()[portion.use.stock].kind == analysis::StockKind::acid)
          acids.push_back(index_.specs()[portion.use.stock].head.name);
    }
    if (!acids.empty()) runs.push_back(Run("Acid is added: " + base::join_with_and(acids)));
    if (is_sealed) runs.push_back(Run("Sealed"));
    if (runs.empty()) runs.push_back(Run("none written"));
    return runs;
  }

  const BookIndex& index_;
  PageNames names_;
};

}  // namespace

Page inspection_page(const BookIndex& index) { return InspectionPageBuilder(index).build(); }

}  // namespace gill::render::document
