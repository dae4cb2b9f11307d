#include "render/wording/build_lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "render/wording/numbers.h"

namespace gill::render::wording {

using analysis::Amount;
using analysis::Step;
using analysis::Use;
using analysis::Verb;
using units::Kind;

namespace {

// A top to the line is poured by eye: it is told to 5 ml. Common practice.
constexpr double top_step_ml = 5;

bool states_tolerance(const std::string& as_written) {
  return as_written.find("±") != std::string::npos || as_written.find("+-") != std::string::npos;
}

bool is_ounce(const Unit& unit) { return unit.kind == Kind::volume && unit.symbol.ends_with("oz"); }

class BuildLineWriter {
 public:
  explicit BuildLineWriter(const RecipeContext& context) : context_(context) {
    for (auto id : context.show) has_mass_column_ |= context.units[id].kind == Kind::mass;
  }

  void add_amount(std::size_t index) {
    const Amount& amount = context_.recipe.amounts[index];
    for (const auto& portion : amount.portions) {
      BuildLine line = start(portion.use);
      const auto* entry = entry_of(context_, true, index, portion.use);
      if (amount.form == Amount::Form::measured) {
        put_quantity(line, amount.quantity, amount.second, entry, portion.use);
        if (states_tolerance(amount.as_written)) add_tolerance(line, amount.quantity);
        line.is_about = base::fold_name(amount.as_written).starts_with("about");
      } else {
        put_entry(line, entry, 1);
        line.remarks.push_back(target_of(amount, context_));
      }
      for (auto& remark : remarks_of(amount, context_)) line.remarks.push_back(std::move(remark));
      if (&portion == &amount.portions.back()) line.text = amount.text;
      lines_.push_back(std::move(line));
    }
  }

  void add_step(std::size_t index) {
    const Step& step = context_.recipe.steps[index];
    if (!step.use) return;
    std::string remark = remark_of(step);
    if (remark.empty()) return;
    BuildLine line = start(*step.use);
    const auto* entry = entry_of(context_, false, index, *step.use);
    line.remarks.push_back(std::move(remark));
    if (step.verb == Verb::mist) {
      double sprays = step.count.value_or(1) * context_.scale;
      line.whole = Measure{trimmed(sprays, 1), sprays > 1 ? "sprays" : "spray"};
    } else if (step.amount) {
      put_quantity(line, *step.amount, {}, entry, *step.use);
    } else if (step.verb == Verb::rinse) {
      line.whole = Measure{"rinse", {}};
    } else {
      put_entry(line, entry, top_step_ml);
      line.is_about = line.is_solved;
    }
    for (const auto& note : step.notes) line.remarks.push_back(note);
    lines_.push_back(std::move(line));
  }

  std::vector<BuildLine> take() { return std::move(lines_); }

 private:
  /// What a step that pours something is called beside its amount; empty for the others.
  static std::string remark_of(const Step& step) {
    if (step.verb == Verb::top) return step.amount ? "to top" : "to top, up to the line";
    if (step.verb == Verb::float_) return "floated";
    if (step.verb == Verb::layer) return "layered";
    if (step.verb == Verb::rinse) return step.kept ? "in the glass first, and kept" : "in the glass first";
    return step.verb == Verb::mist ? "misted over" : "";
  }

  BuildLine start(const Use& use) const {
    BuildLine line;
    line.columns.resize(context_.show.size());
    line.converted.resize(context_.show.size());
    line.stock = use.stock;
    line.name = analysis::name_of(use, context_.specs, context_.units);
    return line;
  }

  void put_quantity(BuildLine& line, const Quantity& quantity, const std::optional<Quantity>& second,
                    const model::Entry* entry, const Use& use) const {
    switch (quantity.kind) {
      case Kind::volume:
        put_volume(line, quantity, second, entry);
        return;
      case Kind::mass:
        put_mass(line, quantity, second, entry);
        return;
      case Kind::part:
        put_entry(line, entry, 0);
        line.is_solved = false;
        line.remarks.insert(line.remarks.begin(), text_of(quantity, context_.units));
        return;
      case Kind::count:
      case Kind::time:
      case Kind::temperature:
      case Kind::strength:
      case Kind::mass_concentration:
      case Kind::mass_fraction:
      case Kind::density:
      case Kind::gas:
      case Kind::pressure:
      case Kind::energy:
      case Kind::money:
      case Kind::share:
      case Kind::length:
        put_count(line, quantity, entry, use);
        return;
    }
  }

  void put_volume(BuildLine& line, const Quantity& quantity, const std::optional<Quantity>& second,
                  const model::Entry* entry) const {
    const Unit* unit = quantity.unit.valid() ? &context_.units[quantity.unit] : nullptr;
    if (unit && is_loose(*unit)) {
      line.whole = as_given(quantity);
      return;
    }
    bool is_column = fill_columns(line, quantity, second, entry);
    bool said = is_column || !unit || is_metric_volume(*unit) || is_ounce(*unit);
    if (!said) line.remarks.push_back(text_of(as_given(quantity)));
  }

  void put_mass(BuildLine& line, const Quantity& quantity, const std::optional<Quantity>& second,
                const model::Entry* entry) const {
    if (has_mass_column_) {
      fill_columns(line, quantity, second, entry);
    } else {
      line.whole = as_given(quantity);
    }
  }

  /// True when the amount was given in one of the columns' units: that one is printed as it stands.
  bool fill_columns(BuildLine& line, const Quantity& quantity, const std::optional<Quantity>& second,
                    const model::Entry* entry) const {
    bool is_column =
        std::find(context_.show.begin(), context_.show.end(), quantity.unit) != context_.show.end();
    for (std::size_t i = 0; i < context_.show.size(); ++i) {
      auto id = context_.show[i];
      const Unit& unit = context_.units[id];
      bool is_second = second && second->unit == id;
      if (quantity.unit == id || is_second) {
        line.columns[i] = as_given(quantity.unit == id ? quantity : *second);
        continue;
      }
      line.converted[i] = is_column;
      line.columns[i] = unit.kind == quantity.kind ? measure_converted(times(quantity, context_.scale), unit)
                                                   : from_entry(entry, unit);
    }
    return is_column;
  }

  void put_count(BuildLine& line, const Quantity& quantity, const model::Entry* entry, const Use& use) const {
    line.whole = as_given(quantity);
    line.name =
        quantity.unit.valid() && use.item.valid()
            ? context_.specs[use.stock].head.name
            : counted_name(context_, use, quantity.unit.valid() ? 1 : quantity.number() * context_.scale);
    const auto& stock = context_.specs[use.stock];
    if (!entry || context_.show.empty()) return;
    bool is_liquid = stock.effective_form() == analysis::Form::liquid;
    for (auto id : context_.show) {
      const Unit& unit = context_.units[id];
      bool applies = unit.kind == Kind::mass || (unit.kind == Kind::volume && is_liquid);
      auto measure = applies ? from_entry(entry, unit) : std::nullopt;
      if (!measure) continue;
      line.remarks.push_back("about " + text_of(*measure));
      return;
    }
  }

  /// An amount that was evaluated, in every column; `step_ml` rounds volumes to what is poured by eye.
  void put_entry(BuildLine& line, const model::Entry* entry, double step_ml) const {
    line.is_solved = true;
    bool any = false;
    for (std::size_t i = 0; i < context_.show.size(); ++i) {
      line.columns[i] = from_entry(entry, context_.units[context_.show[i]], step_ml);
      any |= line.columns[i].has_value();
    }
    if (any) return;
    auto grams = context_.units.find("g");
    if (entry && entry->mass_g && grams.valid())
      line.whole = measure_in(*entry->mass_g * context_.times(), context_.units[grams]);
    else
      line.whole = Measure{"not worked out", {}};
  }

  Measure as_given(const Quantity& quantity) const {
    return measure_times(quantity, context_.scale, context_.units);
  }

  std::optional<Measure> from_entry(const model::Entry* entry, const Unit& unit, double step_ml = 0) const {
    if (!entry) return std::nullopt;
    const auto& value = unit.kind == Kind::mass ? entry->mass_g : entry->volume_ml;
    if (!value || (unit.kind != Kind::mass && unit.kind != Kind::volume)) return std::nullopt;
    // A solid is weighed: what room its pieces take says nothing to whoever measures it.
    bool liquid = context_.specs[entry->use.stock].effective_form() == analysis::Form::liquid;
    if (unit.kind == Kind::volume && !liquid) return std::nullopt;
    double amount = *value * context_.times();
    if (step_ml > 1 && unit.kind == Kind::volume) amount = std::round(amount / step_ml) * step_ml;
    return measure_in(amount, unit);
  }

  void add_tolerance(BuildLine& line, const Quantity& quantity) const {
    if (!quantity.tolerance || !quantity.unit.valid()) return;
    std::string width = " ± " + trimmed(*quantity.tolerance * context_.scale /
                                            base::to_double(context_.units[quantity.unit].factor),
                                        2);
    if (line.whole) line.whole->number += width;
    for (std::size_t i = 0; i < context_.show.size(); ++i)
      if (context_.show[i] == quantity.unit && line.columns[i]) line.columns[i]->number += width;
  }

  const RecipeContext& context_;
  bool has_mass_column_ = false;
  std::vector<BuildLine> lines_;
};

}  // namespace

std::string target_of(const Amount& amount, const RecipeContext& context) {
  bool is_total = amount.form == Amount::Form::fill;
  std::string value = is_total ? text_of(measure_times(amount.quantity, context.scale, context.units))
                               : text_of(amount.quantity, context.units);
  switch (amount.form) {
    case Amount::Form::measured:
      return {};
    case Amount::Form::fill:
      return "up to " + value;
    case Amount::Form::until:
      break;
  }
  switch (amount.until) {
    case analysis::UntilProperty::acid:
      return "until the acid is " + value;
    case analysis::UntilProperty::sugar:
      return "until the sugar is " + value;
    case analysis::UntilProperty::strength:
      return "until the strength is " + value;
  }
  return {};
}

std::vector<std::string> remarks_of(const Amount& amount, const RecipeContext& context) {
  std::vector<std::string> remarks;
  if (amount.chilled) remarks.emplace_back("chilled");
  if (amount.frozen) remarks.emplace_back("frozen");
  if (amount.hot) remarks.emplace_back("hot");
  bool by_word = amount.chilled || amount.frozen || amount.hot;
  if (amount.temperature && !by_word) remarks.push_back("at " + text_of(*amount.temperature, context.units));
  if (amount.sealed) remarks.emplace_back("sealed");
  for (const auto& note : amount.notes) remarks.push_back(note);
  for (const auto& use : amount.alternatives)
    remarks.push_back("or " + analysis::name_of(use, context.specs, context.units));
  if (amount.optional) remarks.emplace_back("optional");
  return remarks;
}

std::vector<BuildLine> build_lines(const RecipeContext& context) {
  BuildLineWriter maker(context);
  for (const auto& line : context.recipe.order)
    line.is_amount ? maker.add_amount(line.index) : maker.add_step(line.index);
  return maker.take();
}

}  // namespace gill::render::wording
