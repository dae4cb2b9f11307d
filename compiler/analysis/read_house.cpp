#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "analysis/allergen_lists.h"
#include "analysis/declaration_reader.h"
#include "base/text.h"

namespace gill::analysis {

using diagnostics::Rule;
using units::Kind;

namespace {

/// `ask rum = white rum, aged rum` (the library's) and `mean rum = aged rum` (a house's answer): the word,
/// and the cursor after the `=`.
std::optional<std::string> read_word_that_asks(LineReader& reader) {
  std::size_t equals = reader.at();
  while (equals < reader.line().size() && reader.line().kind(equals) != syntax::TokenKind::equals) ++equals;
  if (equals == reader.at() || equals + 1 >= reader.line().size()) {
    reader.fail(Rule::bad_line, reader.line().whole(), "a word is followed by `=` and what is meant by it",
                "Write `mean rum = aged rum`.");
    return std::nullopt;
  }
  std::string word = base::fold_name(reader.name(equals, "word"));
  reader.move_to(equals + 1);
  if (reader.failed()) return std::nullopt;
  return word;
}

void read_ask(LineReader& reader, House& house, bool) {
  auto word = read_word_that_asks(reader);
  if (!word) return;
  auto& answers = house.asks[*word];
  answers.clear();
  do {
    std::string answer = reader.name(reader.comma_or_end(), "ingredient or prep");
    if (reader.failed()) return;
    answers.push_back(answer);
  } while (reader.take_comma());
}

void read_mean(LineReader& reader, House& house, bool) {
  auto word = read_word_that_asks(reader);
  if (!word) return;
  std::size_t first = reader.at();
  auto id = reader.declaration(symbols::NameSpace::stock, reader.line().size());
  if (id.valid()) house.means[*word] = base::collapse_space(reader.line().raw(first, reader.line().size()));
}

/// A temperature line of the house.
template <double House::*field>
void read_temperature(LineReader& reader, House& house, bool) {
  auto temperature = reader.quantity({Kind::temperature}, fmt::format("`{}`", reader.line().text(0)));
  if (temperature && reader.expect_end("fridge 4 C")) house.*field = temperature->number();
}

void read_measures(LineReader& reader, House& house, bool first) {
  if (first) house.measures.clear();
  do {
    auto measure = reader.quantity({Kind::volume}, "a measure");
    if (!measure) return;
    house.measures.push_back(*measure);
  } while (reader.take_comma());
  if (!reader.expect_end("measures 60 ml, 30 ml, 15 ml")) return;
  std::stable_sort(house.measures.begin(), house.measures.end(),
                   [](const Quantity& a, const Quantity& b) { return a.value > b.value; });
}

/// `show ml, oz`, `show preps g, ml`, `show drinks oz, ml`.
void read_show(LineReader& reader, House& house, bool) {
  bool preps = reader.take_word("preps");
  bool drinks = !preps && reader.take_word("drinks");
  std::vector<UnitId> shown;
  do {
    std::size_t end = reader.comma_or_end();
    if (end == reader.at()) {
      reader.fail(Rule::bad_line, reader.line().whole(),
                  "`show` lists the units of the printed columns, and one is missing",
                  "Write `show ml, oz`.");
      return;
    }
    auto match = reader.context().units.match(reader.line(), reader.at());
    if (!match.unit.valid() || reader.at() + match.tokens != end) {
      reader.fail(Rule::unknown_unit, reader.line().span(reader.at(), end),
                  "`show` lists the units of the printed columns", "Write `show ml, oz`.");
      return;
    }
    Kind kind = reader.context().units[match.unit].kind;
    if (kind != Kind::volume && kind != Kind::mass) {
      reader.fail(Rule::wrong_kind, reader.line().span(reader.at(), end),
                  fmt::format("a column shows volumes or masses, and this is {}", units::noun_of(kind)),
                  "Write `show ml, oz`.");
      return;
    }
    shown.push_back(match.unit);
    reader.move_to(end);
  } while (reader.take_comma());
  if (!reader.expect_end("show ml, oz")) return;
  if (!preps) house.show_drinks = shown;
  if (!drinks && (preps || house.show_preps.empty())) house.show_preps = shown;
}

void read_tax(LineReader& reader, House& house, bool) {
  auto rate = reader.share("a tax");
  if (!rate) return;
  auto how = read_choice(reader, "whether menu prices hold the tax", {"included", "added"});
  if (how && reader.expect_end("tax 20 % included")) house.tax = Tax{*rate, *how == 0};
}

/// The upper end of a range of shares; of a single number, the number.
std::optional<double> upper_share(LineReader& reader, std::string_view subject, bool lower) {
  auto range = reader.quantity({Kind::share}, subject);
  if (!range) return std::nullopt;
  double end = lower ? range->low : range->high;
  return std::isfinite(end) ? end : (lower ? range->high : range->low);
}

void read_rate(LineReader& reader, House& house, bool first) {
  if (first) house.rates.clear();
  auto from = reader.money("a rate");
  if (!from) return;
  if (reader.done() || reader.line().kind(reader.at()) != syntax::TokenKind::equals) {
    reader.fail(Rule::bad_line, reader.line().whole(), "a rate has an equals sign",
                "Write `rate 1 USD = 0.92 EUR`.");
    return;
  }
  reader.move_to(reader.at() + 1);
  auto to = reader.money("a rate");
  if (!to || !reader.expect_end("rate 1 USD = 0.92 EUR")) return;
  if (from->amount <= 0 || to->amount <= 0) {
    reader.fail(Rule::bad_number, reader.line().whole(), "a rate is above nothing",
                "Write `rate 1 USD = 0.92 EUR`.");
    return;
  }
  house.rates.push_back({from->currency, to->currency, to->amount / from->amount});
}

void read_code(LineReader& reader, std::string& code, std::size_t length, std::string_view form) {
  std::string word = reader.name(reader.line().size(), "code");
  if (reader.failed()) return;
  std::transform(word.begin(), word.end(), word.begin(), [](unsigned char c) { return std::toupper(c); });
  bool letters = std::all_of(word.begin(), word.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
  if (!letters || word.size() != length) {
    reader.fail(Rule::unknown_word, reader.line().span(1, reader.line().size()),
                fmt::format("`{}` is no such code", word), fmt::format("Write `{}`.", form));
    return;
  }
  code = word;
}

/// `allergen list EU`: a list that somebody wrote down, with its source.
void read_allergen_list(LineReader& reader, House& house, bool) {
  std::string name;
  read_code(reader, name, 2, "allergen list EU");
  if (reader.failed()) return;
  if (!find_allergen_list(name)) {
    reader.fail(
        Rule::unknown_word, reader.line().span(2, reader.line().size()),
        fmt::format("there is no allergen list for `{}` here", name),
        fmt::format("The lists are {}. Write the nearest one, and name what else your local code asks for on "
                    "the ingredients: any word may stand in an `allergen` line.",
                    allergen_list_names()));
    return;
  }
  house.allergen_list = name == "GB" ? "UK" : name;
}

/// `place GB`: a country, which decides on the cautions and limits that are cited.
void read_place(LineReader& reader, House& house, bool) {
  std::string code;
  read_code(reader, code, 2, "place GB");
  if (reader.failed()) return;
  if (!is_country_code(code)) {
    reader.fail(Rule::unknown_word, reader.line().span(1, reader.line().size()),
                fmt::format("`{}` is no country's code", code),
                code == "UK" ? "Write `place GB`, the United Kingdom's code of ISO 3166."
                             : "Write the two letters of ISO 3166: `place GB`, `place FR`, `place AU`.");
    return;
  }
  house.place = code;
}

void ignore(LineReader& reader, House&, bool) { reader.move_to(reader.line().size()); }

const std::vector<PropertyReader<House>> house_lines = {
    {"ask", read_ask},
    {"mean", read_mean},
    {"place", read_place},
    {"currency",
     [](LineReader& reader, House& house, bool) { read_code(reader, house.currency, 3, "currency EUR"); }},
    // What the house means by these is read with the units.
    {"ounce", ignore},
    {"cup", ignore},
    {"pint", ignore},
    {"quart", ignore},
    {"gallon", ignore},
    {"measures", read_measures},
    {"jiggers", read_measures},
    {"show", read_show},
    {"room", read_temperature<&House::room_c>},
    {"fridge", read_temperature<&House::fridge_c>},
    {"freezer", read_temperature<&House::freezer_c>},
    {"ice", read_temperature<&House::ice_c>},
    {"alcohol unit", [](LineReader& reader, House& house,
                        bool) { read_code(reader, house.alcohol_unit, 2, "alcohol unit UK"); }},
    {"allergen list", read_allergen_list},
    {"hands", read_hands},
    {"strongest",
     [](LineReader& reader, House& house, bool) {
       auto mass = reader.quantity({Kind::mass}, "`strongest`, the ethanol in a serve,");
       if (mass && reader.expect_end("strongest 40 g")) house.strongest_g = mass->number();
     }},
    {"tax", read_tax},
    {"pour cost",
     [](LineReader& reader, House& house, bool) {
       auto share = upper_share(reader, "a pour cost", false);
       if (share && reader.expect_end("pour cost ..22 %")) house.pour_cost = *share;
     }},
    {"gross profit",
     [](LineReader& reader, House& house, bool) {
       auto share = upper_share(reader, "a gross profit", true);
       if (share && reader.expect_end("gross profit 78 %..")) house.pour_cost = 1 - *share;
     }},
    {"round prices to",
     [](LineReader& reader, House& house, bool) {
       auto number = reader.any_quantity();
       if (number && reader.expect_end("round prices to 0.50")) house.round_prices_to = number->value;
     }},
    {"rate", read_rate},
    {"notice",
     [](LineReader& reader, House& house, bool first) {
       if (first) house.notices.clear();
       house.notices.push_back(reader.string_or_rest("`notice`"));
     }},
    {"source",
     [](LineReader& reader, House& house, bool) { house.head.source = reader.string_or_rest("`source`"); }},
};

}  // namespace

std::vector<std::string_view> house_keywords() { return keywords_of(house_lines); }

void read_house(DeclarationReader& lines, House& house) {
  lines.each_line([&](LineReader& reader, const std::string& text) {
    if (!lines.read_property(reader, house_lines, house))
      report_unknown_line(reader, keywords_of(house_lines), false, false);
    lines.keep_text(text);
  });
}

}  // namespace gill::analysis
