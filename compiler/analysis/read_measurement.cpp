// What a house measured of its drinks and preps, and what it makes of that for its hands.
#include <fmt/format.h>

#include "analysis/declaration_reader.h"
#include "base/any_of.h"

namespace gill::analysis {

using diagnostics::Rule;
using units::Kind;

namespace {

constexpr std::string_view drink_form = "measured 2026-09-12, 108 g before, 169 g after, -5 C, shake 12 s";
constexpr std::string_view prep_form = "measured 2026-09-12, 1240 g before, 1010 g after";

class MeasurementReader {
 public:
  MeasurementReader(LineReader& reader, bool in_prep) : reader_(reader), in_prep_(in_prep) {}

  std::optional<Measurement> read() {
    measured_.span = reader_.line().whole();
    auto date = reader_.date();
    if (!date) return std::nullopt;
    measured_.date = *date;
    while (!reader_.failed() && reader_.take_comma()) item();
    if (!reader_.expect_end(form())) return std::nullopt;
    if (!measured_.after && !measured_.temperature && !measured_.brix) {
      reader_.fail(Rule::bad_line, measured_.span, "nothing is measured here",
                   fmt::format("Write what came out, by weight or volume, its temperature or its brix: `{}`.",
                               form()));
      return std::nullopt;
    }
    return measured_;
  }

 private:
  std::string_view form() const { return in_prep_ ? prep_form : drink_form; }

  void item() {
    const auto& line = reader_.line();
    if (reader_.done()) return fail("an item is missing after the comma");
    if (line.kind(reader_.at()) == syntax::TokenKind::string) {
      measured_.words = reader_.string_or_rest("`measured`");
      return;
    }
    if (!in_prep_ && reader_.take_word("with")) {
      measured_.ice = read_ice(reader_, reader_.comma_or_end());
      return;
    }
    if (auto verb = match_verb(line, reader_.at()); verb && !in_prep_) {
      measured_.verb = verb->verb;
      reader_.move_to(reader_.at() + verb->tokens);
      if (auto time = reader_.quantity({Kind::time, Kind::count}, "how long it took")) measured_.time = *time;
      return;
    }
    if (!reader_.at_quantity()) return fail("this is no measurement");
    auto quantity = reader_.any_quantity();
    if (quantity && reader_.expect_known_unit(*quantity)) put(*quantity);
  }

  void put(const Quantity& quantity) {
    switch (quantity.kind) {
      case Kind::volume:
      case Kind::mass:
        return put_amount(quantity);
      case Kind::temperature:
        reader_.take_word("after");
        measured_.temperature = quantity;
        return;
      case Kind::mass_fraction:
        reader_.take_word("after");
        measured_.brix = quantity;
        return;
      case Kind::time:
        if (in_prep_) break;
        measured_.time = quantity;
        return;
      default:
        break;
    }
    reader_.fail(Rule::wrong_kind, quantity.span,
                 fmt::format("{} is not measured here", units::noun_of(quantity.kind)),
                 fmt::format("Write `{}`.", form()));
  }

  void put_amount(const Quantity& quantity) {
    if (!(quantity.number() > 0)) {
      reader_.fail(Rule::bad_number, quantity.span, "there was more than nothing of it",
                   fmt::format("Write `{}`.", form()));
      return;
    }
    if (reader_.take_word("before"))
      measured_.before = quantity;
    else if (reader_.take_word("after"))
      measured_.after = quantity;
    else
      reader_.fail(Rule::bad_line, quantity.span, "was that before or after?",
                   fmt::format("Write `{} before` or `{} after`.", reader_.written(quantity.span),
                               reader_.written(quantity.span)));
  }

  void fail(std::string message) {
    reader_.fail(Rule::bad_line, reader_.line().whole(), std::move(message),
                 fmt::format("Write `{}`.", form()));
  }

  LineReader& reader_;
  bool in_prep_;
  Measurement measured_;
};

}  // namespace

std::optional<Measurement> read_measurement(LineReader& reader, bool in_prep) {
  return MeasurementReader(reader, in_prep).read();
}

bool has_hands(Verb verb) {
  return base::is_any_of(verb, {Verb::shake, Verb::stir, Verb::whip, Verb::throw_, Verb::roll, Verb::swizzle,
                                Verb::churn, Verb::build});
}

void read_hands(LineReader& reader, House& house, bool) {
  constexpr std::string_view form = "hands shake melt 1.08 ± 0.06";
  constexpr double most = 5;
  auto verb = match_verb(reader.line(), reader.at());
  bool strains_off = verb && verb->verb == Verb::strain;
  if (!verb || (!strains_off && !has_hands(verb->verb))) {
    reader.fail(
        Rule::unknown_word, reader.line().whole(), "`hands` says how much a step melts, or a strain holds",
        fmt::format("Write `{}`, for shake, stir, build, swizzle, churn, throw, roll or whip; or `hands "
                    "strain hold 1.2 ± 0.2`.",
                    form));
    return;
  }
  reader.move_to(reader.at() + verb->tokens);
  if (!reader.take_word(strains_off ? "hold" : "melt")) {
    reader.fail(Rule::bad_line, reader.line().whole(),
                strains_off ? "a strain's solids hold liquid" : "this step melts ice",
                strains_off ? "Write `hands strain hold 1.2 ± 0.2`." : fmt::format("Write `{}`.", form));
    return;
  }
  auto factor = reader.quantity({Kind::count}, "`hands`");
  if (!factor || !reader.expect_known_unit(*factor) || !reader.expect_end(form)) return;
  double number = factor->number();
  if (!(number > 0) || number > most) {
    reader.fail(Rule::bad_number, factor->span, "the usual is 1, and no hands are this far from it",
                fmt::format("Write `{}`.", form));
    return;
  }
  Hand hand{number, std::nullopt};
  if (factor->tolerance) hand.width = *factor->tolerance / number;
  (strains_off ? house.strain_hand : house.hands[verb->verb]) = hand;
}

}  // namespace gill::analysis
