#include <fmt/format.h>

#include <cmath>

#include "analysis/read_recipe.h"
#include "analysis/remark.h"
#include "analysis/typo.h"
#include "base/any_of.h"
#include "base/characters.h"
#include "base/text.h"

namespace gill::analysis {

using diagnostics::Rule;
using syntax::TokenKind;
using units::Kind;
using units::QuantityReader;

namespace {

bool find_stock_called(const LineReader& reader, const std::string& name) {
  return reader.context().names.find(symbols::NameSpace::stock, name).valid();
}

bool is_amount_kind(Kind kind) {
  return kind == Kind::volume || kind == Kind::mass || kind == Kind::count || kind == Kind::part;
}

/// `60 ml (2 oz) gin`: the second measure in brackets.
bool report_bracketed_measure(LineReader& reader, std::size_t first, std::size_t at) {
  const auto& line = reader.line();
  if (at >= line.size() || line.kind(at) != TokenKind::word || !line.text(at).starts_with("(")) return false;
  std::size_t close = at;
  while (close < line.size() && !line.text(close).ends_with(")")) ++close;
  if (close >= line.size()) return false;
  std::string inner = base::collapse_space(line.raw(at, close + 1));
  inner = inner.substr(1, inner.size() - 2);
  if (inner.empty() || !(base::is_digit(inner[0]) || inner[0] == '.')) return false;
  reader.fail(Rule::bad_line, line.span(first, close + 1), "a second measure follows `=`, not brackets",
              fmt::format("Write `{} = {}`.", base::collapse_space(line.raw(first, at)), inner));
  return true;
}

/// `60 mll gin`: the name is known without its first word, or that word is one slip away from a unit and the
/// rest is near a name; so it was meant as a unit. The cursor, at the number, goes past both, to the name.
bool report_misspelt_unit(LineReader& reader, std::size_t at, std::size_t end) {
  const auto& line = reader.line();
  if (end < at + 2 || line.kind(at) != TokenKind::word) return false;
  auto fix = reader.unit_fix(line.span(at), line.text(at));
  const auto& names = reader.context().names;
  std::size_t name_at = line.is_word(at + 1, "of") ? at + 2 : at + 1;
  bool is_unit =
      find_use(reader, name_at, end) || is_asked_about(reader, name_at, end) ||
      (fix && names.nearest(symbols::NameSpace::stock, base::collapse_space(line.raw(at + 1, end))));
  if (!is_unit) return false;
  auto unknown = reader.explain_unit(line.text(at));
  // What each meaning would be on this line.
  std::vector<std::string> meant;
  std::string name = base::collapse_space(line.raw(name_at, line.size()));
  if (line.kind(at - 1) == TokenKind::number)
    if (auto number = base::parse_exact(line.text(at - 1))) {
      for (const auto& unit : unknown.units)
        meant.push_back(fmt::format("`{} {} {}`", line.text(at - 1), unit, name));
      for (int ml : unknown.millilitres)
        meant.push_back(fmt::format("`{} ml {}`", base::to_decimal(*number * base::Exact(ml), 1), name));
    }
  if (!meant.empty())
    unknown.help = fmt::format(
        "Write {}, or say once what the house means: `{}`.", base::join_with_or(meant),
        unknown.units.empty()
            ? fmt::format("unit {} = {} ml", base::lower_ascii(line.text(at)), unknown.millilitres.front())
        : unknown.units.front().starts_with("us ")
            ? fmt::format("{} us", unknown.units.front().substr(3))
            : fmt::format("unit {} = 1 {}", base::lower_ascii(line.text(at)), unknown.units.front()));
  reader.mistake(Rule::unknown_unit, line.span(at), unknown.message, unknown.help, std::move(fix));
  reader.move_to(name_at);
  return true;
}

/// `8 hrs cold infusion`: the words behind the time say what is done for so long.
bool names_infusion(const syntax::LineView& line, std::size_t at) {
  for (; at < line.size(); ++at)
    if (std::string word = base::lower_ascii(line.text(at));
        word.starts_with("infus") || word.starts_with("macer"))
      return true;
  return false;
}

/// `3 days in the fridge`: which of the two it is, nobody says; both with their place.
std::string stands_or_keeps(const LineReader& reader, std::size_t at, const std::string& written) {
  const auto& line = reader.line();
  const auto& house = reader.context().specs.house;
  bool warm = false, frozen = false, cold = false;
  for (std::size_t i = at; i < line.size(); ++i) {
    warm = warm || line.is_word(i, "room") || line.is_word(i, "counter") || line.is_word(i, "ambient") ||
           line.is_word(i, "shelf") || line.is_word(i, "bench");
    frozen = frozen || line.is_word(i, "freezer") || line.is_word(i, "frozen");
    cold = cold || line.is_word(i, "fridge") || line.is_word(i, "refrigerated") || line.is_word(i, "chilled");
  }
  std::string rest = fmt::format("rest {}", written);
  if (frozen) rest = fmt::format("freeze {}", written);
  if (cold || warm) rest += fmt::format(" at {:g} C", cold ? house.fridge_c : house.room_c);
  return fmt::format("Write `{}` where it stands so long, or `keeps {} {}` where it keeps so long.", rest,
                     written,
                     frozen ? "frozen"
                     : warm ? "ambient"
                            : "chilled");
}

/// `2/3 dashes`: two thirds of one, which nobody doses, or two to three.
bool report_range_with_slash(LineReader& reader, std::size_t first, units::UnitId unit, std::size_t name_at,
                             std::size_t end) {
  const auto& line = reader.line();
  if (!unit.valid() || line.kind(first) != TokenKind::number || name_at >= end) return false;
  const std::string& symbol = reader.context().units[unit].symbol;
  std::string text(line.text(first));
  auto slash = text.find('/');
  if ((symbol != "dash" && symbol != "drop") || slash == std::string::npos) return false;
  auto low = base::parse_exact(text.substr(0, slash)), high = base::parse_exact(text.substr(slash + 1));
  if (!low || !high || *low < base::Exact(2) || !(*low < *high)) return false;
  std::string name = base::collapse_space(line.raw(name_at, end));
  return !reader.fail(Rule::bad_number, line.span(first, name_at),
                      fmt::format("`{}` could be a part of one, or so many to so many", text),
                      fmt::format("Write `{0}..{1} {2} {3}`, or `{4} {2} {3}`.", text.substr(0, slash),
                                  text.substr(slash + 1), symbol, name, base::to_decimal(*low / *high, 2)));
}

/// Reads the measure whose number stands at the cursor, and what follows it up to `end`, knowing that no name
/// does.
std::optional<Quantity> read_measure(LineReader& reader) {
  std::size_t first = reader.at(), at = first;
  auto quantity = reader.quantities().read(at);
  if (!quantity) return reader.close(), std::nullopt;
  reader.move_to(at);
  if (is_amount_kind(quantity->kind)) return quantity;
  std::string help = "Write it as `30 ml`, `20 g` or `2`.";
  const std::string written = reader.written(quantity->span);
  const auto& line = reader.line();
  // `7 day shelf life`, `2 days`: how long it keeps or stands, and nobody says where.
  if (quantity->kind == Kind::time && (line.is_word(at, "shelf") || line.is_word(at, "life")))
    help = fmt::format("Write `keeps {0} chilled` or `keeps {0} ambient`.", written);
  else if (quantity->kind == Kind::time && names_infusion(line, at))
    help = fmt::format("Write `infuse {}`.", written);
  else if (quantity->kind == Kind::time)
    help = stands_or_keeps(reader, at, written);
  reader.fail(Rule::wrong_kind, quantity->span,
              fmt::format("an amount is a volume, a mass or a count, and {} is {}", written,
                          units::noun_of(quantity->kind)),
              std::move(help));
  return std::nullopt;
}

/// `15 g Earl Grey`: leaves are weighed and tea is poured, so a weight of the brewed one is asked about.
bool report_weighed_tea(LineReader& reader, const Measured& measured, std::size_t first, std::size_t end) {
  if (measured.quantity.kind != Kind::mass) return false;
  const auto& stock = reader.context().specs[measured.use.stock];
  const std::string leaves = stock.head.name + " leaves";
  // A house knows what its own tea is.
  if (!stock.head.from_library || !stock.head.name.ends_with(" tea") ||
      !reader.context().names.find(symbols::NameSpace::stock, leaves).valid())
    return false;
  std::string weight = reader.written(measured.quantity.span);
  reader.fail(Rule::unknown_name, reader.line().span(first, end),
              fmt::format("a weight of `{}` could be the leaves or the brewed tea",
                          base::collapse_space(reader.line().raw(first, end))),
              fmt::format("Write `{} {}` for the leaves, or the volume of the brewed tea: `100 ml {}`.",
                          weight, leaves, stock.head.name));
  return true;
}

/// `1 oz cranberry`: what is poured of a fruit that nobody squeezes is one of its drinks, and there are
/// several.
bool report_poured_fruit(LineReader& reader, const Measured& measured, std::size_t first, std::size_t end) {
  const auto& stock = reader.context().specs[measured.use.stock];
  if (measured.quantity.kind != Kind::volume || measured.use.item.valid() ||
      (stock.kind != StockKind::fruit && stock.kind != StockKind::herb))
    return false;
  bool is_herb = stock.kind == StockKind::herb;
  for (const auto& gives : stock.gives)
    if (gives.what.stock.valid() && gives.quantity.kind == Kind::volume) return false;
  std::vector<std::string> meant;
  static constexpr std::string_view of_fruit[] = {" juice", " juice cocktail", " purée"},
                                    of_herb[] = {" cordial", " liqueur", " syrup"};
  for (std::string_view what : is_herb ? of_herb : of_fruit) {
    auto id = reader.context().names.find(symbols::NameSpace::stock, stock.head.name + std::string(what));
    if (id.valid())
      meant.push_back(
          fmt::format("`{} {}`", reader.written(measured.quantity.span), reader.context().names[id].name));
  }
  if (meant.size() < 2) return false;
  reader.fail(
      Rule::unknown_name, reader.line().span(first, end),
      fmt::format("`{}` is no liquid, and what is poured of it could be several things", stock.head.name),
      fmt::format("Write {}.", base::join_with_or(meant)));
  return true;
}

/// `10 ml sugar`: in a drink a bar pours syrup, and the word says sugar.
bool report_poured_sugar(LineReader& reader, const Measured& measured, std::size_t name_at, std::size_t end) {
  if (measured.quantity.kind != Kind::volume || !measured.quantity.unit.valid() || end != name_at + 1)
    return false;
  const std::string& unit = reader.context().units[measured.quantity.unit].symbol;
  const auto& stock = reader.context().specs[measured.use.stock];
  std::string written = reader.written(measured.quantity.span);
  // `1/4 oz demerara`: both the sugar and its syrup are called so.
  std::string word = base::collapse_space(reader.line().raw(name_at, end));
  bool is_poured = unit == "ml" || unit == "cl" || unit.ends_with("oz");
  if (is_poured && !reader.line().is_word(name_at, "sugar") && !stock.is_prep && stock.head.from_library &&
      stock.kind == StockKind::sweetener && stock.effective_form() != Form::liquid &&
      stock.head.name.ends_with(" sugar") && find_stock_called(reader, word + " syrup")) {
    std::string weighed = unit.ends_with("oz") ? reader.written(measured.quantity.span) + " wt" : written;
    reader.fail(Rule::unknown_name, reader.line().span(name_at, end),
                fmt::format("`{}` that is poured could be its syrup, or the sugar", word),
                fmt::format("Write `{} {} syrup`, or `{} {}`.", written, word, weighed, stock.head.name));
    return true;
  }
  if (!reader.line().is_word(name_at, "sugar")) return false;
  if (unit != "ml" && unit != "cl" && unit != "dash" && unit != "splash" && unit != "drop") return false;
  reader.fail(Rule::unknown_name, reader.line().span(name_at, end),
              "sugar that is poured could be syrup, or the sugar in a measure",
              fmt::format("Write `{0} simple syrup`, or `{0} white sugar`.", written));
  return true;
}

std::optional<Measured> finish(LineReader& reader, Measured measured, std::size_t end, UnknownName unknown) {
  if (reader.at() >= end) {
    reader.fail(Rule::bad_line, measured.quantity.span,
                fmt::format("{} of what?", reader.written(measured.quantity.span)),
                "Say what of, behind the amount.");
    return std::nullopt;
  }
  if (unknown == UnknownName::keep && !find_use(reader, reader.at(), end) &&
      !is_asked_about(reader, reader.at(), end)) {
    measured.known = false;
    measured.words = reader.words(end);
    return measured;
  }
  std::size_t name_at = reader.at();
  auto use = read_use(reader, end);
  if (!use) return std::nullopt;
  measured.use = *use;
  if (report_weighed_tea(reader, measured, name_at, end) ||
      report_poured_sugar(reader, measured, name_at, end) ||
      report_poured_fruit(reader, measured, name_at, end))
    return std::nullopt;
  // `8 leaves mint`: the item word is the unit.
  if (!use->item.valid() && measured.quantity.unit.valid() &&
      reader.context().units[measured.quantity.unit].is_item_word) {
    // `3 sticks of cinnamon` are cinnamon sticks.
    const auto& stock = reader.context().specs[use->stock];
    bool is_its_name = stock.head.from_library &&
                       stock.head.name.ends_with(" " + reader.context().units[measured.quantity.unit].symbol);
    if (is_its_name)
      measured.quantity.unit = {};
    else
      use->item = measured.quantity.unit;
  }
  measured.use = *use;
  return measured;
}

/// `30 lemon`, `.75 lime`: nobody writes a count of fruit so, and everybody writes juice so.
bool report_bare_fruit(LineReader& reader, const Measured& measured, std::size_t first, std::size_t name_at,
                       std::size_t end) {
  const auto& quantity = measured.quantity;
  const auto& stock = reader.context().specs[measured.use.stock];
  if (quantity.kind != Kind::count || quantity.unit.valid() || measured.use.item.valid() || quantity.is_range)
    return false;
  std::string juice;
  for (const auto& gives : stock.gives)
    if (gives.what.stock.valid() && gives.quantity.kind == Kind::volume)
      juice = reader.context().specs[gives.what.stock].head.name;
  // Nobody squeezes a cranberry, and everybody pours one of its drinks.
  bool is_poured = juice.empty();
  if (is_poured &&
      (stock.kind != StockKind::fruit ||
       !reader.context().names.find(symbols::NameSpace::stock, stock.head.name + " juice cocktail").valid()))
    return false;
  if (is_poured) juice = stock.head.name + " juice cocktail";
  const auto& line = reader.line();
  double number = quantity.number();
  // `12 limes` are limes, and so is `1/2 lime`.
  constexpr double fewest_millilitres = 10;
  bool is_plural = base::lower_ascii(line.text(end - 1)).ends_with('s');
  bool is_decimal = line.text(first).find('.') != std::string_view::npos;
  bool is_jigger = std::abs(number - 0.75) < 1e-9 || (is_decimal && std::abs(number - 0.5) > 1e-9);
  if (!is_jigger && (number < fewest_millilitres || is_plural)) return false;
  std::string written = base::to_decimal(quantity.value, 3),
              name = base::collapse_space(line.raw(name_at, end));
  std::string_view unit = number < fewest_millilitres ? "oz" : "ml";
  std::string plural = stock.head.name.ends_with("rry")
                           ? stock.head.name.substr(0, stock.head.name.size() - 1) + "ies"
                           : stock.head.name + "s";
  std::string pieces = is_jigger ? fmt::format("{} pieces {}", written, stock.head.name)
                                 : fmt::format("{} {}", written, plural);
  reader.fail(
      Rule::unknown_unit, line.span(first, end),
      fmt::format("`{} {}` could be {} {} of juice, or the fruit", written, name, written, unit),
      fmt::format("Write `{} {} {}` for the juice, or `{}` for the fruit.", written, unit, juice, pieces));
  return true;
}

/// `45 scotch 15 amaretto 25 lemon`: several amounts run together, and none has a unit.
bool report_run_of_amounts(LineReader& reader, std::size_t first) {
  const auto& line = reader.line();
  constexpr std::size_t most_words = 24;
  constexpr double fewest_millilitres = 10, most_ounces = 5;
  if (line.size() > most_words || first != 0) return false;
  std::vector<std::pair<std::string_view, std::string>> meant;
  bool all_millilitres = true, all_ounces = true;
  for (std::size_t i = 0; i < line.size();) {
    if (line.kind(i) != TokenKind::number) return false;
    auto number = base::parse_exact(line.text(i));
    std::size_t stop = i + 1;
    while (stop < line.size() && line.kind(stop) != TokenKind::number) ++stop;
    auto use = find_use(reader, i + 1, stop);
    if (!number || !use || use->item.valid()) return false;
    const auto& stock = reader.context().specs[use->stock];
    std::string name = base::collapse_space(line.raw(i + 1, stop));
    bool is_poured = stock.is_prep || stock.effective_form() == Form::liquid;
    for (const auto& gives : stock.gives)
      if (!is_poured && gives.what.stock.valid() && gives.quantity.kind == Kind::volume) {
        name = reader.context().specs[gives.what.stock].head.name;
        is_poured = true;
        break;
      }
    if (!is_poured) return false;
    double size = base::to_double(*number);
    all_millilitres = all_millilitres && size >= fewest_millilitres;
    all_ounces = all_ounces && size <= most_ounces;
    meant.emplace_back(line.text(i), std::move(name));
    i = stop;
  }
  if (meant.size() < 2 || all_millilitres == all_ounces) return false;
  std::vector<std::string> lines;
  for (const auto& [number, name] : meant)
    lines.push_back(fmt::format("`{} {} {}`", number, all_ounces ? "oz" : "ml", name));
  return !reader.fail(Rule::unknown_unit, line.whole(), "these are several amounts, and none has a unit",
                      fmt::format("Write {}, each on its own line.", base::join_with_and(lines)));
}

}  // namespace

std::optional<Measured> read_measured(LineReader& reader, UnknownName unknown) {
  const auto& line = reader.line();
  std::size_t first = reader.at(), end = reader.comma_or_end();
  Measured measured;
  // First the whole rest as a name (`1 sugar cube`), then a unit and a name, then a name and an item word (`8
  // mint leaves`).
  std::size_t at = first;
  auto number = reader.quantities().read_number(at);
  if (!number) return reader.close(), std::nullopt;
  std::size_t name_at = line.is_word(at, "of") ? at + 1 : at;
  auto whole = find_use(reader, name_at, end);
  auto match = reader.context().units.match(line, at);
  bool unit_fits = match.unit.valid() && find_use(reader, at + match.tokens, end);
  if (whole && (!whole->item.valid() || !unit_fits)) {
    if (whole->item.valid()) reader.quantities().apply_unit(*number, whole->item);
    measured.quantity = *number;
    measured.use = *whole;
    if (report_bare_fruit(reader, measured, first, name_at, end)) return std::nullopt;
    reader.move_to(end);
    return measured;
  }
  if (report_bracketed_measure(reader, first, at + match.tokens) || report_run_of_amounts(reader, first))
    return std::nullopt;
  if (!match.unit.valid() && line.kind(at) != TokenKind::equals && line.kind(at) != TokenKind::plus_minus &&
      !(line.kind(at) == TokenKind::word && units::is_currency_code(line.text(at))) &&
      report_misspelt_unit(reader, at, end)) {
    measured.quantity = *number;
    return finish(reader, std::move(measured), end, unknown);
  }
  if (report_range_with_slash(reader, first, match.unit, at + match.tokens, end)) return std::nullopt;
  auto quantity = read_measure(reader);
  if (!quantity) return std::nullopt;
  measured.quantity = *quantity;
  if (line.kind(reader.at()) == TokenKind::equals && !reader.done()) {
    reader.move_to(reader.at() + 1);
    if (!reader.at_quantity()) {
      reader.fail(Rule::bad_line, line.span(reader.at() - 1),
                  "a second measure follows `=`, and none stands here", "Write `60 ml = 2 oz gin`.");
      return std::nullopt;
    }
    measured.second = read_measure(reader);
    if (!measured.second) return std::nullopt;
  }
  if (!find_use(reader, reader.at(), end)) reader.take_word("of");
  return finish(reader, std::move(measured), end, unknown);
}

bool begins_amount(const syntax::LineView& line) {
  if (QuantityReader::begins_quantity(line, 0) || line.is_word(0, "until")) return true;
  return line.is_word(0, "to") && QuantityReader::begins_quantity(line, 1);
}

namespace {

/// `chilled`, `cold`, `well chilled`: from the fridge.
bool is_cold(const LineReader& reader, std::size_t end) {
  static constexpr std::string_view words[] = {"chilled",  "cold",      "ice-cold",   "well chilled",
                                               "ice cold", "very cold", "fridge cold"};
  return base::is_any_of(
      std::string_view(base::lower_ascii(base::collapse_space(reader.line().raw(reader.at(), end)))), words);
}

/// `, at 20 C`, `, chilled`, `, or maple syrup`, `, optional` and notes.
bool read_modifiers(LineReader& reader, Amount& amount) {
  while (reader.take_comma()) {
    std::size_t end = reader.comma_or_end();
    if (end == reader.at()) continue;
    bool single = end == reader.at() + 1;
    if (reader.at_word("at") && QuantityReader::begins_quantity(reader.line(), reader.at() + 1)) {
      reader.take_word("at");
      amount.temperature = reader.quantity({Kind::temperature}, "`at`");
      if (!amount.temperature) return false;
    } else if (is_cold(reader, end)) {
      reader.move_to(end);
      amount.chilled = true;
    } else if (single && reader.take_word("frozen")) {
      amount.frozen = true;
    } else if (single && reader.take_word("hot")) {
      amount.hot = true;
    } else if (single && reader.take_word("optional")) {
      amount.optional = true;
    } else if (single && reader.take_word("sealed")) {
      amount.sealed = true;
    } else if (reader.take_word("or")) {
      auto use = read_use(reader, end);
      if (reader.failed()) return false;
      if (use) amount.alternatives.push_back(*use);
    } else if (report_misspelt_modifier(reader, {"chilled", "frozen", "optional", "sealed"},
                                        "how it goes in")) {
      return false;
    } else {
      auto remark = read_remark(reader, end);
      if (!remark) return false;
      amount.notes.push_back(*remark);
    }
  }
  return reader.expect_end("AMOUNT INGREDIENT, NOTE");
}

std::optional<UntilProperty> read_until_property(LineReader& reader) {
  if (reader.take_word("acid")) return UntilProperty::acid;
  if (reader.take_word("sugar")) return UntilProperty::sugar;
  if (reader.take_word("strength")) return UntilProperty::strength;
  Span span = reader.done() ? reader.line().span(0) : reader.line().span(reader.at());
  reader.fail(Rule::unknown_word, span, "`until` brings acid, sugar or strength to a value",
              "Write `until acid 6 % w/v citric acid`, `until sugar 50 brix white sugar` or `until strength "
              "20 % abv water`.");
  return std::nullopt;
}

bool read_portions(LineReader& reader, Amount& amount) {
  if (!reader.at_quantity()) {
    auto use = read_use(reader, reader.comma_or_end());
    if (use) amount.portions.push_back({1, *use});
    return use.has_value();
  }
  while (true) {
    auto measured = read_measured(reader, UnknownName::report);
    if (!measured) return false;
    if (measured->quantity.kind != Kind::part)
      return reader.fail(Rule::wrong_kind, measured->quantity.span, "`until` shares out parts",
                         "Write `2 parts citric acid, 1 part malic acid`.");
    amount.portions.push_back({measured->quantity.number(), measured->use});
    std::size_t at = reader.at();
    if (!reader.take_comma() || !reader.at_quantity()) return reader.move_to(at), true;
  }
}

bool read_until(LineReader& reader, Amount& amount) {
  amount.form = Amount::Form::until;
  auto property = read_until_property(reader);
  if (!property) return false;
  amount.until = *property;
  auto target = *property == UntilProperty::strength
                    ? reader.quantity({Kind::strength}, "`until strength`")
                    : reader.quantity({Kind::mass_concentration, Kind::mass_fraction},
                                      *property == UntilProperty::acid ? "`until acid`" : "`until sugar`");
  if (!target) return false;
  amount.quantity = *target;
  amount.as_written = reader.written(reader.line().span(0, reader.at()));
  if (reader.done())
    return reader.fail(Rule::bad_line, reader.line().whole(), "`until` adds something, and nothing is named",
                       "Write what is added after the value: `until acid 6 % w/v citric acid`.");
  return read_portions(reader, amount);
}

bool read_fill(LineReader& reader, Amount& amount) {
  amount.form = Amount::Form::fill;
  auto total = reader.quantity({Kind::volume, Kind::mass}, "`to`");
  if (!total) return false;
  amount.quantity = *total;
  amount.as_written = reader.written(reader.line().span(0, reader.at()));
  auto use = read_use(reader, reader.comma_or_end());
  if (use) amount.portions.push_back({1, *use});
  return use.has_value();
}

bool read_plain(LineReader& reader, Amount& amount) {
  auto measured = read_measured(reader, UnknownName::report);
  if (!measured) return false;
  amount.quantity = measured->quantity;
  amount.second = measured->second;
  amount.portions.push_back({1, measured->use});
  auto span = reader.line().span(0, reader.line().size());
  span.end = measured->use.span.begin;
  // `8 mint leaves` keeps its item word with the number.
  amount.as_written = reader.written(span);
  return true;
}

}  // namespace

std::optional<Amount> read_amount(LineReader& reader) {
  Amount amount;
  amount.span = reader.line().whole();
  bool read = reader.take_word("until") ? read_until(reader, amount)
              : reader.take_word("to")  ? read_fill(reader, amount)
                                        : read_plain(reader, amount);
  // What comes after a name that nobody knows is looked at, too.
  if (!reader.failed()) reader.move_to(reader.comma_or_end());
  if (reader.failed() || !read_modifiers(reader, amount) || !read) return std::nullopt;
  return amount;
}

}  // namespace gill::analysis
