#include "batch/tune_output.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "base/text.h"
#include "costing/words.h"
#include "model/figures_table.h"
#include "render/wording/numbers.h"

namespace gill::batch {

using model::Figures;
using model::TuneProperty;
using render::wording::trimmed;

namespace {

using Json = nlohmann::ordered_json;

/// The figures of `served`, as `gill facts` keys them.
Json figures_json(const Figures& figures) {
  Json json;
  for (const auto& figure : model::drink_figures()) {
    if (!figure.of_liquid) continue;
    auto value = figure.of_liquid(figures);
    json[std::string(figure.row.key)] = value ? Json(*value) : Json(nullptr);
  }
  return json;
}

/// Sugar and acid as they are asked for on the command line.
std::string unit_of(TuneProperty property) {
  bool is_content = property == TuneProperty::sugar || property == TuneProperty::acid;
  return is_content ? " % w/v" : unit_behind(model::figure_of(property).row);
}

std::size_t index_of(TuneProperty property) { return static_cast<std::size_t>(property); }

bool is_unmet(const model::Tuned& tuned, TuneProperty property) {
  return std::find(tuned.unmet.begin(), tuned.unmet.end(), property) != tuned.unmet.end();
}

std::string figure_text(const Figures& figures, TuneProperty property) {
  auto figure = model::figure_of(figures, property);
  return figure ? trimmed(*figure, model::figure_of(property).row.places) + unit_of(property) : "none";
}

std::string target_text(const TuneTask& task, TuneProperty property) {
  if (auto wanted = task.wanted[index_of(property)]) return trimmed(*wanted, 3) + unit_of(property);
  const auto& target = task.request.targets[index_of(property)];
  if (!target) return "";
  std::string text;
  if (!std::isfinite(target->high))
    text = "at least " + trimmed(target->low, 3);
  else if (!std::isfinite(target->low))
    text = "at most " + trimmed(target->high, 3);
  else
    text = trimmed(target->low, 3) + "–" + trimmed(target->high, 3);
  return text + unit_of(property);
}

/// Names of what could be varied, each once.
std::vector<std::string> varied_names(const TuneTask& task, const House& house) {
  std::vector<std::string> names;
  model::TrialDrink trial(house.specs, house.units, house.facts, task.request.drink);
  for (std::size_t i = 0; i < trial.drink().recipe.amounts.size(); ++i) {
    if (!trial.can_move(i)) continue;
    auto stock = trial.drink().recipe.amounts[i].use().stock;
    const auto& vary = task.request.vary;
    bool chosen =
        vary.empty() ? trial.is_jiggered(i) : std::find(vary.begin(), vary.end(), stock) != vary.end();
    const std::string& name = house.specs[stock].head.name;
    if (chosen && std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  return names;
}

std::vector<std::string> notes_of(const TuneTask& task, const model::Tuned& tuned, const House& house) {
  std::vector<std::string> notes;
  auto varied = varied_names(task, house);
  if (tuned.amounts.empty() && tuned.unmet.empty()) {
    notes.push_back("The drink is there already: nothing changes.");
  } else if (!tuned.amounts.empty()) {
    notes.push_back(
        fmt::format("{} {}; everything else is poured as it is written. New amounts are measures of the "
                    "house, or two of them together.",
                    tuned.amounts.size(), tuned.amounts.size() == 1 ? "amount changes" : "amounts change"));
    notes.push_back("The figures come from making the drink again with the new amounts, ice and all.");
  }
  if (tuned.unmet.empty()) return notes;
  for (auto property : model::tune_properties()) {
    if (!is_unmet(tuned, property)) continue;
    notes.push_back(fmt::format(
        "No change among these measures brings the {} "
        "to {}: the nearest is {}.",
        model::name_of(property), target_text(task, property), figure_text(tuned.reached, property)));
  }
  if (varied.empty()) {
    notes.push_back(
        "Nothing in the drink may be poured otherwise: a dash, a count, a weight and an amount that is "
        "worked out stay as they are. Name an ingredient with `--vary`.");
  } else {
    notes.push_back(
        fmt::format("What was varied: {}, {} at most at a time, none to more than two and a half times as "
                    "much or as little. Vary other ingredients with "
                    "`--vary`, widen the target, or add a measure to the house.",
                    base::join_with_and(varied), task.request.max_changes));
  }
  if (tuned.amounts.empty()) notes.push_back("No change comes nearer than the drink as it is.");
  return notes;
}

}  // namespace

std::string tune_json(const TuneTask& task, const model::Tuned& tuned, const House& house) {
  Json target = Json::object();
  Json unmet = Json::array();
  auto end = [](double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); };
  for (auto property : model::tune_properties()) {
    const auto& asked = task.request.targets[index_of(property)];
    if (asked) {
      auto wanted = task.wanted[index_of(property)];
      target[std::string(model::figure_of(property).row.key)] =
          wanted ? Json(*wanted) : Json::array({end(asked->low), end(asked->high)});
    }
    if (is_unmet(tuned, property)) unmet.push_back(model::figure_of(property).row.key);
  }
  Json amounts = Json::array();
  for (const auto& amount : tuned.amounts)
    amounts.push_back({{"name", house.specs[amount.stock].head.name},
                       {"old_ml", amount.old_ml},
                       {"new_ml", amount.new_ml}});
  Json root = {{"format", "gill-tune"}, {"version", 1}, {"drink", house.specs[task.request.drink].head.name}};
  root["target"] = std::move(target);
  root["now"] = figures_json(tuned.now);
  root["reached"] = figures_json(tuned.reached);
  root["amounts"] = std::move(amounts);
  root["measures_only"] = true;
  root["unmet"] = std::move(unmet);
  return root.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string tune_text(const TuneTask& task, const model::Tuned& tuned, const House& house) {
  const auto& drink = house.specs[task.request.drink];
  std::string text = fmt::format(
      "{}, as served{}\n\n", drink.head.name,
      drink.serves > 1 ? fmt::format(" (one of {} serves; amounts are the bowl's)", trimmed(drink.serves, 1))
                       : "");
  std::vector<std::vector<std::string>> rows;
  for (auto property : model::tune_properties())
    rows.push_back({std::string(model::name_of(property)), figure_text(tuned.now, property),
                    target_text(task, property), figure_text(tuned.reached, property),
                    is_unmet(tuned, property) ? "not met" : ""});
  text += text_table({{""}, {"now", true}, {"asked", true}, {"comes to", true}, {""}}, rows);
  if (!tuned.amounts.empty()) {
    rows.clear();
    for (const auto& amount : tuned.amounts)
      rows.push_back({house.specs[amount.stock].head.name, trimmed(amount.old_ml, 2) + " ml", "→",
                      trimmed(amount.new_ml, 2) + " ml"});
    text += "\n" + text_table({{""}, {"", true}, {""}, {"", true}}, rows);
  }
  return text + "\n" + text_notes(notes_of(task, tuned, house));
}

}  // namespace gill::batch
