#include <fmt/format.h>

#include <cmath>

#include "analysis/declaration_reader.h"
#include "analysis/typo.h"
#include "base/text.h"

namespace gill::analysis {

using diagnostics::Rule;
using syntax::TokenKind;
using units::Kind;

bool DeclarationReader::read_allow(LineReader& reader) {
  if (!reader.take_word("allow")) return false;
  const auto& line = reader.line();
  std::size_t at = reader.at();
  if (!reader.done() && line.kind(at) == TokenKind::colon) {
    report_colon(reader);
    return true;
  }
  std::string name = reader.done() ? std::string() : std::string(line.text(at));
  auto rule = diagnostics::find_rule(base::lower_ascii(name));
  if (!rule) {
    base::NearestWord nearest(base::lower_ascii(name));
    for (auto known : diagnostics::all_rules())
      nearest.consider(diagnostics::info(known).name, diagnostics::info(known).name);
    reader.fail(Rule::unknown_word, reader.done() ? line.whole() : line.span(at),
                fmt::format("no rule is called `{}`", name),
                nearest.best() ? fmt::format("Did you mean `{}`?", *nearest.best())
                               : "Write the rule's name as findings print it in square brackets.");
    return true;
  }
  auto group = diagnostics::info(*rule).group;
  if (group == diagnostics::RuleGroup::language ||
      (group == diagnostics::RuleGroup::units &&
       diagnostics::info(*rule).severity == diagnostics::Severity::error)) {
    reader.fail(Rule::bad_line, line.span(at),
                fmt::format("`{}` cannot be allowed: the spec cannot be read with it", name),
                "Mend what it points at.");
    return true;
  }
  reader.move_to(at + 1);
  Allow allow{*rule, {}, line.whole()};
  if (reader.take_word("because") && !reader.done()) allow.reason = reader.string_or_rest("`because`");
  if (reader.failed()) return true;
  if (allow.reason.empty())
    reader.fail(Rule::no_reason, line.whole(), fmt::format("`{}` is allowed without a reason", name),
                fmt::format("Write `allow {} because \"…\"`, so that the next reader knows why.", name));
  else if (reader.expect_end("allow RULE because \"reason\""))
    head_.allows.push_back(std::move(allow));
  return true;
}

std::optional<std::size_t> read_choice(LineReader& reader, std::string_view subject,
                                       const std::vector<std::string_view>& choices) {
  if (reader.failed()) return std::nullopt;
  std::vector<std::string> shown;
  for (auto choice : choices) shown.emplace_back(choice);
  std::string help = fmt::format("Write {}.", base::join_with_or(shown));
  if (reader.done()) {
    reader.fail(Rule::bad_line, reader.line().whole(), fmt::format("{} needs a word", subject), help);
    return std::nullopt;
  }
  std::size_t first = reader.at();
  auto words = [&](std::size_t n) {
    return base::lower_ascii(base::collapse_space(reader.line().raw(first, first + n)));
  };
  // Longest first: `fortified wine` before `wine`.
  for (std::size_t n : {2u, 1u}) {
    if (first + n > reader.line().size()) continue;
    for (std::size_t i = 0; i < choices.size(); ++i)
      if (words(n) == choices[i]) return reader.move_to(first + n), i;
  }
  for (std::size_t n : {1u, 2u}) {
    if (first + n > reader.line().size()) break;
    base::NearestWord nearest(words(n));
    for (auto choice : choices) nearest.consider(choice, choice);
    if (!nearest.best()) continue;
    reader.fail(Rule::unknown_word, reader.line().span(first, first + n),
                fmt::format("{} is not `{}`", subject, words(n)),
                fmt::format("Did you mean `{}`? {}", *nearest.best(), help),
                word_fix(reader.line().span(first, first + n), words(n), choices, *nearest.best()));
    return std::nullopt;
  }
  reader.fail(Rule::unknown_word, reader.line().span(first), fmt::format("{} is not `{}`", subject, words(1)),
              help);
  return std::nullopt;
}

std::optional<bool> read_yes_no(LineReader& reader, std::string_view subject) {
  auto choice = read_choice(reader, subject, {"yes", "no"});
  if (!choice) return std::nullopt;
  return *choice == 0;
}

std::optional<Keeps> read_keeps(LineReader& reader) {
  auto duration = reader.quantity({Kind::time}, "`keeps`");
  if (!duration) return std::nullopt;
  Keeps keeps{*duration, Storage::ambient};
  if (!reader.done()) {
    auto storage = read_choice(reader, "where it is kept", {"ambient", "chilled", "frozen"});
    if (!storage) return std::nullopt;
    keeps.storage = static_cast<Storage>(*storage);
  }
  return keeps;
}

std::string_view name_of(Property property) {
  static constexpr std::string_view names[] = {"strength",  "sugar",       "acid",      "balance", "volume",
                                               "dilution",  "temperature", "cost",      "energy",  "units",
                                               "allergens", "vegan",       "vegetarian"};
  static_assert(std::size(names) == static_cast<std::size_t>(Property::vegetarian) + 1);
  return names[static_cast<std::size_t>(property)];
}

std::optional<Expect> read_expect(LineReader& reader) {
  Expect expect;
  expect.span = reader.line().whole();
  std::vector<std::string_view> choices;
  for (int i = 0; i <= static_cast<int>(Property::vegetarian); ++i)
    choices.push_back(name_of(static_cast<Property>(i)));
  auto choice = read_choice(reader, "what is expected", choices);
  if (!choice) return std::nullopt;
  expect.property = static_cast<Property>(*choice);
  std::optional<Quantity> range;
  switch (expect.property) {
    case Property::strength:
      range = reader.quantity({Kind::strength}, "`strength`");
      break;
    case Property::sugar:
      range = reader.quantity({Kind::mass_concentration, Kind::mass_fraction}, "`sugar`");
      break;
    case Property::acid:
      range = reader.quantity({Kind::mass_concentration, Kind::mass_fraction}, "`acid`");
      break;
    case Property::volume:
      range = reader.quantity({Kind::volume}, "`volume`");
      break;
    case Property::dilution:
      range = reader.quantity({Kind::share}, "`dilution`");
      break;
    case Property::temperature:
      range = reader.quantity({Kind::temperature}, "`temperature`");
      break;
    case Property::cost:
      range = reader.quantity({Kind::money}, "`cost`");
      break;
    case Property::energy:
      range = reader.quantity({Kind::energy}, "`energy`");
      break;
    case Property::balance:
      range = reader.plain_number("`balance`");
      break;
    case Property::units:
      range = reader.plain_number("`units`");
      reader.take_word("units");
      break;
    case Property::allergens:
      if (!reader.take_word("none")) expect.allergens = read_allergen_codes(reader);
      return reader.expect_end("expect allergens egg, milk") ? std::optional(expect) : std::nullopt;
    case Property::vegan:
    case Property::vegetarian: {
      auto is_so = read_yes_no(reader, fmt::format("`{}`", name_of(expect.property)));
      if (!is_so) return std::nullopt;
      expect.is_so = *is_so;
      return reader.expect_end("expect vegan yes") ? std::optional(expect) : std::nullopt;
    }
  }
  if (!range || !reader.expect_end("expect PROPERTY LOW..HIGH")) return std::nullopt;
  expect.range = *range;
  return expect;
}

std::string read_colour(LineReader& reader) {
  if (reader.failed()) return {};
  const auto& line = reader.line();
  if (!reader.done() && line.kind(reader.at()) == TokenKind::colour) {
    std::string text = base::lower_ascii(line.text(reader.at()));
    if (text.size() != 7 || text.find_first_not_of("0123456789abcdef", 1) != std::string::npos) {
      reader.fail(Rule::bad_line, line.span(reader.at()), fmt::format("`{}` is no colour", text),
                  "Write six digits: `#d98c2b`.");
      return {};
    }
    reader.move_to(reader.at() + 1);
    return text;
  }
  return base::lower_ascii(reader.name(line.size(), "colour"));
}

std::optional<Buy> read_buy(LineReader& reader) {
  Buy buy;
  std::size_t first = reader.at();
  // `6 x 700 ml`: a case.
  if (reader.line().kind(first) == TokenKind::number && reader.line().is_word(first + 1, "x")) {
    auto packs = reader.plain_number("a case");
    if (!packs) return std::nullopt;
    buy.packs = packs->number();
    reader.take_word("x");
  }
  auto pack = reader.quantity({Kind::volume, Kind::mass, Kind::count}, "a pack");
  if (!pack) return std::nullopt;
  buy.pack = *pack;
  if (!reader.take_word("for")) {
    reader.fail(Rule::bad_line, reader.line().whole(), "a pack has a price after `for`",
                "Write `700 ml for 28.50 EUR`.");
    return std::nullopt;
  }
  auto price = reader.money("a pack");
  if (!price) return std::nullopt;
  buy.price = *price;
  if (buy.price.amount < 0 || buy.pack.value <= 0 || buy.packs <= 0) {
    reader.fail(Rule::bad_number, reader.line().span(first, reader.at()),
                "a pack and its price are above nothing", "Correct the number.");
    return std::nullopt;
  }
  if (reader.take_word("from")) buy.supplier = reader.name(reader.comma_or_end(), "supplier");
  if (reader.take_comma() && reader.take_word("code")) buy.code = reader.words(reader.comma_or_end());
  buy.span = reader.line().span(first, reader.at());
  if (!reader.expect_end("PACK for PRICE from SUPPLIER, code CODE")) return std::nullopt;
  return buy;
}

}  // namespace gill::analysis
