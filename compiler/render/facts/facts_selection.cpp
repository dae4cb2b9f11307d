#include "render/facts/facts_selection.h"

#include <algorithm>

#include "base/text.h"
#include "render/facts/sort_by_name.h"

namespace gill::render {

using analysis::DrinkId;
using analysis::StockId;

namespace {

bool is_called(const analysis::Stock& stock, const std::string& folded) {
  if (base::fold_name(stock.head.name) == folded) return true;
  return std::any_of(stock.aka.begin(), stock.aka.end(),
                     [&](const std::string& alias) { return base::fold_name(alias) == folded; });
}

/// The stock that the name means in the house.
StockId meant_stock(const FactsInput& input, std::string_view name) {
  auto id = input.names.find(symbols::NameSpace::stock, name);
  return id.valid() ? StockId{input.specs.index_of[id.index()]} : StockId{};
}

}  // namespace

FactsSelection select_facts(const FactsInput& input) {
  FactsSelection selection;
  std::string only = base::fold_name(input.only);
  for (std::size_t i = 0; i < input.specs.drinks.size(); ++i) {
    const auto& head = input.specs.drinks[i].head;
    bool meant = only.empty() ? !head.from_library : base::fold_name(head.name) == only;
    if (meant) selection.drinks.push_back(DrinkId::at(i));
  }
  auto used = Usage(input.specs).of_the_house();
  StockId asked = only.empty() ? StockId{} : meant_stock(input, input.only);
  for (std::size_t i = 0; i < input.specs.stock.size(); ++i) {
    const auto& stock = input.specs.stock[i];
    bool meant = only.empty() ? used[i] : asked.valid() ? asked.index() == i : is_called(stock, only);
    if (meant) (stock.is_prep ? selection.preps : selection.ingredients).push_back(StockId::at(i));
  }
  sort_by_name(selection.drinks, input.specs);
  sort_by_name(selection.preps, input.specs);
  sort_by_name(selection.ingredients, input.specs);
  return selection;
}

bool facts_know(const FactsInput& input, std::string_view name) {
  FactsInput one = input;
  one.only = std::string(name);
  auto selection = select_facts(one);
  return !selection.drinks.empty() || !selection.preps.empty() || !selection.ingredients.empty();
}

DeclaredAt declared_at(const analysis::Head& head, const source::SourceSet& sources) {
  if (!head.name_span.file_id.valid()) return {};
  const auto& file = sources[head.name_span.file_id];
  return {file.path, file.place_of(head.name_span).line};
}

}  // namespace gill::render
