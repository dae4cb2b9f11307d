#include "batch/tune_output.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "base/text.h"
#include "costing/words.h"
#include "model/figures_table.h"
#include "model/money.h"
#include "render/wording/numbers.h"
#include "units/money.h"

namespace gill::batch {

using model::Figures;
using model::TuneLimit;
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

bool is_unmet(const model::TuneAnswer& answer, TuneProperty property) {
  return std::find(answer.unmet.begin(), answer.unmet.end(), property) != answer.unmet.end();
}

std::string figure_text(const Figures& figures, TuneProperty property) {
  auto figure = model::figure_of(figures, property);
  return figure ? trimmed(*figure, model::figure_of(property).row.places) + unit_of(property) : "none";
}

/// `at least 20`, `at most 25`, `20–25`.
std::string range_text(const model::TuneTarget& range, int places) {
  if (!std::isfinite(range.high)) return "at least " + trimmed(range.low, places);
  if (!std::isfinite(range.low) || range.low == 0) return "at most " + trimmed(range.high, places);
  return trimmed(range.low, places) + "–" + trimmed(range.high, places);
}

std::string target_text(const TuneTask& task, TuneProperty property) {
  if (auto wanted = task.wanted[index_of(property)]) return trimmed(*wanted, 3) + unit_of(property);
  const auto& target = task.request.targets[index_of(property)];
  return target ? range_text(*target, 3) + unit_of(property) : "";
}

// ---- limits

/// The word of a limit in JSON.
std::string_view key_of(TuneLimit::Of of) {
  switch (of) {
    case TuneLimit::Of::level:
      return "level_ml";
    case TuneLimit::Of::family:
      return "family";
    case TuneLimit::Of::cost:
      return "cost";
    case TuneLimit::Of::alcohol:
      return "alcohol_g";
  }
  return "";
}

/// What has to stay where it is, in a row's first cell.
std::string limit_name(const TuneLimit& limit, const TuneTask& task, const House& house) {
  const auto& drink = house.specs[task.request.drink];
  switch (limit.of) {
    case TuneLimit::Of::level:
      return "level in the " + house.specs[house.facts[task.request.drink].drunk_from].head.name;
    case TuneLimit::Of::family:
      return fmt::format("{}: {}", house.specs[drink.family].head.name, model::name_of(limit.property));
    case TuneLimit::Of::cost:
      return "cost of a serve";
    case TuneLimit::Of::alcohol:
      return "alcohol in a serve";
  }
  return "";
}

/// A value of the limit as people read it.
std::string limit_value(const TuneLimit& limit, double value, const House& house) {
  switch (limit.of) {
    case TuneLimit::Of::level:
      return trimmed(value, 0) + " ml";
    case TuneLimit::Of::family:
      return trimmed(value, model::figure_of(limit.property).row.places) + unit_of(limit.property);
    case TuneLimit::Of::cost:
      return units::money_text({model::decimal_of(value), house.facts.currency});
    case TuneLimit::Of::alcohol:
      return trimmed(value, 1) + " g";
  }
  return "";
}

std::string limit_range(const TuneLimit& limit, const House& house) {
  switch (limit.of) {
    case TuneLimit::Of::level:
      return range_text(limit.range, 0) + " ml";
    case TuneLimit::Of::family:
      return range_text(limit.range, 3) + unit_of(limit.property);
    case TuneLimit::Of::cost:
    case TuneLimit::Of::alcohol:
      return "at most " + limit_value(limit, limit.range.high, house);
  }
  return "";
}

std::string limit_verdict(const TuneLimit& limit) {
  if (!limit.is_kept()) return "not kept";
  return limit.range.holds(limit.reached) ? "" : "outside, as now";
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
        fmt::format("{} {}; everything else is poured as it is written. New amounts are {}measures of the "
                    "house, or two of them together.",
                    tuned.amounts.size(), tuned.amounts.size() == 1 ? "amount changes" : "amounts change",
                    house.specs[task.request.drink].serves > 1 ? "for each serve " : ""));
    notes.push_back("The figures come from making the drink again with the new amounts, ice and all.");
  }
  if (tuned.other && !tuned.other->keeps_limits())
    notes.push_back(
        "The other way comes nearer to what is asked, and breaks what is marked `not kept`: take it with a "
        "larger glass, another family or another price.");
  if (tuned.unmet.empty()) return notes;
  for (auto property : model::tune_properties()) {
    if (!is_unmet(tuned, property)) continue;
    notes.push_back(fmt::format("No change among these measures brings the {} to {}{}: the nearest is {}.",
                                model::name_of(property), target_text(task, property),
                                tuned.limits.empty() ? "" : " and keeps the rest where it has to stay",
                                figure_text(tuned.reached, property)));
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

Json amounts_json(const model::TuneAnswer& answer, const House& house) {
  Json amounts = Json::array();
  for (const auto& amount : answer.amounts)
    amounts.push_back({{"name", house.specs[amount.stock].head.name},
                       {"old_ml", amount.old_ml},
                       {"new_ml", amount.new_ml}});
  return amounts;
}

Json unmet_json(const model::TuneAnswer& answer) {
  Json unmet = Json::array();
  for (auto property : model::tune_properties())
    if (is_unmet(answer, property)) unmet.push_back(model::figure_of(property).row.key);
  return unmet;
}

/// A number, or `null` for an end that is open.
Json end_json(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

Json limits_json(const model::TuneAnswer& answer) {
  Json limits = Json::array();
  for (const auto& limit : answer.limits) {
    Json json = {{"of", key_of(limit.of)}};
    if (limit.of == TuneLimit::Of::family) json["figure"] = model::figure_of(limit.property).row.key;
    json["low"] = end_json(limit.range.low);
    json["high"] = end_json(limit.range.high);
    json["now"] = limit.now;
    json["reached"] = limit.reached;
    json["kept"] = limit.is_kept();
    limits.push_back(std::move(json));
  }
  return limits;
}

std::string amounts_text(const model::TuneAnswer& answer, const House& house) {
  std::vector<std::vector<std::string>> rows;
  for (const auto& amount : answer.amounts)
    rows.push_back({house.specs[amount.stock].head.name, trimmed(amount.old_ml, 2) + " ml", "→",
                    trimmed(amount.new_ml, 2) + " ml"});
  return rows.empty() ? "" : text_table({{""}, {"", true}, {""}, {"", true}}, rows);
}

/// The figures, and what has to stay, of one answer.
std::string answer_text(const TuneTask& task, const Figures& now, const model::TuneAnswer& answer,
                        const House& house) {
  std::vector<std::vector<std::string>> rows;
  for (auto property : model::tune_properties())
    rows.push_back({std::string(model::name_of(property)), figure_text(now, property),
                    target_text(task, property), figure_text(answer.reached, property),
                    is_unmet(answer, property) ? "not met" : ""});
  std::string text = text_table({{""}, {"now", true}, {"asked", true}, {"comes to", true}, {""}}, rows);
  rows.clear();
  for (const auto& limit : answer.limits)
    rows.push_back({limit_name(limit, task, house), limit_value(limit, limit.now, house),
                    limit_range(limit, house), limit_value(limit, limit.reached, house),
                    limit_verdict(limit)});
  if (!rows.empty())
    text +=
        "\n" + text_table({{"has to stay"}, {"now", true}, {"within", true}, {"comes to", true}, {""}}, rows);
  if (!answer.amounts.empty()) text += "\n" + amounts_text(answer, house);
  return text;
}

}  // namespace

std::string tune_json(const TuneTask& task, const model::Tuned& tuned, const House& house) {
  Json target = Json::object();
  for (auto property : model::tune_properties()) {
    const auto& asked = task.request.targets[index_of(property)];
    if (!asked) continue;
    auto wanted = task.wanted[index_of(property)];
    target[std::string(model::figure_of(property).row.key)] =
        wanted ? Json(*wanted) : Json::array({end_json(asked->low), end_json(asked->high)});
  }
  Json root = {{"format", "gill-tune"}, {"version", 1}, {"drink", house.specs[task.request.drink].head.name}};
  root["target"] = std::move(target);
  root["now"] = figures_json(tuned.now);
  root["reached"] = figures_json(tuned.reached);
  root["amounts"] = amounts_json(tuned, house);
  root["measures_only"] = true;
  root["unmet"] = unmet_json(tuned);
  root["limits"] = limits_json(tuned);
  if (tuned.other)
    root["other"] = {{"reached", figures_json(tuned.other->reached)},
                     {"amounts", amounts_json(*tuned.other, house)},
                     {"unmet", unmet_json(*tuned.other)},
                     {"limits", limits_json(*tuned.other)}};
  return root.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string tune_text(const TuneTask& task, const model::Tuned& tuned, const House& house) {
  const auto& drink = house.specs[task.request.drink];
  std::string text = fmt::format(
      "{}, as served{}\n\n", drink.head.name,
      drink.serves > 1 ? fmt::format(" (one of {} serves; amounts are the bowl's)", trimmed(drink.serves, 1))
                       : "");
  text += answer_text(task, tuned.now, tuned, house);
  if (tuned.other)
    text += fmt::format("\nAnother way\n\n{}", answer_text(task, tuned.now, *tuned.other, house));
  return text + "\n" + text_notes(notes_of(task, tuned, house));
}

}  // namespace gill::batch
