#include "analysis/recipe_builder.h"

#include <fmt/format.h>

#include "analysis/groups.h"
#include "base/text.h"

namespace gill::analysis {

using diagnostics::Rule;

namespace {

/// More lines than any card holds; a chain of variations that grows past it is refused.
constexpr std::size_t max_recipe_lines = 1000;

bool moves_to_glass(const Step& step) {
  return step.verb == Verb::dump || step.verb == Verb::build || (strains(step.verb) && !step.to_tin);
}

/// Drops the amounts and steps that no line points to any more, so that long chains of variations do not pile
/// them up.
void drop_unused(Recipe& recipe) {
  Recipe kept;
  for (auto line : recipe.order) {
    if (line.is_amount) {
      kept.amounts.push_back(std::move(recipe.amounts[line.index]));
      line.index = static_cast<std::uint32_t>(kept.amounts.size() - 1);
    } else {
      kept.steps.push_back(std::move(recipe.steps[line.index]));
      line.index = static_cast<std::uint32_t>(kept.steps.size() - 1);
    }
    kept.order.push_back(line);
  }
  recipe = std::move(kept);
}

bool is_finish(Verb verb) { return verb == Verb::garnish || verb == Verb::side || verb == Verb::serve; }

}  // namespace

RecipeBuilder::RecipeBuilder(Recipe& recipe, Head& head, bool is_variation, bool in_prep)
    : recipe_(recipe), head_(head), is_variation_(is_variation), in_prep_(in_prep) {
  drop_unused(recipe_);
  for (auto& line : recipe_.order) line.inherited = true;
}

bool RecipeBuilder::read_line(LineReader& reader, const std::string& text) {
  const auto& line = reader.line();
  if (begins_amount(line)) {
    auto amount = read_amount(reader);
    if (amount && !reader.is_wrong()) {
      amount->text = text;
      add_amount(reader, std::move(*amount));
    }
    head_.has_amount_errors |= reader.is_wrong();
    return true;
  }
  if (read_variation_line(reader)) {
    head_.has_amount_errors |= reader.is_wrong();
    return true;
  }
  auto verb = match_verb(line, 0);
  if (!verb) return false;
  auto step = read_step(reader, *verb, in_prep_);
  // A rinse, top or float adds to the drink: without it the figures are not the drink's.
  if (info(verb->verb).takes_amount && (!step || reader.is_wrong())) head_.has_amount_errors = true;
  if (step) {
    step->text = text;
    add_step(reader, std::move(*step));
  }
  return true;
}

/// `swap A -> B`, `without A`, `method anew`; false when the line is none of them.
bool RecipeBuilder::read_variation_line(LineReader& reader) {
  const auto& line = reader.line();
  bool swap = line.is_word(0, "swap"), without = line.is_word(0, "without");
  bool anew = line.is_word(0, "method") && line.is_word(1, "anew");
  if (!swap && !without && !anew) return false;
  if (!is_variation_)
    return !reader.fail(
        Rule::bad_line, line.whole(),
        fmt::format("`{}` changes what `like` brings, and this {} is like no other", line.text(0),
                    in_prep_ ? "prep" : "drink"),
        fmt::format("Only a {} that is `like` another has such a line. Here the amounts stand themselves.",
                    in_prep_ ? "prep" : "drink"));
  reader.move_to(anew ? 2 : 1);
  if (!reader.done() && line.kind(reader.at()) == syntax::TokenKind::colon)
    report_colon(reader);
  else if (swap)
    read_swap(reader);
  else if (without)
    read_without(reader);
  else if (reader.expect_end("method anew"))
    drop_method();
  return true;
}

std::size_t RecipeBuilder::find_inherited(const Use& use, std::size_t& count) const {
  std::size_t found = recipe_.order.size();
  count = 0;
  for (std::size_t i = 0; i < recipe_.order.size(); ++i) {
    const auto& line = recipe_.order[i];
    if (!line.inherited) continue;
    bool holds_it = line.is_amount ? recipe_.amounts[line.index].use() == use
                                   : pours(recipe_.steps[line.index].verb) && recipe_.steps[line.index].use &&
                                         *recipe_.steps[line.index].use == use;
    if (holds_it && count++ == 0) found = i;
  }
  return found;
}

std::size_t RecipeBuilder::after_last_mixing_amount() const {
  std::size_t position = 0;
  bool found = false;
  for (std::size_t i = 0; i < recipe_.order.size(); ++i) {
    const auto& line = recipe_.order[i];
    if (line.is_amount) {
      position = i + 1;
      found = true;
    } else if (moves_to_glass(recipe_.steps[line.index]) && found) {
      break;
    }
  }
  return position;
}

std::size_t RecipeBuilder::before_garnish() const {
  for (std::size_t i = 0; i < recipe_.order.size(); ++i)
    if (!recipe_.order[i].is_amount && is_finish(recipe_.steps[recipe_.order[i].index].verb)) return i;
  return recipe_.order.size();
}

void RecipeBuilder::insert(std::size_t position, RecipeLine line) {
  recipe_.order.insert(recipe_.order.begin() + static_cast<std::ptrdiff_t>(position), line);
  if (after_own_step_ && position < *after_own_step_) ++*after_own_step_;
}

void RecipeBuilder::add_amount(LineReader& reader, Amount amount) {
  if (is_full(reader)) return;
  if (is_variation_ && amount.portions.size() == 1) {
    std::size_t count = 0;
    std::size_t found = find_inherited(amount.use(), count);
    if (count > 1) {
      reader.fail(Rule::bad_line, amount.use().span,
                  "this stands twice in the other, so it is not clear which is meant",
                  "Name it with `swap A -> B` or take it out with `without` first.");
      return;
    }
    if (count == 1) return change_in_place(reader, recipe_.order[found], std::move(amount));
  }
  auto index = static_cast<std::uint32_t>(recipe_.amounts.size());
  recipe_.amounts.push_back(std::move(amount));
  std::size_t position = !is_variation_    ? recipe_.order.size()
                         : after_own_step_ ? *after_own_step_
                                           : after_last_mixing_amount();
  insert(position, {true, index, false});
  if (after_own_step_) *after_own_step_ = position + 1;
}

/// Where it is poured stays: what was floated is floated still.
void RecipeBuilder::change_in_place(const LineReader& reader, RecipeLine& line, Amount amount) {
  line.inherited = false;
  if (line.is_amount) {
    recipe_.amounts[line.index] = std::move(amount);
    return;
  }
  Step& step = recipe_.steps[line.index];
  step.amount = amount.quantity;
  step.span = step.verb_span = reader.line().whole();
  step.as_written =
      fmt::format("{} {} {}", info(step.verb).name, amount.as_written, reader.written(amount.use().span));
}

bool RecipeBuilder::is_full(LineReader& reader) {
  if (recipe_.order.size() < max_recipe_lines) return false;
  // What is lost may have held an allergen: nothing of the recipe can be vouched for.
  head_.has_errors = head_.has_amount_errors = true;
  if (!said_that_it_is_full_)
    reader.fail(Rule::bad_line, reader.line().whole(),
                fmt::format("a recipe holds at most {} lines; this one and those after it are not read",
                            max_recipe_lines),
                "Make a prep of some of it.");
  said_that_it_is_full_ = true;
  return true;
}

void RecipeBuilder::add_step(LineReader& reader, Step step) {
  if (is_full(reader)) return;
  if (is_variation_) {
    bool is_garnish = step.verb == Verb::garnish;
    if (is_garnish && !own_garnish_) {
      // All garnish lines of the other give way together.
      own_garnish_ = true;
      for (std::size_t i = recipe_.order.size(); i-- > 0;) {
        const auto& line = recipe_.order[i];
        if (!line.is_amount && line.inherited && recipe_.steps[line.index].verb == Verb::garnish)
          erase_line(i);
      }
    }
    if (!is_garnish)
      for (std::size_t i = 0; i < recipe_.order.size(); ++i) {
        auto& line = recipe_.order[i];
        if (line.is_amount || !line.inherited || recipe_.steps[line.index].verb != step.verb) continue;
        recipe_.steps[line.index] = std::move(step);
        line.inherited = false;
        after_own_step_ = i + 1;
        return;
      }
  }
  auto index = static_cast<std::uint32_t>(recipe_.steps.size());
  bool finish = is_finish(step.verb);
  recipe_.steps.push_back(std::move(step));
  std::size_t position = is_variation_ && !finish ? before_garnish() : recipe_.order.size();
  insert(position, {false, index, false});
  if (is_variation_ && !finish) after_own_step_ = position + 1;
}

void RecipeBuilder::erase_line(std::size_t position) {
  recipe_.order.erase(recipe_.order.begin() + static_cast<std::ptrdiff_t>(position));
  if (after_own_step_ && position < *after_own_step_) --*after_own_step_;
}

void RecipeBuilder::drop_method() {
  std::erase_if(recipe_.order, [](const RecipeLine& line) { return !line.is_amount && line.inherited; });
  after_own_step_ = recipe_.order.size();
}

void RecipeBuilder::read_swap(LineReader& reader) {
  const auto& line = reader.line();
  std::size_t arrow = reader.at();
  while (arrow < line.size() && line.kind(arrow) != syntax::TokenKind::arrow) ++arrow;
  if (arrow == line.size() || arrow == reader.at() || arrow + 1 == line.size()) {
    reader.fail(Rule::bad_line, line.whole(), "`swap` puts one ingredient in place of another",
                "Write `swap rye whiskey -> aged rum`, or `swap honey syrup -> 10 ml maple syrup`.");
    return;
  }
  auto from = read_use(reader, arrow);
  if (reader.failed()) return;
  reader.move_to(arrow + 1);
  std::optional<Quantity> quantity;
  std::string as_written;
  Use to;
  if (reader.at_quantity()) {
    std::size_t first = reader.at();
    auto measured = read_measured(reader, UnknownName::report);
    if (!measured) return;
    quantity = measured->quantity;
    to = measured->use;
    auto span = line.span(first, line.size());
    span.end = to.span.begin;
    as_written = reader.written(span);
  } else {
    auto use = read_use(reader, reader.comma_or_end());
    if (!use) return;
    to = *use;
  }
  if (!reader.expect_end("swap A -> B") || !from) return;
  bool found = false;
  for (auto& entry : recipe_.order) {
    if (entry.is_amount) {
      Amount& amount = recipe_.amounts[entry.index];
      for (auto& portion : amount.portions) {
        if (!entry.inherited || !(portion.use == *from)) continue;
        portion.use = to;
        if (quantity) {
          amount.quantity = *quantity;
          amount.second.reset();
          amount.as_written = as_written;
        }
        amount.span = line.whole();
        found = true;
      }
    } else if (entry.inherited && recipe_.steps[entry.index].use &&
               *recipe_.steps[entry.index].use == *from) {
      Step& step = recipe_.steps[entry.index];
      step.use = to;
      if (quantity) step.amount = *quantity;
      step.span = step.verb_span = line.whole();
      step.as_written = reader.written(line.whole());
      found = true;
    }
  }
  if (!found)
    reader.fail(Rule::unknown_name, from->span, "the other has no such ingredient to swap",
                "Name one that it has, or add the new one as an amount line.");
}

void RecipeBuilder::read_without(LineReader& reader) {
  const auto& line = reader.line();
  do {
    std::size_t end = reader.comma_or_end();
    if (auto verb = match_verb(line, reader.at()); verb && reader.at() + verb->tokens == end) {
      std::size_t before = recipe_.order.size();
      for (std::size_t i = recipe_.order.size(); i-- > 0;)
        if (const auto& entry = recipe_.order[i];
            !entry.is_amount && entry.inherited && recipe_.steps[entry.index].verb == verb->verb)
          erase_line(i);
      if (recipe_.order.size() == before)
        reader.fail(Rule::unknown_name, line.span(reader.at(), end), "the other has no such step",
                    "Delete the line.");
      reader.move_to(end);
      continue;
    }
    auto use = read_use(reader, end);
    if (!use) continue;
    std::size_t before = recipe_.order.size();
    for (std::size_t i = recipe_.order.size(); i-- > 0;) {
      const auto& entry = recipe_.order[i];
      bool same = entry.is_amount ? recipe_.amounts[entry.index].use() == *use
                                  : recipe_.steps[entry.index].use && *recipe_.steps[entry.index].use == *use;
      if (same && entry.inherited) erase_line(i);
    }
    if (recipe_.order.size() == before)
      reader.fail(Rule::unknown_name, use->span, "the other has no such ingredient", "Name one that it has.");
  } while (!reader.failed() && reader.take_comma());
  reader.expect_end("without INGREDIENT");
}

}  // namespace gill::analysis
