#include "batch/batch_output.h"

#include <fmt/format.h>

#include <cmath>

#include "base/json.h"
#include "base/text.h"
#include "costing/words.h"
#include "render/wording/allergen_words.h"
#include "render/wording/measures.h"
#include "render/wording/numbers.h"

namespace gill::batch {

using render::wording::trimmed;

namespace {

using base::Json;
using base::number_or_null;

// The computed freezing point of a drink is good to about this much (physics/freezing.h), and a freezer
// swings.
constexpr double freezing_doubt_k = 2;

Json ingredient_json(const BatchIngredient& what) {
  return {{"name", what.name},
          {"volume_ml", number_or_null(what.volume_ml)},
          {"mass_g", number_or_null(what.mass_g)},
          {"count", number_or_null(what.count)}};
}

Json bottles_json(const Batch& batch) {
  Json all = Json::array();
  for (const auto& bottle : batch.bottles)
    all.push_back({{"size_ml", bottle.size_ml},
                   {"count", bottle.count},
                   {"fill_ml", bottle.fill_ml},
                   {"last_ml", bottle.last_ml},
                   {"over_ml", bottle.over_ml}});
  return all;
}

Json left_out_json(const Batch& batch) {
  Json all = Json::array();
  for (const auto& out : batch.left_out) {
    Json line = {{"name", out.what.name}, {"why", out.why}};
    line["a_serve"] = {{"volume_ml", number_or_null(out.what.volume_ml)},
                       {"mass_g", number_or_null(out.what.mass_g)},
                       {"count", number_or_null(out.what.count)}};
    all.push_back(std::move(line));
  }
  return all;
}

std::string measured(double base_value, std::string_view unit, const House& house) {
  return render::wording::text_of(
      render::wording::measure_in(batch_measurable(base_value), house.units[house.units.find(unit)]));
}

/// The way a person takes it: pieces where it is counted, millilitres of what is poured, else grams.
std::string amount_text(const BatchIngredient& what, const House& house) {
  if (what.is_weighed && what.mass_g) return measured(*what.mass_g, "g", house);
  bool liquid = house.specs[what.use.stock].effective_form() == analysis::Form::liquid;
  if (what.count) return trimmed(std::ceil(*what.count - 1e-9), 0);
  if (what.volume_ml && liquid) return measured(*what.volume_ml, "ml", house);
  if (what.mass_g) return measured(*what.mass_g, "g", house);
  return "";
}

std::string freezing_text(const Batch& batch, const House& house) {
  double freezer = house.specs.house.freezer_c;
  std::string at = render::wording::fixed(batch.freezes_at_c, 1);
  std::string cold = trimmed(freezer, 0);
  if (batch.freezes_at_c > freezer + freezing_doubt_k)
    return fmt::format(
        "It begins to freeze at {} °C: in the freezer at {} °C it turns to slush or ice, and a full bottle "
        "may burst.",
        at, cold);
  if (batch.freezes_at_c > freezer - freezing_doubt_k)
    return fmt::format(
        "It begins to freeze at about {} °C, and the freezer is at {} °C: too near to tell. Try one bottle, "
        "not full.",
        at, cold);
  return fmt::format("It stays liquid in the freezer at {} °C: it begins to freeze at about {} °C.", cold,
                     at);
}

std::string keeping_text(const Batch& batch) {
  if (!batch.keeps_days) return "Keeping: not stated.";
  if (!batch.is_keeping_stated)
    return fmt::format(
        "Keeping: not stated. The shortest-lived of its parts keeps {} d by itself, which says nothing of "
        "the mixture.",
        trimmed(*batch.keeps_days, 1));
  std::string storage =
      batch.storage ? std::string(analysis::name_of(*batch.storage)) : "stored as its parts are";
  return fmt::format(
      "Keep it {} and closed, {} at the most. Date it; the shorter of this and the local code's limit "
      "counts.",
      storage, days_text(*batch.keeps_days));
}

std::string allergen_text(const Batch& batch) {
  auto words = [](const std::vector<std::string>& codes) {
    std::vector<std::string> all;
    for (const auto& code : codes) all.push_back(render::wording::allergen_words(code));
    return base::join(all, ", ");
  };
  auto present = batch.allergens.present(), possible = batch.allergens.possible();
  std::string text =
      "Allergens declared in it: " + (present.empty() ? std::string("none declared") : words(present)) + ".";
  if (!possible.empty()) text += " May be in it: " + words(possible) + ".";
  if (!batch.allergens.known) text += " Not all of its parts say: not known.";
  return text + " " + render::wording::shared_equipment_line;
}

std::string bottles_text(const model::BottleSplit& bottle) {
  std::string text = fmt::format("{} × {} ml", bottle.count, trimmed(bottle.size_ml, 1));
  if (bottle.is_even())
    return text + fmt::format(", {} ml in each", trimmed(batch_measurable(bottle.fill_ml), 0));
  if (bottle.over_ml > 0) return text + fmt::format(", {} ml left over", trimmed(bottle.over_ml, 0));
  if (bottle.last_is_full()) return text;
  const std::string last = trimmed(batch_measurable(bottle.last_ml), 0);
  return text + (bottle.count == 1 ? fmt::format(", {} ml in it", last)
                                   : fmt::format(", the last with {} ml", last));
}

/// What is added at service, for as many serves as are taken at once.
std::string left_out_text(const Batch& batch, const House& house) {
  std::vector<std::vector<std::string>> rows;
  for (const auto& out : batch.left_out) {
    BatchIngredient what = out.what;
    for (auto* measure : {&what.volume_ml, &what.mass_g, &what.count})
      if (*measure) **measure *= batch.serves_at_once;
    rows.push_back({out.written.empty() ? amount_text(what, house) : out.written, what.name, out.why});
  }
  std::string each = batch.serves_at_once > 1
                         ? fmt::format("for every {} serves", trimmed(batch.serves_at_once, 1))
                         : "a serve";
  return fmt::format("Not in the batch, {}:\n", each) + text_table({{"", true}, {""}, {""}}, rows);
}

std::string title(const Batch& batch) {
  std::string asked =
      batch.serves ? fmt::format("{} {}, ", trimmed(*batch.serves, 1), batch.is_prep ? "pieces" : "serves")
                   : "";
  return fmt::format("{}: {}{} ml", batch.name, asked, trimmed(batch_measurable(batch.volume_ml), 1));
}

}  // namespace

std::string days_text(double days) {
  if (days < 1) return trimmed(24 * days, 0) + " h";
  int whole = model::days_after_making(days);
  return fmt::format("{} {}", whole, whole == 1 ? "day" : "days");
}

double batch_measurable(double base_value) {
  double step = base_value >= 10000 ? 10 : base_value >= 1000 ? 5 : 0;
  return step > 0 ? step * std::round(base_value / step) : base_value;
}

std::string batch_json(const Batch& batch, const House& house) {
  Json root = {{"format", "gill-batch"},
               {"version", 1},
               {"drink", batch.name},
               {"is_prep", batch.is_prep},
               {"serves", number_or_null(batch.serves)}};
  root["volume_ml"] = batch.volume_ml;
  root["mass_g"] = batch.mass_g;
  root["abv_percent"] = batch.abv_percent;
  root["served_abv_percent"] = number_or_null(batch.served_abv_percent);
  root["sugar_g_per_100ml"] = batch.sugar_g_per_100ml;
  root["acid_g_per_100ml"] = batch.acid_g_per_100ml;
  root["water_ml"] = batch.water_ml;
  root["ml_a_serve"] = batch.serves ? Json(batch.volume_ml / *batch.serves) : Json(nullptr);
  root["ingredients"] = Json::array();
  for (const auto& what : batch.ingredients) root["ingredients"].push_back(ingredient_json(what));
  root["bottles"] = bottles_json(batch);
  root["freezes_at_c"] = batch.freezes_at_c;
  root["freezes_in_freezer"] = batch.freezes_at_c > house.specs.house.freezer_c;
  root["keeps_days"] = number_or_null(batch.keeps_days);
  root["storage"] = batch.storage ? Json(analysis::name_of(*batch.storage)) : Json(nullptr);
  root["goes"] = batch.goes;
  root["left_out"] = left_out_json(batch);
  root["allergens"] = batch.allergens.present();
  root["allergens_may"] = batch.allergens.possible();
  root["allergens_known"] = batch.allergens.known;
  root["take_care"] = batch.take_care;
  root["notes"] = batch.notes;
  return base::json_text(std::move(root));
}

std::string batch_text(const Batch& batch, const House& house) {
  std::string text = title(batch) + "\n\n";
  std::vector<std::vector<std::string>> rows;
  for (const auto& what : batch.ingredients) rows.push_back({amount_text(what, house), what.name});
  if (batch.water_ml > 0)
    rows.push_back({measured(batch.water_ml, "ml", house), "water, for the ice that is not used"});
  text += text_table({{"", true}, {""}}, rows) + "\n";
  for (const auto& bottle : batch.bottles) text += bottles_text(bottle) + "\n";
  if (batch.serves && !batch.is_prep)
    text += fmt::format("Pour {} a serve.\n", measured(batch.volume_ml / *batch.serves, "ml", house));
  text += fmt::format(
      "{} % abv, {} % w/v sugar, {} % w/v acid{}\n\n", render::wording::fixed(batch.abv_percent, 1),
      render::wording::fixed(batch.sugar_g_per_100ml, 1), render::wording::fixed(batch.acid_g_per_100ml, 2),
      batch.served_abv_percent ? fmt::format("; the drink as it is served, {} % abv",
                                             render::wording::fixed(*batch.served_abv_percent, 1))
                               : "");
  if (!batch.left_out.empty()) text += left_out_text(batch, house) + "\n";
  std::vector<std::string> notes = batch.notes;
  notes.push_back(freezing_text(batch, house));
  notes.push_back(keeping_text(batch));
  notes.push_back(allergen_text(batch));
  if (!batch.take_care.empty())
    notes.push_back(fmt::format("Take care: {} {}", batch.take_care, render::wording::local_code_line));
  return text + text_notes(notes);
}

}  // namespace gill::batch
