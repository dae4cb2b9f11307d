#include "editor/rewrites.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "render/wording/measures.h"

namespace gill::editor {

using analysis::Amount;
using diagnostics::Edit;
using ActionKind = Action::Kind;

namespace {

class RewriteFinder {
 public:
  RewriteFinder(const HouseView& view, const syntax::File& file, std::uint32_t begin, std::uint32_t end,
                std::vector<Action>& actions)
      : view_(view),
        file_(file),
        begin_(begin),
        end_(end),
        actions_(actions),
        holder_(view.holder(file, begin)) {}

  void find() {
    if (!holder_ || !holder_->id.valid()) return;
    if (auto drink = view_.drink(holder_->id)) {
      recipe_ = &view_.specs()[*drink].recipe;
      show_ = &view_.specs().house.show_drinks;
      if (on_header()) add_scaled(view_.specs()[*drink]);
    } else if (auto stock = view_.stock(holder_->id)) {
      recipe_ = &view_.specs()[*stock].recipe;
      show_ = &view_.specs().house.show_preps;
    }
    if (!recipe_) return;
    add_conversions();
    add_extraction();
  }

 private:
  bool on_header() const {
    const auto& header = file_.lines[file_.declarations[holder_->declaration_index].header];
    return begin_ <= header.end;
  }

  /// A measured amount of a line of its own, written here as one number and one unit.
  bool is_written_here(const analysis::RecipeLine& line) const {
    if (!line.is_amount || line.inherited) return false;
    const auto& amount = recipe_->amounts[line.index];
    auto span = amount.quantity.span;
    return amount.form == Amount::Form::measured && span.file_id == file_.file_id &&
           !amount.quantity.is_range && !amount.second && view_.house().sources.written(span) == span;
  }

  void add_conversions() {
    const auto& units = view_.house().units;
    for (const auto& line : recipe_->order) {
      if (!is_written_here(line)) continue;
      const auto& amount = recipe_->amounts[line.index];
      if (amount.span.begin > end_ || amount.span.end < begin_) continue;
      for (auto id : *show_) {
        const auto& unit = units[id];
        if (unit.kind != amount.quantity.kind || id == amount.quantity.unit) continue;
        auto measure = render::wording::measure_converted(amount.quantity, unit);
        auto words = render::wording::text_of(measure);
        actions_.push_back(
            {ActionKind::rewrite,
             fmt::format("Write `{}` as `{}`", view_.house().sources.text(amount.quantity.span), words),
             {{amount.quantity.span, words}}});
      }
    }
  }

  /// Every amount times a whole number, where all are plain measures: parts and totals grow by themselves or
  /// not at all.
  void add_scaled(const analysis::Drink& drink) {
    if (drink.serves != 1) return;
    std::vector<const Amount*> amounts;
    for (const auto& line : recipe_->order) {
      if (!line.is_amount) continue;
      if (!is_written_here(line) || recipe_->amounts[line.index].quantity.kind == units::Kind::part) return;
      amounts.push_back(&recipe_->amounts[line.index]);
    }
    if (amounts.empty()) return;
    for (int times : {2, 10}) {
      Action action{ActionKind::rewrite, fmt::format("Pour {} times as much of everything", times), {}};
      for (const auto* amount : amounts)
        action.edits.push_back(
            {amount->quantity.span, render::wording::text_of(render::wording::measure_times(
                                        amount->quantity, times, view_.house().units))});
      actions_.push_back(std::move(action));
    }
  }

  /// Neighbouring lines that are weighed become a prep of so many grams: masses add up exactly, volumes do
  /// not.
  void add_extraction() {
    std::vector<const Amount*> chosen;
    for (const auto& line : recipe_->order) {
      bool is_chosen = line.is_amount && recipe_->amounts[line.index].span.file_id == file_.file_id &&
                       recipe_->amounts[line.index].span.begin < end_ &&
                       recipe_->amounts[line.index].span.end > begin_;
      if (!is_chosen) {
        if (!chosen.empty() && chosen.size() < 2) return;
        if (!chosen.empty()) break;
        continue;
      }
      const auto& amount = recipe_->amounts[line.index];
      if (!is_written_here(line) || amount.quantity.kind != units::Kind::mass || amount.optional) return;
      chosen.push_back(&amount);
    }
    if (chosen.size() >= 2) extract(chosen);
  }

  void extract(const std::vector<const Amount*>& chosen) {
    base::Exact grams = 0;
    std::string prep = fmt::format("prep {} mix\n", view_.house().names[holder_->id].name);
    for (const auto* amount : chosen) {
      grams = grams + amount->quantity.value;
      prep += fmt::format("  {}\n", view_.house().sources.text(whole_line(*amount)));
    }
    auto at = view_.extent(file_, holder_->declaration_index).begin;
    Span lines{file_.file_id, chosen.front()->span.begin, whole_line(*chosen.back()).end};
    std::string poured =
        fmt::format("{} g  {} mix", base::to_decimal(grams, 3), view_.house().names[holder_->id].name);
    actions_.push_back({ActionKind::extract,
                        fmt::format("Make a prep of these {} lines", chosen.size()),
                        {{{file_.file_id, at, at}, prep + "\n"}, {lines, poured}}});
  }

  /// From the amount to the end of its line, without the comment there.
  Span whole_line(const Amount& amount) const {
    const auto& line = file_.lines[line_at(view_.text(file_), amount.span.begin)];
    return {file_.file_id, amount.span.begin,
            std::max(amount.span.end, file_.tokens[line.first_token + line.token_count - 1].end)};
  }

  const HouseView& view_;
  const syntax::File& file_;
  std::uint32_t begin_, end_;
  std::vector<Action>& actions_;
  std::optional<Holder> holder_;
  const analysis::Recipe* recipe_ = nullptr;
  const std::vector<units::UnitId>* show_ = nullptr;
};

}  // namespace

void add_rewrites(const HouseView& view, const syntax::File& file, std::uint32_t begin, std::uint32_t end,
                  std::vector<Action>& actions) {
  RewriteFinder(view, file, begin, end, actions).find();
}

}  // namespace gill::editor
