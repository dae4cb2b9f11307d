#include <fmt/format.h>

#include <algorithm>

#include "analysis/groups.h"
#include "analysis/read_recipe.h"
#include "analysis/remark.h"
#include "base/text.h"

namespace gill::analysis {

using diagnostics::Rule;
using syntax::TokenKind;
using units::Kind;
using units::QuantityReader;

namespace {

std::string subject_of(const VerbInfo& verb) {
  return fmt::format("{} {}", base::article(verb.name), verb.name);
}

/// `cubes`, `large cubes`, `crushed ice`: the ice's name in the plural or with `ice` behind it.
DeclarationId find_ice(const symbols::SymbolTable& names, std::string name) {
  auto id = names.find(symbols::NameSpace::ice, name);
  if (!id.valid() && base::fold_name(name).ends_with(" ice"))
    id = find_ice(names, name.substr(0, name.size() - 4));
  if (!id.valid() && name.ends_with('s'))
    id = names.find(symbols::NameSpace::ice, name.substr(0, name.size() - 1));
  return id;
}

class StepReader {
 public:
  StepReader(LineReader& reader, VerbMatch match) : reader_(reader), verb_(info(match.verb)) {
    step_.verb = match.verb;
    step_.span = reader.line().whole();
    step_.verb_span = reader.line().span(0, match.tokens);
    step_.as_written = base::collapse_space(reader.line().raw(0, reader.line().size()));
    reader.move_to(match.tokens);
  }

  std::optional<Step> read() {
    bool read = verb_.takes_words ? read_words() : read_parts();
    if (!read || reader_.failed()) return std::nullopt;
    if (lacks_amount())
      return reader_.fail(
                 Rule::bad_line, step_.verb_span, fmt::format("{} says how much", subject_of(verb_)),
                 verb_.verb == Verb::mist
                     ? fmt::format("Write `mist 2 {}`.",
                                   base::collapse_space(reader_.context().sources.text(step_.use->span)))
                     : fmt::format("Write `{0} 15 ml {1}` or `{0} 30 ml {1}`, or as much as it is.",
                                   verb_.name,
                                   base::collapse_space(reader_.context().sources.text(step_.use->span)))),
             std::nullopt;
    if (verb_.name_slot == VerbInfo::Name::must && !step_.use && !step_.unknown_garnish &&
        !step_.garnish_none)
      return reader_.fail(Rule::bad_line, step_.verb_span,
                          fmt::format("{} needs to say of what", subject_of(verb_)),
                          fmt::format("Write `{} NAME`.", verb_.name)),
             std::nullopt;
    if (pours() && step_.use && !reader_.context().specs[step_.use->stock].is_prep &&
        reader_.context().specs[step_.use->stock].effective_form() != Form::liquid) {
      const std::string& name = reader_.context().specs[step_.use->stock].head.name;
      return reader_.fail(Rule::wrong_kind, step_.use->span,
                          fmt::format("{} is poured, and `{}` is not a liquid", subject_of(verb_), name),
                          poured_instead(name)),
             std::nullopt;
    }
    return std::move(step_);
  }

 private:
  bool pours() const { return goes_on_top(verb_.verb) || verb_.verb == Verb::mist; }

  /// The liquids that are called after it: `ginger` may be ginger beer or ginger ale.
  std::string poured_instead(const std::string& name) const {
    const auto& context = reader_.context();
    std::vector<std::string> answers;
    for (std::string_view what : {" beer", " ale", " soda", " juice", " liqueur"}) {
      auto id = context.names.find(symbols::NameSpace::stock, name + std::string(what));
      if (id.valid()) answers.push_back(fmt::format("`{} {}`", verb_.name, context.names[id].name));
    }
    if (answers.size() > 1 && !step_.amount) return fmt::format("Write {}.", base::join_with_or(answers));
    return fmt::format("Name what is poured, or write it as `garnish {}`.", name);
  }

  bool lacks_amount() const {
    bool needs_one = verb_.verb == Verb::float_ || verb_.verb == Verb::layer || verb_.verb == Verb::mist;
    return needs_one && step_.use && !step_.amount && !step_.count;
  }

  /// `do WORDS[, TIME]`, `serve WORDS`.
  bool read_words() {
    const auto& line = reader_.line();
    std::size_t first = reader_.at(), end = line.size();
    if (first < end && line.kind(first) == TokenKind::colon) return report_colon(reader_), false;
    if (verb_.verb == Verb::do_) {
      for (std::size_t i = line.size(); i-- > first;) {
        if (line.kind(i) != TokenKind::comma) continue;
        if (ends_with_time(i + 1)) end = i;
        break;
      }
    }
    if (verb_.verb == Verb::serve && report_served_where()) return false;
    step_.named = uses_named(reader_, first, end);
    step_.words = reader_.words(end);
    if (reader_.failed()) return false;
    if (step_.words.size() > 1 && step_.words.front() == '"' && step_.words.back() == '"')
      step_.words = step_.words.substr(1, step_.words.size() - 2);
    if (step_.words.empty())
      return reader_.fail(Rule::bad_line, step_.verb_span,
                          fmt::format("`{}` is followed by words", verb_.name),
                          fmt::format("Write `{} …` with what is to be done.", verb_.name));
    if (reader_.take_comma()) step_.time = reader_.quantity({Kind::time}, "a step");
    return !reader_.failed();
  }

  /// `serve in a martini glass with sugar round it`: what lies on the drink is no word, or it would be lost.
  bool report_served_where() {
    const auto& line = reader_.line();
    const auto& names = reader_.context().names;
    constexpr std::size_t max_name_words = 4;
    for (std::size_t i = reader_.at(); i + 1 < line.size(); ++i) {
      bool in = line.is_word(i, "in") || line.is_word(i, "into"), over = line.is_word(i, "over");
      if (!in && !over) continue;
      for (std::size_t first = i + 1; first < std::min(line.size(), i + 4); ++first)
        for (std::size_t last = std::min(line.size(), first + max_name_words); last > first; --last) {
          std::size_t bad = 0;
          if (!syntax::is_plain_name(line, first, last, bad)) continue;
          auto id = names.find(in ? symbols::NameSpace::glass : symbols::NameSpace::ice,
                               syntax::name_text(line, first, last));
          bool ends = last == line.size() ||
                      (line.kind(last) == TokenKind::comma && is_plain_remark(reader_, last, line.size()));
          if (!id.valid() || ends) continue;
          return !reader_.fail(
              Rule::bad_line, line.span(i, last),
              fmt::format("`{}` says where the drink goes, and what follows would only be words",
                          base::collapse_space(line.raw(i, last))),
              fmt::format("What else is said has a line of its own; this one is `{} {}`.",
                          in ? "glass" : "ice", names[id].name));
        }
    }
    return false;
  }

  bool ends_with_time(std::size_t at) const {
    const auto& line = reader_.line();
    if (!QuantityReader::begins_quantity(line, at) || line.kind(at) == TokenKind::dots) return false;
    std::size_t unit_at = at + 1;
    if (line.kind(unit_at) == TokenKind::dots) ++unit_at;
    if (unit_at > at + 1 && line.kind(unit_at) == TokenKind::number) ++unit_at;
    auto match = reader_.context().units.match(line, unit_at);
    return match.unit.valid() && reader_.context().units[match.unit].kind == Kind::time &&
           unit_at + match.tokens == line.size();
  }

  bool read_parts() {
    while (!reader_.done() && !reader_.failed()) {
      if (reader_.take_comma()) {
        if (!read_note()) return false;
      } else if (!read_part()) {
        return false;
      }
    }
    return !reader_.failed();
  }

  bool read_part() {
    if (verb_.verb == Verb::garnish && reader_.at_word("none") && reader_.line().size() == reader_.at() + 1) {
      reader_.take_word("none");
      return step_.garnish_none = true;
    }
    if (verb_.verb == Verb::add_ice) {
      step_.ice = read_ice(reader_, reader_.comma_or_end());
      return step_.ice.has_value();
    }
    if (reader_.take_word("to")) return read_to();
    if (verb_.takes_temperature && reader_.take_word("at")) return read_temperature();
    if (verb_.time != VerbInfo::Time::never && reader_.take_word("for")) return read_time();
    if (verb_.verb == Verb::cool && reader_.take_word("within")) {
      step_.within = reader_.quantity({Kind::time}, "`within`");
      return step_.within.has_value();
    }
    if (verb_.takes_target && reader_.take_word("by")) {
      step_.share = reader_.share("a reduction");
      return step_.share.has_value();
    }
    if (reader_.at_word("with") && (verb_.takes_ice || verb_.name_slot != VerbInfo::Name::never))
      return read_with();
    if (reader_.at_quantity()) return read_quantity();
    if (verb_.name_slot != VerbInfo::Name::never) return read_name();
    return report_loose_words();
  }

  bool read_to() {
    if (strains(verb_.verb) && (reader_.take_word("tin") || reader_.take_words({"the", "tin"})))
      return step_.to_tin = true;
    if (verb_.takes_gas) {
      step_.target = reader_.quantity({Kind::gas}, subject_of(verb_));
      return step_.target.has_value();
    }
    if (verb_.takes_target) {
      step_.target = reader_.quantity({Kind::volume, Kind::mass}, subject_of(verb_));
      return step_.target.has_value();
    }
    if (verb_.takes_temperature) return read_temperature();
    return report_loose_words();
  }

  bool read_temperature() {
    step_.temperature = reader_.quantity({Kind::temperature}, subject_of(verb_));
    return step_.temperature.has_value();
  }

  bool read_time() {
    // `stir 30`: no bartender stirs for minutes.
    bool is_worked = verb_.usual_s > 0 || verb_.verb == Verb::dry_shake || verb_.verb == Verb::swizzle ||
                     verb_.verb == Verb::churn || verb_.verb == Verb::blend;
    const auto& line = reader_.line();
    std::size_t at = reader_.at();
    if (is_worked && line.kind(at) == TokenKind::number &&
        (at + 1 == line.size() || line.kind(at + 1) == TokenKind::comma))
      return reader_.fail(
          Rule::wrong_kind, line.span(at),
          fmt::format("{} takes a time, and {} has no unit", subject_of(verb_), line.text(at)),
          fmt::format("Write `{} s`.", line.text(at)));
    if (verb_.time == VerbInfo::Time::should && line.kind(at) == TokenKind::number &&
        (at + 1 == line.size() || line.kind(at + 1) == TokenKind::comma))
      return reader_.fail(
          Rule::wrong_kind, line.span(at),
          fmt::format("{} takes a time, and {} has no unit", subject_of(verb_), line.text(at)),
          fmt::format("Write `{0} {1} min` or `{0} {1} h`.", verb_.name, line.text(at)));
    step_.time = reader_.quantity({Kind::time}, subject_of(verb_));
    return step_.time.has_value();
  }

  bool read_with() {
    reader_.take_word("with");
    if (verb_.takes_ice) {
      step_.ice = read_ice(reader_, reader_.comma_or_end());
      return step_.ice.has_value();
    }
    return reader_.at_quantity() ? read_quantity() : read_name();
  }

  /// A quantity that stands right after the verb: which kinds fit depends on the verb.
  bool read_quantity() {
    if (verb_.takes_count) return read_count();
    if (verb_.name_slot != VerbInfo::Name::never &&
        (verb_.takes_amount || verb_.time == VerbInfo::Time::never))
      return read_amount_of_name();
    if (verb_.verb == Verb::bottle) {
      step_.amount = reader_.quantity({Kind::volume, Kind::mass}, "a bottle");
      return step_.amount.has_value();
    }
    // `heat 70 C`, `dehydrate 55 C 12 h`: `to` or `at` is left out.
    if (verb_.takes_temperature && !step_.temperature) {
      auto match = reader_.context().units.match(reader_.line(), reader_.at() + 1);
      if (match.unit.valid() && reader_.context().units[match.unit].kind == Kind::temperature)
        return read_temperature();
    }
    if (verb_.time != VerbInfo::Time::never) return read_time();
    std::size_t at = reader_.at();
    auto quantity = reader_.any_quantity();
    if (!quantity) return false;
    return reader_.fail(Rule::wrong_kind, reader_.line().span(at, reader_.at()),
                        fmt::format("{} takes no quantity, and {} is {}", subject_of(verb_),
                                    reader_.written(quantity->span), units::noun_of(quantity->kind)),
                        fmt::format("Write `{}` alone, with remarks after a comma.", verb_.name));
  }

  bool read_count() {
    std::size_t first = reader_.at();
    auto quantity = reader_.any_quantity();
    if (!quantity) return false;
    if (quantity->kind == Kind::volume && verb_.name_slot == VerbInfo::Name::must) {
      step_.amount = *quantity;
      return true;
    }
    if (quantity->kind != Kind::count || (quantity->unit.valid() && verb_.name_slot == VerbInfo::Name::never))
      return reader_.fail(Rule::wrong_kind, reader_.line().span(first, reader_.at()),
                          fmt::format("{} takes a count, and {} is {}", subject_of(verb_),
                                      reader_.written(quantity->span), units::noun_of(quantity->kind)),
                          fmt::format("Write `{} 6`, say.", verb_.name));
    step_.count = quantity->number();
    reader_.take_word("times");
    return true;
  }

  bool read_amount_of_name() {
    auto measured = read_measured(reader_, keeps_unknown() ? UnknownName::keep : UnknownName::report);
    if (!measured) return false;
    step_.amount = measured->quantity;
    if (measured->known) {
      step_.use = verb_.verb == Verb::garnish ? as_garnish(measured->use) : measured->use;
    } else {
      step_.unknown_garnish = true;
      step_.words = measured->words;
    }
    return true;
  }

  bool keeps_unknown() const { return verb_.verb == Verb::garnish || verb_.verb == Verb::side; }

  /// `garnish lemon zest or an olive`: which of them is nobody's guess.
  bool report_choice(std::size_t end) {
    const auto& line = reader_.line();
    for (std::size_t i = reader_.at() + 1; i + 1 < end; ++i) {
      if (!line.is_word(i, "or") && line.text(i) != "/") continue;
      auto skip = [&](std::size_t at) {
        return line.is_word(at, "a") || line.is_word(at, "an") || line.is_word(at, "with") ? at + 1 : at;
      };
      std::size_t first = skip(skip(reader_.at())), second = skip(i + 1);
      if (!find_use(reader_, first, i) || !find_use(reader_, second, end)) continue;
      return !reader_.fail(
          Rule::unknown_name, line.span(reader_.at(), end),
          "one of two things is put on, and a guest may not eat one of them",
          fmt::format("Write `{0} {1}` or `{0} {2}`, or a line for each.", verb_.name,
                      base::collapse_space(line.raw(first, i)), base::collapse_space(line.raw(second, end))));
    }
    return false;
  }

  bool read_name() {
    std::size_t end = name_end();
    if (keeps_unknown() && !find_use(reader_, reader_.at(), end) && report_choice(end)) return false;
    if (keeps_unknown() && !find_use(reader_, reader_.at(), end) &&
        !is_asked_about(reader_, reader_.at(), end)) {
      step_.unknown_garnish = true;
      Span span = reader_.line().span(reader_.at(), end);
      step_.words = reader_.name(end, "garnish");
      step_.verb_span = span;
      return !reader_.failed();
    }
    auto use = read_use(reader_, end);
    if (!use) return false;
    step_.use = verb_.verb == Verb::garnish ? as_garnish(*use) : *use;
    return true;
  }

  /// What the bar means by a thing that is only laid on: a cherry is a cocktail cherry (`mean garnish cherry
  /// = cocktail cherry`). A house that declares its own thing of that name means that.
  Use as_garnish(const Use& use) const {
    const auto& context = reader_.context();
    if (use.item.valid() || !context.specs[use.stock].head.from_library) return use;
    const auto& means = context.specs.house.means;
    auto meant = means.find("garnish " + base::fold_name(reader_.written(use.span)));
    if (meant == means.end()) return use;
    auto id = context.names.find(symbols::NameSpace::stock, meant->second);
    return id.valid() ? Use{StockId{context.specs.index_of[id.index()]}, {}, use.span} : use;
  }

  /// A name runs to the comma, or to a time that ends the line (`smoke applewood 20 s`).
  std::size_t name_end() const {
    std::size_t end = reader_.comma_or_end();
    if (verb_.time == VerbInfo::Time::never) return end;
    for (std::size_t i = reader_.at() + 1; i < end; ++i)
      if (ends_with_time(i)) return i;
    return end;
  }

  bool read_note() {
    std::size_t end = reader_.comma_or_end();
    if (end == reader_.at()) return true;
    if (verb_.verb == Verb::remove && reader_.take_word("keeping")) {
      step_.share = reader_.share("`keeping`");
      return step_.share.has_value();
    }
    // `top 100 ml water, at 95 C`: how warm it is poured.
    if (verb_.takes_amount && reader_.at_word("at") &&
        QuantityReader::begins_quantity(reader_.line(), reader_.at() + 1)) {
      reader_.take_word("at");
      return read_temperature();
    }
    if (verb_.verb == Verb::rinse && end == reader_.at() + 1 && reader_.take_word("kept"))
      return step_.kept = true;
    if (verb_.verb == Verb::rim && end == reader_.at() + 1 && reader_.take_word("half"))
      return step_.half = true;
    // `shake hard, 12 s`: a time or a temperature behind a comma is the step's own.
    if (verb_.time != VerbInfo::Time::never && !step_.time && ends_with_time(reader_.at()))
      return read_time();
    if (report_without_ice(end)) return false;
    // The filter is named as the bar calls it: `through a nut milk bag` holds no nuts.
    bool names_filter = reader_.at_word("through");
    auto remark = names_filter ? std::optional(reader_.words(end)) : read_remark(reader_, end);
    if (!remark || reader_.failed()) return false;
    step_.notes.push_back(*remark);
    return true;
  }

  /// `shake 10 s, no ice`: it may be the shake's or the glass's.
  bool report_without_ice(std::size_t end) {
    const auto& line = reader_.line();
    bool is_none =
        (reader_.at_word("no") || reader_.at_word("without")) && line.is_word(reader_.at() + 1, "ice");
    if (!is_none || reader_.at() + 2 != end) return false;
    std::string step = base::collapse_space(line.raw(0, reader_.at() - 1));
    std::string other = verb_.verb == Verb::shake
                            ? "dry " + base::collapse_space(line.raw(0, reader_.at() - 1))
                        : verb_.verb == Verb::dump ? std::string("strain")
                                                   : "do " + base::collapse_space(line.raw(0, end));
    if (verb_.verb == Verb::stir) other = "do stir without ice";
    std::erase(other, ',');
    return !reader_.fail(
        Rule::bad_line, line.span(reader_.at(), end),
        fmt::format("no ice could be said of the {} or of the glass", verb_.name),
        fmt::format("Write `{}` if it is done without ice, or `{}` with `ice none` on the next line if it is "
                    "served without.",
                    other, step));
  }

  bool report_loose_words() {
    std::size_t end = reader_.comma_or_end();
    std::string words = base::collapse_space(reader_.line().raw(reader_.at(), end));
    std::string before = base::collapse_space(reader_.line().raw(0, reader_.at()));
    Span span = reader_.line().span(reader_.at(), end);
    if (reader_.line().kind(reader_.at()) == TokenKind::colon) return report_colon(reader_), false;
    if (verb_.takes_gas)
      return reader_.fail(
          Rule::bad_line, span, "a pressure gives another fizz at every temperature",
          "Say how much gas is in it: `carbonate to 3 vol` for a light fizz, or `carbonate to 4 vol` "
          "for a sharp one.");
    // `infuse 24 h cold`: in the fridge, or only without heat.
    if (words == "cold" && verb_.takes_temperature && step_.time &&
        (verb_.verb == Verb::infuse || verb_.verb == Verb::steep || verb_.verb == Verb::macerate ||
         verb_.verb == Verb::rest)) {
      const auto& house = reader_.context().specs.house;
      return reader_.fail(
          Rule::bad_line, span, "cold could be in the fridge, or without heat",
          fmt::format("Write `{0} at {1:g} C` or `{0} at {2:g} C`.", before, house.fridge_c, house.room_c));
    }
    // `heat the milk`: how hot, nobody says.
    if (verb_.verb == Verb::heat && !step_.temperature)
      return reader_.fail(Rule::bad_line, span, "how hot it is heated is not said",
                          "Write `heat to 70 C`, or as hot as it is.");
    bool is_remark = is_plain_remark(reader_, reader_.at(), end) && words.find_first_of(",;+") == words.npos;
    return reader_.fail(Rule::bad_line, span, fmt::format("`{}` does not fit after `{}`", words, before),
                        is_remark
                            ? fmt::format("Put remarks after a comma: `{}, {}`.", before, words)
                            : std::string("What goes into the drink, its glass, its ice and every step have "
                                          "a line each."));
  }

  LineReader& reader_;
  const VerbInfo& verb_;
  Step step_;
};

}  // namespace

namespace {

/// `6 oz crushed`: weighed, or scooped in the measure. What is of the ice begins at `at`.
void report_ounce_of_ice(LineReader& reader, const Quantity& ounces, std::size_t at) {
  constexpr double ounce_g = 28.349523125;  // avoirdupois, by definition
  const auto& line = reader.line();
  std::string before = base::collapse_space(line.raw(0, reader.at())),
              behind = base::collapse_space(line.raw(line.is_word(at, "of") ? at + 1 : at, line.size()));
  auto as = [&](double number, std::string_view unit) {
    return base::collapse_space(fmt::format("{} {:.0f} {} {}", before, number, unit, behind));
  };
  reader.fail(
      Rule::unknown_unit, ounces.span, "an ounce of ice could be weighed or scooped",
      fmt::format(
          "Write `{}` by weight, or `{}` for what the measure holds.",
          as(ounces.number() / base::to_double(reader.context().units[ounces.unit].factor) * ounce_g, "g"),
          as(ounces.number(), "ml")));
}

}  // namespace

std::optional<IceUse> read_ice(LineReader& reader, std::size_t end) {
  const auto& line = reader.line();
  const auto& context = reader.context();
  IceUse ice;
  ice.span = line.span(reader.at(), end);
  std::string name(usual_ice_name);
  if (reader.at_quantity()) {
    std::size_t at = reader.at();
    auto number = reader.quantities().read_number(at);
    if (!number) return reader.close(), std::nullopt;
    auto match = context.units.match(line, at);
    if (match.unit.valid()) {
      reader.quantities().apply_unit(*number, match.unit);
      at += match.tokens;
    }
    number->span = line.span(reader.at(), at);
    // `1 cup crushed ice`: which cup is asked, as of anything else.
    if (!match.unit.valid() && line.kind(at) == TokenKind::word && at + 1 < end)
      if (auto unknown = context.units.explain_unknown(line.text(at)); !unknown.units.empty()) {
        std::vector<std::string> meant;
        for (const auto& unit : unknown.units)
          meant.push_back(
              fmt::format("`{}{} {} {}`",
                          base::collapse_space(line.raw(0, reader.at())).append(reader.at() > 0 ? " " : ""),
                          line.text(at - 1), unit, base::collapse_space(line.raw(at + 1, line.size()))));
        reader.fail(Rule::unknown_unit, line.span(at), unknown.message,
                    fmt::format("Write {}.", base::join_with_or(meant)));
        return std::nullopt;
      }
    if (number->kind != Kind::mass && number->kind != Kind::count && number->kind != Kind::volume) {
      reader.fail(Rule::wrong_kind, number->span,
                  fmt::format("ice is counted, weighed or scooped, and {} is {}",
                              reader.written(number->span), units::noun_of(number->kind)),
                  "Write `with 4 cubes` or `with 120 g crushed`.");
      return std::nullopt;
    }
    if (number->kind == Kind::volume && match.unit.valid() && context.units[match.unit].symbol == "oz")
      return report_ounce_of_ice(reader, *number, at), std::nullopt;
    ice.amount = *number;
    reader.move_to(line.is_word(at, "of") ? at + 1 : at);
  }
  std::size_t first = reader.at();
  if (first < end) {
    name = reader.name(end, "ice");
    if (reader.failed()) return std::nullopt;
    std::string folded = base::fold_name(name);
    if (folded == "cubes" || folded == "cube" || folded == "ice" || folded == "ice cubes")
      name = usual_ice_name;
  }
  auto id = find_ice(context.names, name);
  if (!id.valid()) {
    auto near = context.names.nearest(symbols::NameSpace::ice, name);
    reader.fail(Rule::unknown_name, first < end ? line.span(first, end) : ice.span,
                fmt::format("no ice is called `{}`", name),
                near ? fmt::format("Did you mean `{}`?", *near) : "Declare it: `ice NAME` with `each 30 g`.");
    return std::nullopt;
  }
  if (first < end) context.notes.name_uses.push_back({line.span(first, end), id});
  ice.ice = IceId{context.specs.index_of[id.index()]};
  return ice;
}

std::optional<Step> read_step(LineReader& reader, VerbMatch match, bool in_prep) {
  const VerbInfo& verb = info(match.verb);
  if (in_prep ? !verb.in_prep : !verb.in_drink) {
    reader.fail(Rule::unknown_word, reader.line().span(0, match.tokens),
                fmt::format("`{}` is a step of {}, not of {}", verb.name, in_prep ? "a drink" : "a prep",
                            in_prep ? "a prep" : "a drink"),
                fmt::format("Write it as words if it is meant here: `do {}`.",
                            base::collapse_space(reader.line().raw(0, reader.line().size()))));
    return std::nullopt;
  }
  return StepReader(reader, match).read();
}

}  // namespace gill::analysis
