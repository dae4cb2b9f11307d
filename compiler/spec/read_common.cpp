#include <fmt/format.h>

#include <cmath>

#include "base/text.h"
#include "spec/declaration_reader.h"

namespace gill::spec {

using diagnostics::Rule;
using syntax::ItemKind;
using units::Kind;

bool DeclarationReader::read_allow(LineReader& reader) {
  if (!reader.take_word("allow")) return false;
  const auto& line = reader.line();
  std::size_t at = reader.at();
  std::string name = reader.done() ? std::string() : std::string(line.text(at));
  auto rule = diagnostics::find_rule(base::lower_ascii(name));
  if (!rule) {
    base::NearestWord nearest(base::lower_ascii(name));
    for (auto known : diagnostics::all_rules()) nearest.consider(diagnostics::info(known).name, diagnostics::info(known).name);
    reader.fail(Rule::unknown_word, reader.done() ? line.whole() : line.span(at), fmt::format("no rule is called `{}`", name),
                nearest.best() ? fmt::format("Did you mean `{}`?", *nearest.best())
                               : "Write the rule's name as findings print it in square brackets.");
    return true;
  }
  auto group = diagnostics::info(*rule).group;
  if (group == diagnostics::RuleGroup::language ||
      (group == diagnostics::RuleGroup::units && diagnostics::info(*rule).severity == diagnostics::Severity::error)) {
    reader.fail(Rule::bad_line, line.span(at), fmt::format("`{}` cannot be allowed: the spec cannot be read with it", name),
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
  // Longest first: `fortified wine` before `wine`.
  for (std::size_t n = 2; n >= 1; --n) {
    if (first + n > reader.line().size()) continue;
    std::string words = base::lower_ascii(base::collapse_space(reader.line().raw(first, first + n)));
    for (std::size_t i = 0; i < choices.size(); ++i)
      if (words == choices[i]) return reader.move_to(first + n), i;
  }
  std::string word = base::lower_ascii(base::collapse_space(reader.line().raw(first, reader.comma_or_end())));
  base::NearestWord nearest(word);
  for (auto choice : choices) nearest.consider(choice, choice);
  reader.fail(Rule::unknown_word, reader.line().span(first, std::max(first + 1, reader.comma_or_end())),
              fmt::format("{} is not `{}`", subject, word),
              nearest.best() ? fmt::format("Did you mean `{}`? {}", *nearest.best(), help) : help);
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

std::vector<std::string> read_allergen_codes(LineReader& reader) {
  std::vector<std::string> codes;
  while (!reader.failed() && !reader.done()) {
    std::size_t end = reader.comma_or_end();
    std::string code;
    for (std::size_t i = reader.at(); i < end; ++i) {
      ItemKind kind = reader.line().kind(i);
      if (kind == ItemKind::colon) {
        code += ':';
      } else if (kind == ItemKind::word) {
        if (!code.empty() && code.back() != ':') code += ' ';
        code += base::fold_name(reader.line().text(i));
      } else {
        reader.fail(Rule::bad_line, reader.line().span(i), "an allergen is one or two words",
                    "Write `egg`, `nuts: almond` or another word.");
        return codes;
      }
    }
    std::size_t first = reader.at();
    reader.move_to(end);
    reader.take_comma();
    if (code.empty()) continue;
    static const std::vector<std::pair<std::string_view, std::string_view>> vague = {
        {"gluten", "Write the cereal: `cereals: wheat`, `cereals: rye`, `cereals: barley` or `cereals: oats`."},
        {"dairy", "Write `milk`."},
        {"shellfish", "Write `crustaceans` or `molluscs`."},
        {"nuts", "Write which nut: `nuts: almond`, `nuts: hazelnut` …"},
        {"cereals", "Write which cereal: `cereals: wheat`, `cereals: rye`, `cereals: barley` or `cereals: oats`."},
    };
    for (const auto& [word, help] : vague)
      if (code == word) {
        reader.fail(Rule::unknown_word, reader.line().span(first, end),
                    fmt::format("`{}` does not say which allergen is meant", code), std::string(help));
        return codes;
      }
    codes.push_back(std::move(code));
  }
  return codes;
}

std::string_view name_of(Property property) {
  static constexpr std::string_view names[] = {"strength", "sugar",       "acid", "balance", "volume", "dilution",
                                               "temperature", "cost",     "energy", "units", "allergens", "vegan"};
  return names[static_cast<std::size_t>(property)];
}

std::optional<Expect> read_expect(LineReader& reader) {
  Expect expect;
  expect.span = reader.line().whole();
  std::vector<std::string_view> choices;
  for (int i = 0; i <= static_cast<int>(Property::vegan); ++i) choices.push_back(name_of(static_cast<Property>(i)));
  auto choice = read_choice(reader, "what is expected", choices);
  if (!choice) return std::nullopt;
  expect.property = static_cast<Property>(*choice);
  std::optional<Quantity> range;
  switch (expect.property) {
    case Property::strength: range = reader.quantity({Kind::strength}, "a strength"); break;
    case Property::sugar: range = reader.quantity({Kind::mass_concentration, Kind::mass_fraction}, "sugar"); break;
    case Property::acid: range = reader.quantity({Kind::mass_concentration, Kind::mass_fraction}, "acid"); break;
    case Property::volume: range = reader.quantity({Kind::volume}, "a volume"); break;
    case Property::dilution: range = reader.quantity({Kind::share}, "dilution"); break;
    case Property::temperature: range = reader.quantity({Kind::temperature}, "a temperature"); break;
    case Property::cost: range = reader.quantity({Kind::money}, "a cost"); break;
    case Property::energy: range = reader.quantity({Kind::energy}, "energy"); break;
    case Property::balance: range = reader.plain_number("balance"); break;
    case Property::units:
      range = reader.plain_number("alcohol units");
      reader.take_word("units");
      break;
    case Property::allergens:
      if (!reader.take_word("none")) expect.allergens = read_allergen_codes(reader);
      return reader.expect_end("expect allergens egg, milk") ? std::optional(expect) : std::nullopt;
    case Property::vegan: {
      auto vegan = read_yes_no(reader, "vegan");
      if (!vegan) return std::nullopt;
      expect.vegan = *vegan;
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
  if (!reader.done() && line.kind(reader.at()) == ItemKind::colour) {
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
  if (reader.line().kind(first) == ItemKind::number && reader.line().is_word(first + 1, "x")) {
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
    reader.fail(Rule::bad_number, reader.line().span(first, reader.at()), "a pack and its price are above nothing",
                "Correct the number.");
    return std::nullopt;
  }
  if (reader.take_word("from")) buy.supplier = reader.name(reader.comma_or_end(), "supplier");
  if (reader.take_comma() && reader.take_word("code")) buy.code = reader.words(reader.comma_or_end());
  buy.span = reader.line().span(first, reader.at());
  if (!reader.expect_end("PACK for PRICE from SUPPLIER, code CODE")) return std::nullopt;
  return buy;
}

void report_unknown_line(LineReader& reader, const std::vector<std::string_view>& words, bool with_verbs, bool in_prep) {
  const auto& line = reader.line();
  const auto& units = reader.context().units;
  auto raw = [&](std::size_t first, std::size_t last) { return base::collapse_space(line.raw(first, last)); };
  if (line.kind(0) == ItemKind::curly_string) {
    reader.fail(Rule::bad_line, line.span(0), "names stand in straight quotes, not typographic ones",
                "Use the plain double quote \".");
    return;
  }
  if (with_verbs) {
    // `a barspoon of absinthe`
    if ((line.is_word(0, "a") || line.is_word(0, "an") || line.is_word(0, "one")) && line.size() > 1) {
      auto match = units.match(line, 1);
      std::size_t rest = 1 + match.items;
      if (line.is_word(rest, "of")) ++rest;
      if (match.unit.valid() && rest < line.size()) {
        reader.fail(Rule::bad_line, line.span(0, rest), "an amount begins with a number",
                    fmt::format("Write `1 {} {}`.", units[match.unit].symbol, raw(rest, line.size())));
        return;
      }
    }
    // `juice of 1/2 lime`
    if (line.is_word(0, "juice") && line.is_word(1, "of") && units::QuantityReader::begins_quantity(line, 2)) {
      std::size_t at = 2;
      auto number = reader.quantities().read_number(at);
      if (!number) {
        reader.close();
        return;
      }
      std::string fruit = raw(at, line.size());
      std::string help = fmt::format("Write the volume: `15 ml {} juice`.", fruit);
      if (auto use = find_use(reader, at, line.size()))
        for (const auto& gives : reader.context().specs[use->stock].gives)
          if (gives.quantity.kind == Kind::volume && gives.what.stock.valid())
            help = fmt::format("Write `{} ml {}`.", base::to_decimal(gives.quantity.value * number->value, 1),
                               reader.context().specs[gives.what.stock].head.name);
      reader.fail(Rule::bad_line, line.whole(), "fruits differ, so juice is written as a volume", help);
      return;
    }
    // `pinch salt`
    auto match = units.match(line, 0);
    if (match.unit.valid() && match.items < line.size()) {
      std::size_t rest = match.items + (line.is_word(match.items, "of") ? 1 : 0);
      reader.fail(Rule::bad_line, line.span(0, match.items), "an amount begins with a number",
                  fmt::format("Write `1 {} {}`.", units[match.unit].symbol, raw(rest, line.size())));
      return;
    }
    // `hard shake`: the verb comes first, how after a comma.
    for (std::size_t i = 1; i < line.size(); ++i) {
      auto verb = match_verb(line, i);
      if (!verb || (in_prep ? !info(verb->verb).in_prep : !info(verb->verb).in_drink)) continue;
      std::string rest = raw(i + verb->items, line.size());
      if (i + verb->items >= line.size() && info(verb->verb).time == VerbInfo::Time::should) rest = "12 s";
      reader.fail(Rule::unknown_word, line.span(0, i), fmt::format("`{}` starts no line", raw(0, i)),
                  fmt::format("Write the step first and how after a comma: `{}{}{}, {}`.", info(verb->verb).name,
                              rest.empty() ? "" : " ", rest, raw(0, i)));
      return;
    }
  }
  std::string word = line.size() > 0 ? base::lower_ascii(line.text(0)) : std::string();
  std::string two = line.size() > 1 ? word + " " + base::lower_ascii(line.text(1)) : word;
  base::NearestWord nearest(word), nearest_two(two);
  auto consider = [&](std::string_view known) {
    nearest.consider(known, known);
    if (known.find(' ') != std::string_view::npos) nearest_two.consider(known, known);
  };
  for (auto known : words) consider(known);
  if (with_verbs)
    for (const auto& verb : all_verbs())
      if (in_prep ? verb.in_prep : verb.in_drink) consider(verb.name);
  auto best = nearest_two.best() && !nearest.best() ? nearest_two.best() : nearest.best();
  std::string help;
  if (best)
    help = fmt::format("Did you mean `{}`?", *best);
  else if (with_verbs)
    help = "A line is an amount (`60 ml London dry gin`), a property (`glass coupe`) or a step (`shake 12 s`).";
  else
    help = fmt::format("The lines here are {}.", base::join_with_and(std::vector<std::string>(words.begin(), words.end())));
  Span span = line.size() > 0 ? line.span(0) : line.whole();
  bool colon = line.kind(1) == ItemKind::colon && line.size() > 1;
  reader.fail(Rule::unknown_word, span, fmt::format("`{}` is no line of this declaration", line.size() > 0 ? std::string(line.text(0)) : ""),
              colon ? help + " No colon stands after a keyword." : help);
}

}  // namespace gill::spec
