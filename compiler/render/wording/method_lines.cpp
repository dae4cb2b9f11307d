#include "render/wording/method_lines.h"

#include <fmt/format.h>

#include <cmath>

#include "analysis/groups.h"
#include "base/percent.h"
#include "base/text.h"
#include "render/wording/build_lines.h"
#include "render/wording/measures.h"
#include "render/wording/numbers.h"

namespace gill::render::wording {

using analysis::Amount;
using analysis::Step;
using analysis::Verb;
using units::Kind;

namespace {

/// The text as a sentence: a capital in front, a full stop behind.
std::string as_sentence(std::string text) {
  text = base::capitalised(std::move(text));
  if (!text.empty() && std::string_view(".!?").find(text.back()) == std::string_view::npos) text += '.';
  return text;
}

std::string times_words(double count) {
  if (count == 1) return "once";
  if (count == 2) return "twice";
  return trimmed(count, 1) + " times";
}

/// Verbs that come before anything stands in the vessel: they do not part the amounts.
bool prepares_glass(const Step& step) {
  return step.verb == Verb::build || step.verb == Verb::rinse || step.verb == Verb::rim;
}

class MethodWriter {
 public:
  explicit MethodWriter(const RecipeContext& context) : context_(context) {}

  std::vector<MethodLine> write() {
    bool begun = false;
    const auto& order = context_.recipe.order;
    for (std::size_t i = 0; i < order.size(); ++i) {
      if (order[i].is_amount) {
        if (begun)
          group_.push_back(order[i].index);
        else
          first_group_.push_back(order[i].index);
        continue;
      }
      const Step& step = context_.recipe.steps[order[i].index];
      if (step.garnish_none) continue;
      close_group();
      add({as_sentence(words(step, order[i].index)), step.text, step.verb == Verb::garnish, step.verb});
      begun |= !prepares_glass(step);
    }
    close_group();
    if (context_.is_prep && has_later_amounts_) say_what_comes_first();
    return std::move(lines_);
  }

 private:
  void add(MethodLine line) { lines_.push_back(std::move(line)); }

  /// What is added between steps, as one sentence.
  void close_group() {
    if (group_.empty()) return;
    has_later_amounts_ = true;
    std::vector<std::string> plain;
    for (auto index : group_) {
      const Amount& amount = context_.recipe.amounts[index];
      if (amount.form == Amount::Form::measured) {
        plain.push_back(amount_with_name(context_, amount.quantity, amount.use()));
      } else {
        add_plain(plain);
        add({as_sentence(solved_words(amount, index)), {}, false});
      }
    }
    add_plain(plain);
    group_.clear();
  }

  void add_plain(std::vector<std::string>& plain) {
    if (!plain.empty()) add({"Add " + base::join_with_and(plain) + ".", {}, false});
    plain.clear();
  }

  std::string solved_words(const Amount& amount, std::size_t index) const {
    std::vector<std::string> parts;
    for (const auto& portion : amount.portions) {
      std::string name = analysis::name_of(portion.use, context_.specs, context_.units);
      const auto* entry = entry_of(context_, true, index, portion.use);
      parts.push_back(entry ? solved_amount(*entry) + name : name);
    }
    std::string verb = amount.form == Amount::Form::fill ? "fill" : "add";
    if (amount.form == Amount::Form::fill)
      return fmt::format("fill up to {} with {}", text_of(amount.quantity, context_.units),
                         base::join_with_and(parts));
    return fmt::format("add {}, {}", base::join_with_and(parts), target_of(amount, context_));
  }

  /// `about 41.3 g ` of an amount that was evaluated.
  std::string solved_amount(const model::Entry& entry) const {
    bool liquid = context_.specs[entry.use.stock].effective_form() == analysis::Form::liquid;
    auto unit = context_.units.find(liquid ? "ml" : "g");
    const auto& value = liquid ? entry.volume_ml : entry.mass_g;
    if (!value || !unit.valid()) return {};
    return "about " + text_of(measure_in(*value * context_.serves, context_.units[unit])) + " ";
  }

  void say_what_comes_first() {
    std::vector<std::string> names;
    for (auto index : first_group_)
      for (const auto& portion : context_.recipe.amounts[index].portions)
        names.push_back(analysis::name_of(portion.use, context_.specs, context_.units));
    if (!names.empty())
      lines_.insert(lines_.begin(), {"Start with " + base::join_with_and(names) + ".", {}, false});
  }

  std::string name(const Step& step) const {
    return step.use ? analysis::name_of(*step.use, context_.specs, context_.units) : step.words;
  }

  std::string amount_and_name(const Step& step) const {
    if (!step.use) return step.amount ? text_of(*step.amount, context_.units) + " " + step.words : step.words;
    return step.amount ? amount_with_name(context_, *step.amount, *step.use) : name(step);
  }

  std::string quantity(const std::optional<units::Quantity>& value) const {
    return value ? text_of(*value, context_.units) : std::string();
  }

  /// The sentence without its notes: verb, what, how long, with what.
  std::string bare_words(const Step& step, std::size_t index) const {
    switch (step.verb) {
      case Verb::throw_:
      case Verb::roll:
      case Verb::charge:
        return fmt::format("{} {}", analysis::info(step.verb).name, times_words(step.count.value_or(1)));
      case Verb::build:
        return "build in the glass";
      case Verb::add_ice:
        // How much is not said where nobody measures it: the glass is filled.
        return step.ice && step.ice->amount
                   ? "add " + ice_words(*step.ice, context_)
                   : "fill with " + (step.ice ? ice_words(*step.ice, context_) : std::string("ice"));
      case Verb::strain:
      case Verb::double_strain:
      case Verb::fine_strain:
        return strain_words(step);
      case Verb::dump:
        return "dump into the glass, ice and all";
      case Verb::rinse:
        return rinse_words(step);
      case Verb::top:
        return top_words(step, index);
      case Verb::mist:
        return fmt::format("mist {} with {}", times_words(step.count.value_or(1)), name(step));
      case Verb::rim:
        return fmt::format("rim {}the glass with {}", step.half ? "half of " : "", name(step));
      case Verb::flame:
        return step.use ? fmt::format("flame {} over the drink", name(step)) : "flame";
      case Verb::smoke:
        return "smoke with " + name(step);
      case Verb::garnish:
        return "garnish with " + amount_and_name(step);
      case Verb::side:
        return fmt::format("serve {} beside it", amount_and_name(step));
      case Verb::serve:
        return "serve " + step.words;
      case Verb::do_:
        return step.words;
      case Verb::clarify:
        return step.use ? "clarify with " + name(step) : "clarify";
      case Verb::remove:
        return remove_words(step);
      case Verb::reduce:
        return reduce_words(step);
      case Verb::bottle:
        return bottle_words(step);
      case Verb::muddle:
      case Verb::dry_shake:
      case Verb::shake:
      case Verb::whip:
      case Verb::stir:
      case Verb::swizzle:
      case Verb::churn:
      case Verb::blend:
      case Verb::float_:
      case Verb::layer:
      case Verb::heat:
      case Verb::carbonate:
      case Verb::rest:
      case Verb::dissolve:
      case Verb::cool:
      case Verb::simmer:
      case Verb::infuse:
      case Verb::steep:
      case Verb::macerate:
      case Verb::chill:
      case Verb::freeze:
      case Verb::thaw:
      case Verb::ferment:
      case Verb::dehydrate:
      case Verb::skim:
      case Verb::decant:
      case Verb::press:
        break;
    }
    std::string words(analysis::info(step.verb).name);
    if (step.use || !step.words.empty()) words += " " + amount_and_name(step);
    return words;
  }

  std::string strain_words(const Step& step) const {
    std::string verb(analysis::info(step.verb).name);
    if (step.to_tin) return verb + " back into the tin";
    return context_.is_prep ? verb : verb + " into the glass";
  }

  std::string rinse_words(const Step& step) const {
    std::string with = amount_and_name(step);
    return fmt::format("rinse the glass with {}{}", with,
                       step.kept ? " and leave it in" : " and tip out the rest");
  }

  std::string top_words(const Step& step, std::size_t index) const {
    if (step.amount || !step.use) return "top with " + amount_and_name(step);
    const auto* entry = entry_of(context_, false, index, *step.use);
    std::string about;
    auto unit = context_.units.find("ml");
    if (entry && entry->volume_ml && unit.valid())
      about = ", about " + text_of(measure_in(round_to_pour(*entry->volume_ml), context_.units[unit]));
    return fmt::format("top with {} up to the line{}", name(step), about);
  }

  /// What is poured by eye is told to 5 ml. Common practice.
  static double round_to_pour(double volume_ml) { return std::round(volume_ml / 5) * 5; }

  std::string remove_words(const Step& step) const {
    std::string kept =
        step.share && *step.share > 0
            ? fmt::format(" ({} % of it stays in)", trimmed(base::percent_of_share(*step.share), 1))
            : std::string();
    return fmt::format("remove {}{}", name(step), kept);
  }

  std::string reduce_words(const Step& step) const {
    if (step.target) return "reduce to " + quantity(step.target);
    if (step.share) return fmt::format("reduce by {} %", trimmed(base::percent_of_share(*step.share), 1));
    return "reduce";
  }

  std::string bottle_words(const Step& step) const {
    return step.amount ? "bottle in " + quantity(step.amount) : std::string("bottle");
  }

  /// The whole step: words, temperature, time, ice and the writer's notes.
  std::string words(const Step& step, std::size_t index) const {
    std::string text = bare_words(step, index);
    if (step.verb == Verb::carbonate && step.target) text += " to " + quantity(step.target) + " of gas";
    bool goes_to = step.verb == Verb::heat || step.verb == Verb::cool || step.verb == Verb::chill;
    if (step.temperature && goes_to) text += " to " + quantity(step.temperature);
    if (step.time) text += (goes_to ? " for " : step.verb == Verb::do_ ? ", " : " ") + quantity(step.time);
    if (step.temperature && !goes_to) text += " at " + quantity(step.temperature);
    if (step.within) text += " within " + quantity(step.within);
    if (step.ice && step.verb != Verb::add_ice) text += " with " + ice_words(*step.ice, context_);
    for (const auto& note : step.notes) text += ", " + note;
    return text;
  }

  const RecipeContext& context_;
  std::vector<std::uint32_t> first_group_, group_;
  std::vector<MethodLine> lines_;
  bool has_later_amounts_ = false;
};

std::string plural_of(const std::string& name) {
  bool is_thing = !name.ends_with('s') && !name.ends_with("ed");
  return is_thing ? name + "s" : name;
}

/// `crushed` and `cubed` say how the ice is; other names say what it is.
std::string kind_of_ice(const std::string& name) {
  bool says_ice = base::fold_name(name).find("ice") != std::string::npos;
  return name.ends_with("ed") && !says_ice ? name + " ice" : name;
}

}  // namespace

std::vector<MethodLine> method_lines(const RecipeContext& context) { return MethodWriter(context).write(); }

std::string ice_words(const analysis::IceUse& ice, const RecipeContext& context) {
  const std::string& name = context.specs[ice.ice].head.name;
  if (!ice.amount) return kind_of_ice(name);
  std::string measure = text_of(*ice.amount, context.units);
  if (ice.amount->kind != Kind::count) return measure + " " + kind_of_ice(name);
  bool is_single = ice.amount->number() <= 1 && !ice.amount->is_range;
  if (ice.ice == analysis::usual_ice(context.specs)) {
    // `4 cubes` says it already.
    if (ice.amount->unit.valid()) return measure;
    return measure + (is_single ? " cube" : " cubes");
  }
  return measure + " " + (is_single ? name : plural_of(name));
}

std::string served_on_words(const model::ServedIce& ice, const RecipeContext& context) {
  switch (ice.kind) {
    case model::ServedIce::Kind::none:
      return "no ice";
    case model::ServedIce::Kind::ice:
      return ice_words(ice.use, context);
    case model::ServedIce::Kind::shakers:
      return "the shaker's ice";
    case model::ServedIce::Kind::blended:
      return "blended in";
  }
  return {};
}

namespace {

/// What a garnish line calls its thing: the line's own words where they say all of its name and more (`grated
/// nutmeg`), else its name.
std::string garnish_name(const Step& step, const RecipeContext& context) {
  std::string name = analysis::name_of(*step.use, context.specs, context.units);
  std::string written = step.as_written.substr(0, step.as_written.find(','));
  auto space = written.find(' ');
  if (space == std::string::npos || !base::is_any_of(base::lower_ascii(written.substr(0, space)),
                                                     {std::string("garnish"), std::string("side")}))
    return name;
  written = std::string(base::trim(std::string_view(written).substr(space)));
  std::string folded = " " + base::fold_name(written) + " ";
  const bool says_more = folded.size() > name.size() + 2;
  return says_more && folded.find(" " + base::fold_name(name) + " ") != std::string::npos ? written : name;
}

}  // namespace

std::vector<GarnishLine> garnish_lines(const RecipeContext& context) {
  std::vector<GarnishLine> lines;
  for (const auto& line : context.recipe.order) {
    if (line.is_amount) continue;
    const Step& step = context.recipe.steps[line.index];
    const bool is_flamed = analysis::is_flamed_garnish(step, context.specs);
    if (step.verb != Verb::garnish && step.verb != Verb::side && !is_flamed) continue;
    GarnishLine garnish;
    garnish.is_none = step.garnish_none;
    garnish.is_unknown = step.unknown_garnish;
    garnish.is_side = step.verb == Verb::side;
    if (step.garnish_none) {
      garnish.words = "none, on purpose";
    } else if (step.use) {
      garnish.stock = step.use->stock;
      garnish.words =
          step.amount ? amount_with_name(context, *step.amount, *step.use) : garnish_name(step, context);
    } else {
      garnish.words = step.amount ? text_of(*step.amount, context.units) + " " + step.words : step.words;
    }
    if (is_flamed) garnish.words += ", flamed";
    for (const auto& note : step.notes) garnish.words += ", " + note;
    lines.push_back(std::move(garnish));
  }
  return lines;
}

}  // namespace gill::render::wording
