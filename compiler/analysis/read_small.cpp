// Glasses, ice, families, price lists and menus.
#include <fmt/format.h>

#include "analysis/declaration_reader.h"
#include "base/characters.h"
#include "base/text.h"
#include "units/money.h"

namespace gill::analysis {

using diagnostics::Rule;
using syntax::TokenKind;
using units::Kind;

namespace {

template <typename Target>
void ignore_alias(LineReader& reader, Target&, bool) {
  reader.move_to(reader.line().size());
}

template <typename Target>
void read_source(LineReader& reader, Target& target, bool) {
  target.head.source = reader.string_or_rest("`source`");
}

template <typename Target>
void read_by_table(DeclarationReader& lines, Target& target,
                   const std::vector<PropertyReader<Target>>& table) {
  lines.each_line([&](LineReader& reader, const std::string& text) {
    if (!lines.read_property(reader, table, target))
      report_unknown_line(reader, keywords_of(table), false, false);
    lines.keep_text(text);
  });
}

// ---- glass

double millimetres(LineReader& reader, std::string_view subject) {
  auto length = reader.quantity({Kind::length}, subject);
  reader.expect_end("stem 80 mm");
  return length ? length->number() : 0;
}

/// `12 mm at 0 mm, 70 mm at 14 mm, …`: the inside diameter at a height above the inside bottom.
void read_shape(LineReader& reader, Glass& glass) {
  std::vector<ProfilePoint> shape;
  do {
    auto diameter = reader.quantity({Kind::length}, "a shape");
    if (!diameter) return;
    if (!reader.take_word("at")) {
      reader.fail(Rule::bad_line, diameter->span, "a shape says how wide the glass is at a height",
                  "Write `12 mm at 0 mm, 70 mm at 14 mm, …`, from the bottom up.");
      return;
    }
    auto height = reader.quantity({Kind::length}, "a shape's height");
    if (!height) return;
    if (!shape.empty() && height->number() <= shape.back().height_mm) {
      reader.fail(Rule::bad_line, height->span, "a shape runs from the bottom up",
                  "Order its points by height.");
      return;
    }
    shape.push_back({diameter->number(), height->number()});
  } while (reader.take_comma());
  if (!reader.expect_end("shape DIAMETER at HEIGHT, …")) return;
  if (shape.size() < 2) {
    reader.fail(Rule::bad_line, reader.line().whole(), "a shape has at least two points", "Add the rim.");
    return;
  }
  glass.shape = std::move(shape);
}

const std::vector<PropertyReader<Glass>> glass_lines = {
    {"holds",
     [](LineReader& reader, Glass& glass, bool) {
       glass.holds = reader.quantity({Kind::volume}, "`holds`");
       reader.expect_end("holds 180 ml");
     }},
    {"line",
     [](LineReader& reader, Glass& glass, bool) {
       glass.line = reader.quantity({Kind::volume}, "a glass's line");
       reader.expect_end("line 120..155 ml");
     }},
    {"shape", [](LineReader& reader, Glass& glass, bool) { read_shape(reader, glass); }},
    {"stem", [](LineReader& reader, Glass& glass, bool) { glass.stem_mm = millimetres(reader, "a stem"); }},
    {"foot", [](LineReader& reader, Glass& glass, bool) { glass.foot_mm = millimetres(reader, "a foot"); }},
    {"wall", [](LineReader& reader, Glass& glass, bool) { glass.wall_mm = millimetres(reader, "a wall"); }},
    {"material",
     [](LineReader& reader, Glass& glass, bool) {
       glass.material = base::lower_ascii(reader.name(reader.line().size(), "material"));
     }},
    {"source", read_source<Glass>},
    {"aka", ignore_alias<Glass>},
};

// ---- ice

const std::vector<PropertyReader<Ice>> ice_lines = {
    {"each",
     [](LineReader& reader, Ice& ice, bool) {
       ice.each = reader.quantity({Kind::mass}, "a piece of ice");
       reader.expect_end("each 30 g");
     }},
    {"melt",
     [](LineReader& reader, Ice& ice, bool) {
       if (auto share = reader.share("`melt`")) ice.melt = *share;
       reader.expect_end("melt 100 %");
     }},
    {"packs",
     [](LineReader& reader, Ice& ice, bool) {
       if (auto share = reader.share("`packs`")) ice.packs = *share;
       reader.expect_end("packs 57 %");
     }},
    {"wet",
     [](LineReader& reader, Ice& ice, bool) {
       if (auto share = reader.share("`wet`")) ice.wet = *share;
       reader.expect_end("wet 5 %");
     }},
    {"source", read_source<Ice>},
    {"aka", ignore_alias<Ice>},
};

// ---- family

const std::vector<PropertyReader<Family>> family_lines = {
    {"method",
     [](LineReader& reader, Family& family, bool) {
       auto verb = match_verb(reader.line(), reader.at());
       if (!verb) {
         reader.fail(Rule::unknown_word, reader.line().whole(), "a family's method is one step's name",
                     "Write `method shake`, `method stir` or `method build`.");
         return;
       }
       family.method = verb->verb;
       reader.move_to(reader.at() + verb->tokens);
       reader.expect_end("method shake");
     }},
    {"ice",
     [](LineReader& reader, Family& family, bool) {
       if (auto use = read_ice(reader, reader.line().size())) family.ice = *use;
     }},
    {"strength",
     [](LineReader& reader, Family& family, bool) {
       family.strength = reader.quantity({Kind::strength}, "a family's strength");
       reader.expect_end("strength 13..21 % abv");
     }},
    {"sugar",
     [](LineReader& reader, Family& family, bool) {
       family.sugar = reader.quantity({Kind::mass_concentration}, "a family's sugar");
       reader.expect_end("sugar 3.5..10 % w/v");
     }},
    {"acid",
     [](LineReader& reader, Family& family, bool) {
       family.acid = reader.quantity({Kind::mass_concentration}, "a family's acid");
       reader.expect_end("acid 0.6..1.1 % w/v");
     }},
    {"balance",
     [](LineReader& reader, Family& family, bool) {
       family.balance = reader.plain_number("a family's balance");
       reader.expect_end("balance 4.5..11");
     }},
    {"volume",
     [](LineReader& reader, Family& family, bool) {
       family.volume = reader.quantity({Kind::volume}, "a family's volume");
       reader.expect_end("volume 115..180 ml");
     }},
    {"source", read_source<Family>},
    {"aka", ignore_alias<Family>},
};

// ---- prices

/// A price given again takes the place of the one that `like` brought (the first `inherited` ones).
void read_price(LineReader& reader, PriceList& list, std::size_t& inherited) {
  if (reader.line().is_word(0, "from") && !reader.line().text(1).empty() &&
      base::is_digit(reader.line().text(1).front())) {
    reader.fail(Rule::bad_number, reader.line().whole(), "the day from which a list counts is no price",
                "Write its year, month and day: `from 2026-03-01`.");
    return;
  }
  std::size_t end = price_name_end(reader.line(), reader.context().units);
  if (end == reader.line().size()) {
    reader.fail(Rule::bad_line, reader.line().whole(), "a price is an ingredient, a pack and what it costs",
                "Write `rye whiskey 700 ml for 28.50 EUR`.");
    return;
  }
  auto use = read_use(reader, end);
  if (!use) return;
  auto buy = read_buy(reader);
  if (!buy) return;
  for (std::size_t i = inherited; i-- > 0;) {
    if (!(list.prices[i].use == *use)) continue;
    list.prices.erase(list.prices.begin() + static_cast<std::ptrdiff_t>(i));
    --inherited;
  }
  list.prices.push_back({*use, *buy, reader.line().whole()});
}

// ---- menu

constexpr std::array<std::string_view, 7> weekdays = {"mon", "tue", "wed", "thu", "fri", "sat", "sun"};

std::optional<std::size_t> take_weekday(LineReader& reader) {
  if (reader.done()) return std::nullopt;
  std::string word = base::lower_ascii(reader.line().text(reader.at()));
  for (std::size_t i = 0; i < weekdays.size(); ++i)
    if (word.size() >= 3 && word.starts_with(weekdays[i])) return reader.move_to(reader.at() + 1), i;
  return std::nullopt;
}

bool read_sales(LineReader& reader, MenuEntry& entry) {
  while (reader.take_comma()) {
    const std::size_t at = reader.at();
    auto is_said_twice = [&](bool is_said) {
      return is_said && !reader.fail(Rule::bad_line, reader.line().span(at),
                                     fmt::format("`{}` is said twice in this line",
                                                 base::lower_ascii(reader.line().text(at))),
                                     "Leave one of the two out.");
    };
    if (reader.take_word("sells")) {
      if (is_said_twice(entry.sells.has_value())) return false;
      auto number = reader.plain_number("`sells`");
      if (!number) return false;
      entry.sells = number->number();
    } else if (auto day = take_weekday(reader)) {
      if (is_said_twice(entry.sells_on[*day].has_value())) return false;
      auto number = reader.plain_number("a weekday");
      if (!number) return false;
      entry.sells_on[*day] = number->number();
    } else {
      std::size_t first = reader.at(), end = std::max(reader.comma_or_end(), first + 1);
      std::string word = base::collapse_space(reader.line().raw(first, end));
      return reader.fail(Rule::unknown_word, reader.line().span(first, end),
                         fmt::format("`{}` is nothing a menu line knows", word),
                         "Write `DRINK at 14 EUR, sells 40, Fri 60, Sat 80`.");
    }
  }
  return reader.expect_end("DRINK at 14 EUR, sells 40, Fri 60");
}

/// `at 95 GBP a bowl`: the price of all its serves. What it comes to a serve is reckoned once the drink is
/// read.
void take_sold_by(LineReader& reader, MenuEntry& entry) {
  auto sold_by = sold_by_at(reader.line(), reader.at());
  if (sold_by == SoldBy::nothing) return;
  entry.sold_by = "a " + base::lower_ascii(reader.line().text(reader.at() + 1));
  if (sold_by == SoldBy::whole) entry.whole_price = entry.price;
  reader.move_to(reader.at() + 2);
}

/// `Bowl at 6`, `Bowl at £6`: a price, and no part of a name. True when it is reported.
bool report_bad_price(LineReader& reader, std::size_t name_end) {
  const auto& line = reader.line();
  const auto& names = reader.context().names;
  std::size_t end = reader.comma_or_end(), at = end;
  // The last `at`: a name may hold one, too.
  while (at > reader.at() && !line.is_word(at - 1, "at")) --at;
  if (name_end != end || at <= reader.at() + 1 || at >= end) return false;
  auto is_drink = [&](std::size_t last) {
    return names.find(symbols::NameSpace::drink, syntax::name_text(line, reader.at(), last)).valid();
  };
  if (is_drink(end) || !is_drink(at - 1)) return false;
  std::string currency = reader.context().specs.house.currency, number;
  for (char c : line.raw(at, end))
    if (base::is_digit(c) || (c == '.' && !number.empty())) number += c;
  return !reader.fail(Rule::bad_number, line.span(at, end),
                      "a price is a number and the three letters of its money",
                      fmt::format("Write `{} at {} {}`.", base::collapse_space(line.raw(reader.at(), at - 1)),
                                  number.empty() ? "14" : number, currency.empty() ? "EUR" : currency));
}

/// A drink that stands on the menu already, at another price: nobody can tell which is paid. True when it is
/// reported.
bool report_two_prices(LineReader& reader, const Menu& menu, const MenuEntry& entry) {
  for (const auto& section : menu.sections)
    for (const auto& other : section.entries) {
      if (other.drink != entry.drink || !other.price || !entry.price || other.sold_by != entry.sold_by ||
          (other.price->amount == entry.price->amount && other.price->currency == entry.price->currency))
        continue;
      return !reader.fail(
          Rule::duplicate_name, entry.span,
          fmt::format("`{}` stands on this menu already, at {}",
                      base::collapse_space(reader.line().raw(0, entry_name_end(reader.line()))),
                      units::price_text(*other.printed_price())),
          "Leave one of the two lines out, or write a drink of its own for the other size: `drink "
          "NAME like …`.");
    }
  return false;
}

void read_entry(LineReader& reader, Menu& menu) {
  MenuEntry entry;
  std::size_t end = entry_name_end(reader.line());
  if (report_bad_price(reader, end)) return;
  entry.span = reader.line().span(reader.at(), end);
  auto id = reader.declaration(symbols::NameSpace::drink, end);
  if (reader.failed()) return;
  entry.drink = DrinkId{reader.context().specs.index_of[id.index()]};
  if (reader.take_word("at") || (!reader.done() && reader.line().kind(reader.at()) == TokenKind::number)) {
    auto price = reader.money("a drink on a menu");
    if (!price) return;
    entry.price = *price;
    take_sold_by(reader, entry);
  }
  if (!read_sales(reader, entry)) return;
  if (report_two_prices(reader, menu, entry)) return;
  if (menu.sections.empty()) menu.sections.push_back({});
  menu.sections.back().entries.push_back(std::move(entry));
}

const std::vector<PropertyReader<Menu>> menu_lines = {
    {"runs",
     [](LineReader& reader, Menu& menu, bool) {
       auto from = reader.date();
       if (!from) return;
       menu.runs_from = *from;
       menu.runs_to.clear();
       if (!reader.done() && reader.line().kind(reader.at()) == TokenKind::dots) {
         reader.move_to(reader.at() + 1);
         if (!reader.done()) {
           auto to = reader.date();
           if (!to) return;
           if (*to < *from) {
             reader.fail(Rule::bad_line, reader.line().whole(), "a menu's last day comes after its first",
                         "Write the earlier date first.");
             return;
           }
           menu.runs_to = *to;
         }
       }
       reader.expect_end("runs 2026-09-15 .. 2026-12-01");
     }},
    {"section",
     [](LineReader& reader, Menu& menu, bool first) {
       if (first) menu.sections.clear();
       menu.sections.push_back({reader.string_or_rest("a section"), {}, {}});
     }},
    {"source", read_source<Menu>},
};

const std::vector<PropertyReader<PriceList>> price_lines = {
    {"from",
     [](LineReader& reader, PriceList& list, bool) {
       if (auto date = reader.date()) list.from = *date;
       reader.expect_end("from 2026-03-19");
     }},
};

}  // namespace

std::vector<std::string_view> glass_keywords() { return keywords_of(glass_lines); }
std::vector<std::string_view> ice_keywords() { return keywords_of(ice_lines); }
std::vector<std::string_view> family_keywords() { return keywords_of(family_lines); }
std::vector<std::string_view> menu_keywords() { return keywords_of(menu_lines); }

void read_glass(DeclarationReader& lines, Glass& glass) { read_by_table(lines, glass, glass_lines); }
void read_ice_kind(DeclarationReader& lines, Ice& ice) { read_by_table(lines, ice, ice_lines); }
void read_family(DeclarationReader& lines, Family& family) { read_by_table(lines, family, family_lines); }

void read_price_list(DeclarationReader& lines, PriceList& list) {
  std::size_t inherited = list.prices.size();
  lines.each_line([&](LineReader& reader, const std::string& text) {
    bool is_date = reader.line().is_word(0, "from") && reader.line().kind(1) == TokenKind::date;
    if (is_date)
      lines.read_property(reader, price_lines, list);
    else
      read_price(reader, list, inherited);
    lines.keep_text(text);
  });
}

void read_menu(DeclarationReader& lines, Menu& menu) {
  lines.each_line([&](LineReader& reader, const std::string& text) {
    bool is_section = reader.line().is_word(0, "section");
    if (!lines.read_property(reader, menu_lines, menu)) read_entry(reader, menu);
    if (is_section && !menu.sections.empty() && !text.empty())
      menu.sections.back().text = text;
    else
      lines.keep_text(text);
  });
}

}  // namespace gill::analysis
