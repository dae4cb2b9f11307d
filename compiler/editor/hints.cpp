#include "editor/hints.h"

#include <algorithm>

#include "base/text.h"
#include "editor/words.h"
#include "render/wording/measures.h"

namespace gill::editor {
namespace {

class HintFinder {
 public:
  HintFinder(const HouseView& view, const syntax::File& file) : view_(view), file_(file) {}

  std::vector<Hint> find() {
    for (std::size_t i = 0; i < file_.declarations.size(); ++i) {
      auto id = view_.declared(view_.index_of(file_), i);
      if (auto drink = view_.drink(id)) add_drink(*drink);
      if (auto stock = view_.stock(id); stock && view_.specs()[*stock].is_prep) add_prep(*stock);
    }
    std::stable_sort(hints_.begin(), hints_.end(),
                     [](const Hint& a, const Hint& b) { return a.offset < b.offset; });
    return std::move(hints_);
  }

 private:
  void add_drink(analysis::DrinkId id) {
    const auto& facts = view_.house().facts[id];
    const auto& recipe = view_.specs()[id].recipe;
    add_columns(recipe, view_.specs().house.show_drinks);
    // A bowl's lines are for all who share it, and what is worked out is for one.
    if (facts.valid && facts.serves == 1) add_running(recipe, facts.trace);
  }

  void add_prep(analysis::StockId id) {
    const auto& facts = view_.house().facts[id];
    const auto& prep = view_.specs()[id];
    add_columns(prep.recipe, view_.specs().house.show_preps);
    if (!facts.valid) return;
    add_running(prep.recipe, facts.trace);
    auto words = figures_in_brief(view_, id);
    if (!words.empty()) hints_.push_back({prep.head.name_span.end, words});
  }

  /// The place in this file that was written for a stretch; nothing for what another file or `like` brought.
  std::optional<Span> here(const Span& span) const {
    auto written = view_.house().sources.written(span);
    if (!(written.file_id == file_.file_id)) return std::nullopt;
    return written;
  }

  void add_columns(const analysis::Recipe& recipe, const std::vector<units::UnitId>& show) {
    const auto& units = view_.house().units;
    for (const auto& line : recipe.order) {
      if (!line.is_amount || line.inherited) continue;
      const auto& amount = recipe.amounts[line.index];
      auto place = here(amount.quantity.span);
      if (!place || amount.form != analysis::Amount::Form::measured || amount.second) continue;
      std::vector<std::string> others;
      for (auto id : show)
        if (units[id].kind == amount.quantity.kind && id != amount.quantity.unit &&
            !amount.quantity.is_range &&
            !(amount.quantity.unit.valid() && render::wording::is_loose(units[amount.quantity.unit])))
          others.push_back(
              render::wording::text_of(render::wording::measure_converted(amount.quantity, units[id])));
      if (!others.empty()) hints_.push_back({place->end, "= " + base::join(others, " = ")});
    }
  }

  void add_running(const analysis::Recipe& recipe, const std::vector<model::TraceStep>& trace) {
    std::string last;
    for (const auto& step : trace) {
      auto words = liquid_in_brief(step.after.masses);
      if (words.empty() || words == last) continue;
      last = words;
      auto inherited = std::any_of(recipe.order.begin(), recipe.order.end(), [&](const auto& line) {
        return line.inherited && line.is_amount == step.is_amount && line.index == step.index;
      });
      const auto& span = step.is_amount ? recipe.amounts[step.index].span : recipe.steps[step.index].span;
      if (auto place = here(span); place && !inherited) hints_.push_back({end_of_line(place->end), words});
    }
  }

  /// Behind the words of a line, before the comment that ends it.
  std::uint32_t end_of_line(std::uint32_t offset) const {
    const auto& line = file_.lines[line_at(view_.text(file_), offset)];
    if (line.token_count == 0) return line.end;
    return std::max(offset, file_.tokens[line.first_token + line.token_count - 1].end);
  }

  const HouseView& view_;
  const syntax::File& file_;
  std::vector<Hint> hints_;
};

}  // namespace

std::vector<Hint> hints(const HouseView& view, const syntax::File& file, std::uint32_t begin,
                        std::uint32_t end) {
  auto all = HintFinder(view, file).find();
  std::erase_if(all, [&](const Hint& hint) { return hint.offset < begin || hint.offset > end; });
  return all;
}

}  // namespace gill::editor
