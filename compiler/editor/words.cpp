#include "editor/words.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/percent.h"
#include "base/text.h"
#include "model/figures_table.h"
#include "model/physics/volume.h"
#include "render/wording/numbers.h"
#include "units/money.h"

namespace gill::editor {
namespace {

constexpr std::string_view not_worked_out = "not worked out: there is an error in it";
constexpr std::string_view strength_key = "abv_percent", volume_key = "volume_ml";

const model::DrinkFigure* drink_figure(std::string_view key) {
  auto table = model::drink_figures();
  auto found =
      std::find_if(table.begin(), table.end(), [&](const auto& figure) { return figure.row.key == key; });
  return found == table.end() ? nullptr : &*found;
}

std::string number_of(const model::FigureRow& row, double value) {
  return render::wording::fixed(value, row.places) + model::unit_behind(row);
}

/// `, raw` figures that are too small to print are no words.
void add_figure(std::vector<std::string>& words, std::string_view key, std::optional<double> value) {
  const auto* figure = drink_figure(key);
  if (figure && value && !model::prints_as_nothing(figure->row, *value))
    words.push_back(number_of(figure->row, *value));
}

}  // namespace

std::string figures_in_brief(const HouseView& view, analysis::DrinkId id) {
  const auto& facts = view.house().facts[id];
  if (facts.is_empty) return {};
  if (!facts.valid) return std::string(not_worked_out);
  std::vector<std::string> words;
  for (auto key : {strength_key, volume_key})
    if (const auto* figure = drink_figure(key)) add_figure(words, key, model::value_of(*figure, facts));
  if (facts.cost && !view.house().facts.currency.empty()) words.push_back(units::money_text(*facts.cost));
  return base::join(words, ", ");
}

std::string figures_in_brief(const HouseView& view, analysis::StockId id) {
  const auto& facts = view.house().facts[id];
  const auto& stock = view.specs()[id];
  if (facts.is_empty) return {};
  if (!facts.valid) return std::string(not_worked_out);
  std::vector<std::string> words;
  if (stock.is_prep && facts.yield_count)
    words.push_back("makes " + render::wording::trimmed(*facts.yield_count, 0));
  else if (stock.is_prep && stock.effective_form() != analysis::Form::liquid)
    words.push_back("makes " + render::wording::trimmed(facts.yield_g, 0) + " g");
  else if (stock.is_prep)
    words.push_back("makes " + render::wording::trimmed(facts.yield_ml, 0) + " ml");
  add_figure(words, strength_key, facts.abv_percent);
  return base::join(words, ", ");
}

std::string liquid_in_brief(const model::Masses& masses) {
  auto liquid = model::concentrations(masses);
  std::vector<std::string> words;
  add_figure(words, volume_key, liquid.volume_ml);
  add_figure(words, strength_key, base::percent_of_share(liquid.strength));
  return base::join(words, ", ");
}

std::optional<int> match_of(const std::string& name, const std::string& typed) {
  if (name.starts_with(typed)) return 0;
  if (name.find(" " + typed) != std::string::npos) return 1;
  std::size_t at = 0;
  for (char c : typed) {
    at = name.find(c, at);
    if (at == std::string::npos) return std::nullopt;
    ++at;
  }
  return 2;
}

}  // namespace gill::editor
