#include <fmt/format.h>

#include <cmath>

#include "batch/tune_output.h"
#include "cli/command.h"
#include "cli/named_option.h"

namespace gill::cli {
namespace {

struct TuneOptions {
  std::string name, house = ".", form = "text";
  /// By property, as written.
  std::array<std::string, model::tune_property_count> targets;
  std::vector<std::string> vary;
};

/// The factor from a quantity's base unit to the property's; nothing when the kind does not fit it.
std::optional<double> scale_of(units::Kind kind, model::TuneProperty property) {
  using units::Kind;
  if (kind == Kind::count) return 1;
  switch (property) {
    case model::TuneProperty::strength:
      return kind == Kind::strength || kind == Kind::share ? std::optional(100.0) : std::nullopt;
    case model::TuneProperty::sugar:
    case model::TuneProperty::acid:
      return kind == Kind::mass_concentration || kind == Kind::share ? std::optional(100.0) : std::nullopt;
    case model::TuneProperty::balance:
      return std::nullopt;
    case model::TuneProperty::volume:
      return kind == Kind::volume ? std::optional(1.0) : std::nullopt;
  }
  return std::nullopt;
}

/// What no drink can come to, as the end of a sentence; empty for what one can. Either end may be open.
std::string_view why_not_possible(model::TuneProperty property, const model::TuneTarget& target) {
  constexpr double pure_alcohol = 100;
  const bool is_strength = property == model::TuneProperty::strength;
  if (target.high < 0 || (std::isfinite(target.low) && target.low < 0)) return "is below nothing";
  const bool is_too_strong =
      target.low > pure_alcohol || (std::isfinite(target.high) && target.high > pure_alcohol);
  if (is_strength && is_too_strong) return "is stronger than pure alcohol";
  return property == model::TuneProperty::volume && target.high <= 0 ? "is nothing to drink" : "";
}

bool read_target(const driver::Compilation& house, const TuneOptions& options, model::TuneProperty property,
                 batch::TuneTask& task) {
  auto index = static_cast<std::size_t>(property);
  if (options.targets[index].empty()) return true;
  std::string option = fmt::format("--{}", model::name_of(property));
  auto quantity = read_quantity(house.units, option, options.targets[index]);
  if (!quantity) return false;
  auto scale = scale_of(quantity->kind, property);
  if (!scale) {
    static constexpr std::string_view wanted[] = {"% abv", "% w/v", "% w/v", "parts of sugar to one of acid",
                                                  "ml"};
    refuse(fmt::format("{} takes a number in {}, and `{}` is {}", option, wanted[index],
                       options.targets[index], units::noun_of(quantity->kind)));
    return false;
  }
  double value = quantity->number() * *scale;
  if (quantity->is_range) {
    task.request[property] = model::TuneTarget{quantity->low * *scale, quantity->high * *scale};
  } else if (quantity->tolerance) {
    double width = *quantity->tolerance * *scale;
    task.request[property] = model::TuneTarget{value - width, value + width};
  } else {
    task.request[property] = model::TuneTarget::value(value);
    task.wanted[index] = value;
  }
  auto why = why_not_possible(property, *task.request[property]);
  if (!why.empty()) refuse(fmt::format("{} {} {}", option, options.targets[index], why));
  return why.empty();
}

std::optional<batch::TuneTask> read_task(const driver::Compilation& house, const TuneOptions& options) {
  batch::TuneTask task;
  auto drink = find_named(house, symbols::NameSpace::drink, "drink", options.name);
  if (!drink) return std::nullopt;
  task.request.drink = analysis::DrinkId::at(*drink);
  task.request.wants_other = true;
  bool any = false;
  for (std::size_t i = 0; i < model::tune_property_count; ++i) {
    if (!read_target(house, options, static_cast<model::TuneProperty>(i), task)) return std::nullopt;
    any = any || task.request.targets[i];
  }
  if (!any)
    return refuse("nothing to aim at; give --strength, --sugar, --acid, --balance or --volume"), std::nullopt;
  model::TrialDrink trial(house.specs, house.units, house.facts, task.request.drink);
  for (const auto& name : options.vary) {
    auto stock = find_named(house, symbols::NameSpace::stock, "ingredient or prep", name);
    if (!stock) return std::nullopt;
    auto id = analysis::StockId::at(*stock);
    bool movable = false;
    for (std::size_t i = 0; i < trial.drink().recipe.amounts.size(); ++i)
      movable = movable || (trial.drink().recipe.amounts[i].use().stock == id && trial.can_move(i));
    if (!movable)
      return refuse(fmt::format("`{}` cannot be varied: no line of `{}` pours a volume of it", name,
                                house.specs.drinks[*drink].head.name)),
             std::nullopt;
    task.request.vary.push_back(id);
  }
  return task;
}

int run_tune(const TuneOptions& options) {
  auto house = compile_house(options.house);
  if (!house) return cannot_work;
  auto task = read_task(*house, options);
  if (!task) return cannot_work;
  int status = report_errors(*house);
  if (!house->facts[task->request.drink].valid) {
    refuse(fmt::format("`{}` has an amount in error, so its figures cannot be aimed at; correct that first",
                       options.name));
    return errors_in_specs;
  }
  auto input = house->book_input();
  auto tuned = model::tune(house->specs, house->units, house->facts, task->request);
  if (!tuned.unmet.empty()) status = not_met;
  return print(
      options.form == "json" ? batch::tune_json(*task, tuned, input) : batch::tune_text(*task, tuned, input),
      status);
}

}  // namespace

void add_tune(CLI::App& app, int& status) {
  auto options = std::make_shared<TuneOptions>();
  auto* command = app.add_subcommand(
      "tune", "Finds amounts that meet a target as served, in measures the house can pour");
  command->add_option("NAME", options->name, "The drink")->required();
  command->add_option("--house", options->house, "A folder or a .gill file")->capture_default_str();
  static constexpr std::string_view help[] = {"Strength in % abv: 22, 20..22, ..25", "Sugar in % w/v",
                                              "Acid in % w/v", "Sugar over acid", "Volume in ml"};
  for (std::size_t i = 0; i < model::tune_property_count; ++i)
    command->add_option(fmt::format("--{}", model::name_of(static_cast<model::TuneProperty>(i))),
                        options->targets[i], std::string(help[i]));
  command->add_option("--vary", options->vary, "Only these ingredients may change: names with commas between")
      ->delimiter(',');
  command->add_option("--as", options->form, "The form of the answer")
      ->check(CLI::IsMember({"text", "json"}))
      ->capture_default_str();
  show_examples(
      *command,
      {{"gill tune Fustian --house specs --strength 16..18", "amounts that bring it between 16 and 18 % abv"},
       {"gill tune Fustian --house specs --acid 0.8..0.85 --vary \"lemon juice\"", "moves the lemon alone"}});
  command->callback([options, &status] { status = run_tune(*options); });
}

}  // namespace gill::cli
