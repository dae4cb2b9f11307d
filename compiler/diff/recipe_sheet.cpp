// Builds and methods as they are compared.
#include <fmt/format.h>

#include <algorithm>

#include "analysis/groups.h"
#include "base/text.h"
#include "diff/meaning.h"
#include "diff/sheet.h"
#include "render/wording/build_lines.h"
#include "render/wording/method_lines.h"

namespace gill::diff {

namespace wording = render::wording;
using analysis::Amount;
using analysis::Step;
using analysis::Verb;
using units::Quantity;

namespace {

constexpr std::pair<Verb, model::Role> role_of_pouring[] = {
    {Verb::rinse, model::Role::rinse},     {Verb::top, model::Role::top},
    {Verb::float_, model::Role::float_},   {Verb::layer, model::Role::float_},
    {Verb::mist, model::Role::mist},       {Verb::rim, model::Role::rim},
    {Verb::garnish, model::Role::garnish}, {Verb::side, model::Role::side}};

/// What a step that pours something is in the build; nothing for the others.
std::optional<model::Role> role_of(Verb verb) {
  for (const auto& [pouring, role] : role_of_pouring)
    if (pouring == verb) return role;
  return std::nullopt;
}

bool garnishes(const Step& step) { return step.verb == Verb::garnish || step.verb == Verb::side; }

/// Verbs after which what is added is a step of its own: the same that part the amounts of a printed method.
bool begins_method(Verb verb) { return verb != Verb::build && verb != Verb::rinse && verb != Verb::rim; }

bool states_tolerance(const std::string& as_written) {
  return as_written.find("±") != std::string::npos || as_written.find("+-") != std::string::npos ||
         as_written.find("..") != std::string::npos || base::fold_name(as_written).starts_with("about");
}

Measured measured_of(const Quantity& quantity, const units::UnitTable& units, const std::string& as_written) {
  Measured measured;
  measured.kind = quantity.kind;
  measured.value = quantity.number();
  measured.low = quantity.low;
  measured.high = quantity.high;
  measured.number = measured.value;
  if (quantity.unit.valid()) {
    const auto& unit = units[quantity.unit];
    measured.unit = unit.symbol;
    measured.number = base::to_double((quantity.value - unit.offset) / unit.factor);
  }
  measured.states_tolerance = states_tolerance(as_written);
  measured.tolerance = quantity.tolerance.value_or(0);
  return measured;
}

/// Walks a recipe in its order and fills a sheet with its pours and its method.
class RecipeReader {
 public:
  RecipeReader(Sheet& sheet, const wording::RecipeContext& context, const Identities& same)
      : sheet_(sheet),
        context_(context),
        same_(same),
        one_step_(context.recipe),
        lines_(wording::build_lines(context)) {
    for (const auto& step : context.recipe.steps) built_ = built_ || step.verb == Verb::build;
    in_glass_ = built_;
  }

  void build() {
    for (const auto& line : context_.recipe.order) {
      if (line.is_amount) {
        add_amount(line.index);
        continue;
      }
      const Step& step = context_.recipe.steps[line.index];
      add_poured(step, line.index);
      if (garnishes(step)) continue;
      close_group();
      add_step(step, line.index);
      begun_ = begun_ || begins_method(step.verb);
      bool leaves_tin = analysis::strains(step.verb) && !step.to_tin && !context_.is_prep;
      in_glass_ = in_glass_ || step.verb == Verb::dump || leaves_tin;
    }
    close_group();
  }

 private:
  Identity identity_of(const analysis::Use& use) const { return same_.stock[use.stock.index()]; }

  std::string item_of(const analysis::Use& use) const {
    return use.item.valid() ? context_.units[use.item].symbol : std::string();
  }

  std::string meaning_of(const analysis::Use& use) const {
    return fmt::format("#{} {}", identity_of(use), item_of(use));
  }

  Pour start(const analysis::Use& use, model::Role role, bool is_amount, std::size_t index) const {
    Pour pour;
    pour.name = analysis::name_of(use, context_.specs, context_.units);
    pour.identity = identity_of(use);
    pour.item = item_of(use);
    pour.role = role;
    const auto* entry = wording::entry_of(context_, is_amount, index, use);
    if (!entry) return pour;
    auto whole = [&](const std::optional<double>& value) {
      return value ? std::optional(*value * context_.serves) : std::nullopt;
    };
    pour.volume_ml = whole(entry->volume_ml);
    pour.mass_g = whole(entry->mass_g);
    pour.count = whole(entry->count);
    return pour;
  }

  /// Takes the printed line that belongs to a use: they come in the order of the recipe.
  void put_words(Pour& pour, const analysis::Use& use) {
    if (next_line_ >= lines_.size() || lines_[next_line_].stock != use.stock) return;
    const auto& line = lines_[next_line_++];
    std::vector<std::string> columns;
    if (line.whole) {
      columns.push_back(wording::text_of(*line.whole));
    } else {
      for (const auto& column : line.columns)
        if (column) columns.push_back(wording::text_of(*column));
    }
    if (columns.empty()) return;
    std::string about = line.is_about ? "about " : "";
    pour.first_amount = about + columns.front();
    pour.amount = pour.first_amount;
    if (columns.size() > 1)
      pour.amount += fmt::format(
          " ({})", base::join(std::vector<std::string>(columns.begin() + 1, columns.end()), ", "));
  }

  void add_amount(std::size_t index) {
    const Amount& amount = context_.recipe.amounts[index];
    for (const auto& portion : amount.portions) {
      Pour pour = start(portion.use, model::Role::amount, true, index);
      pour.measured = measured_of(amount.quantity, context_.units, amount.as_written);
      pour.measured.form = amount.form;
      pour.measured.until = amount.until;
      pour.measured.parts = portion.parts;
      pour.optional = amount.optional;
      put_words(pour, portion.use);
      if (amount.form != Amount::Form::measured) {
        std::string target = wording::target_of(amount, context_);
        pour.amount = pour.amount.empty() ? target : fmt::format("{}: {}", target, pour.amount);
        pour.first_amount =
            pour.first_amount.empty() ? target : fmt::format("{}: {}", target, pour.first_amount);
      }
      put_temperature(pour, amount);
      for (const auto& use : amount.alternatives)
        pour.remarks.push_back("or " + analysis::name_of(use, context_.specs, context_.units));
      if (amount.sealed) pour.remarks.emplace_back("sealed");
      for (const auto& note : amount.notes) pour.remarks.push_back(note);
      if (!amount.text.empty()) pour.remarks.push_back(base::collapse_space(amount.text));
      if (begun_) group_.push_back({meaning_of(portion.use), pour.name});
      if (in_glass_ && !context_.is_prep) sheet_.into_glass.push_back(pour.identity);
      sheet_.pours.push_back(std::move(pour));
    }
  }

  void put_temperature(Pour& pour, const Amount& amount) const {
    const auto& house = context_.specs.house;
    if (amount.chilled)
      pour.temperature_c = house.fridge_c, pour.temperature_words = "chilled";
    else if (amount.frozen)
      pour.temperature_c = house.freezer_c, pour.temperature_words = "frozen";
    else if (amount.temperature)
      pour.temperature_c = amount.temperature->number();
    if (amount.hot) pour.temperature_words = "hot";
    if (amount.temperature && pour.temperature_words.empty())
      pour.temperature_words = "at " + wording::text_of(*amount.temperature, context_.units);
  }

  void add_poured(const Step& step, std::size_t index) {
    auto role = role_of(step.verb);
    if (!role || !step.use) return;
    Pour pour = start(*step.use, *role, false, index);
    if (step.amount) {
      pour.measured = measured_of(*step.amount, context_.units, step.as_written);
    } else if (step.count) {
      pour.measured.value = pour.measured.number = *step.count;
    } else {
      pour.measured.by_eye = true;
    }
    if (garnishes(step) || step.verb == Verb::rim) {
      pour.amount = step.amount ? wording::text_of(*step.amount, context_.units) : std::string();
      pour.first_amount = pour.amount;
    } else {
      put_words(pour, *step.use);
    }
    for (const auto& note : step.notes) pour.remarks.push_back(note);
    if (step.kept) pour.remarks.emplace_back("kept");
    if (garnishes(step) && !step.text.empty()) pour.remarks.push_back(base::collapse_space(step.text));
    sheet_.pours.push_back(std::move(pour));
  }

  void add_step(const Step& step, std::size_t index) {
    bool pours = role_of(step.verb).has_value() && step.use;
    Meaning meaning;
    meaning.add(analysis::info(step.verb).name);
    meaning.add("time", step.time);
    meaning.add("temperature", step.temperature);
    meaning.add("within", step.within);
    meaning.add("target", step.target);
    if (step.share) meaning.add("share", *step.share);
    if (!pours) {
      // What is poured is compared with the build, with its amount and its notes.
      meaning.add("amount", step.amount);
      if (step.count) meaning.add("count", *step.count);
      for (const auto& note : step.notes) meaning.add(note);
    }
    if (step.use) meaning.add(meaning_of(*step.use));
    if (step.ice) {
      meaning.add(base::fold_name(context_.specs[step.ice->ice].head.name));
      meaning.add("ice", step.ice->amount);
    }
    meaning.add(base::collapse_space(step.words));
    if (step.to_tin) meaning.add("to tin");
    if (!step.text.empty()) meaning.add(base::collapse_space(step.text));
    one_step_.order = {{false, static_cast<std::uint32_t>(index), false}};
    wording::RecipeContext context{context_.specs, context_.units,  one_step_,       context_.entries,
                                   context_.show,  context_.serves, context_.is_prep};
    auto sentences = wording::method_lines(context);
    if (sentences.empty()) return;
    sheet_.method.push_back(
        {meaning.text(), std::string(analysis::info(step.verb).name), sentences.front().sentence});
  }

  /// What is added between two steps is a step. Its amounts are the build's affair, and so is their order in
  /// a shaker.
  void close_group() {
    if (group_.empty()) return;
    std::vector<std::string> names;
    for (const auto& [meaning, name] : group_) names.push_back(name);
    std::sort(group_.begin(), group_.end());
    Meaning meaning;
    meaning.add("add");
    for (const auto& [one, name] : group_) meaning.add(one);
    sheet_.method.push_back({meaning.text(), "add", fmt::format("Add {}.", base::join_with_and(names))});
    group_.clear();
  }

  Sheet& sheet_;
  const wording::RecipeContext& context_;
  const Identities& same_;
  analysis::Recipe one_step_;
  std::vector<wording::BuildLine> lines_;
  std::size_t next_line_ = 0;
  /// What is added since the last step: its meaning and its name.
  std::vector<std::pair<std::string, std::string>> group_;
  bool built_ = false, in_glass_ = false, begun_ = false;
};

}  // namespace

void SheetMaker::add_recipe(Sheet& sheet, const analysis::Recipe& recipe,
                            const std::vector<model::Entry>& entries, double serves, bool is_prep) const {
  wording::RecipeContext context{
      snapshot_.specs, snapshot_.units, recipe, entries, is_prep ? prep_columns_ : drink_columns_,
      serves,          is_prep};
  RecipeReader(sheet, context, same_).build();
}

}  // namespace gill::diff
