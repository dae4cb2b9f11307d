#include <fmt/format.h>

#include "analysis/declaration_reader.h"
#include "analysis/recipe_builder.h"
#include "base/any_of.h"
#include "base/text.h"

namespace gill::analysis {

using diagnostics::Rule;
using units::Kind;

std::string_view name_of(StockKind kind) {
  static constexpr std::string_view names[] = {
      "",      "spirit", "liqueur",    "fortified wine", "wine",  "sparkling", "beer",     "bitters",
      "juice", "syrup",  "sweetener",  "acid",           "dairy", "egg",       "fat",      "fruit",
      "herb",  "spice",  "tea/coffee", "mixer",          "water", "saline",    "additive", "garnish"};
  static_assert(std::size(names) == static_cast<std::size_t>(StockKind::garnish) + 1);
  return names[static_cast<std::size_t>(kind)];
}

std::string_view name_of(Storage storage) {
  static constexpr std::string_view names[] = {"ambient", "chilled", "frozen"};
  static_assert(std::size(names) == static_cast<std::size_t>(Storage::frozen) + 1);
  return names[static_cast<std::size_t>(storage)];
}

std::string_view name_of(Acid acid) {
  static constexpr std::string_view names[] = {"citric", "malic",      "tartaric", "lactic",
                                               "acetic", "phosphoric", "ascorbic"};
  static_assert(std::size(names) == static_cast<std::size_t>(Acid::ascorbic) + 1);
  return names[static_cast<std::size_t>(acid)];
}

std::string_view name_of(SugarKind kind) {
  static constexpr std::string_view names[] = {"sucrose", "glucose", "fructose", "maltose", "lactose"};
  static_assert(std::size(names) == static_cast<std::size_t>(SugarKind::lactose) + 1);
  return names[static_cast<std::size_t>(kind)];
}

std::string_view name_of(Origin origin) {
  static constexpr std::string_view names[] = {"plant", "mineral", "milk", "egg", "bees", "animal"};
  return names[static_cast<std::size_t>(origin)];
}

namespace {

/// The form that a line states, else that of its kind.
Form form_of(const std::optional<Form>& stated, StockKind kind) {
  if (stated) return *stated;
  return base::is_any_of(kind, {StockKind::sweetener, StockKind::acid, StockKind::fruit, StockKind::herb,
                                StockKind::spice, StockKind::additive, StockKind::garnish})
             ? Form::solid
             : Form::liquid;
}

}  // namespace

Form Stock::effective_form() const { return form_of(form, kind); }
Form StockFace::effective_form() const { return form_of(form, kind); }

namespace {

/// `sugar 81 % w/w ± 2 %`: a share of the ingredient, by volume or by mass.
template <std::optional<Quantity> Stock::*field>
void read_content(LineReader& reader, Stock& stock, bool) {
  std::string keyword(reader.line().text(0));
  auto content =
      reader.quantity({Kind::mass_concentration, Kind::mass_fraction}, fmt::format("`{}`", keyword));
  if (content && reader.expect_end("sugar 25 % w/v")) stock.*field = *content;
}

void read_acid(LineReader& reader, Stock& stock, bool first) {
  auto content = reader.quantity({Kind::mass_concentration, Kind::mass_fraction}, "`acid`");
  if (!content) return;
  AcidLine line{Acid::citric, *content};
  if (!reader.done()) {
    std::vector<std::string_view> acids;
    for (int i = 0; i <= static_cast<int>(Acid::ascorbic); ++i)
      acids.push_back(name_of(static_cast<Acid>(i)));
    auto acid = read_choice(reader, "the acid", acids);
    if (!acid) return;
    line.acid = static_cast<Acid>(*acid);
    reader.take_word("acid");
  }
  if (!reader.expect_end("acid 6 % w/v citric")) return;
  if (first) stock.acids.clear();
  stock.acids.push_back(line);
}

/// `sugars 47 % fructose, 42 % glucose`: shares of its sugar, together no more than all of it.
void read_sugars(LineReader& reader, Stock& stock, bool) {
  std::vector<std::string_view> kinds;
  for (int i = 0; i <= static_cast<int>(SugarKind::lactose); ++i)
    kinds.push_back(name_of(static_cast<SugarKind>(i)));
  std::vector<SugarShare> shares;
  double sum = 0;
  do {
    auto share = reader.share("`sugars`, of the sugar in it,");
    if (!share) return;
    auto kind = read_choice(reader, "a kind of sugar", kinds);
    if (!kind) return;
    shares.push_back({static_cast<SugarKind>(*kind), *share});
    sum += *share;
  } while (reader.take_comma());
  if (!reader.expect_end("sugars 47 % fructose, 42 % glucose")) return;
  // Tables round.
  constexpr double rounding = 0.02;
  if (sum > 1 + rounding) {
    reader.fail(Rule::bad_number, reader.line().whole(),
                fmt::format("these are {:.0f} % of its sugar", 100 * sum),
                "Shares of the sugar come to 100 % at most: `sugars 47 % fructose, 42 % glucose`.");
    return;
  }
  stock.sugars = std::move(shares);
}

/// `refractometer 48 brix`: what it showed.
void read_refractometer(LineReader& reader, Stock& stock, bool) {
  auto shown = reader.quantity({Kind::mass_fraction}, "`refractometer`");
  if (!shown || !reader.expect_end("refractometer 48 brix")) return;
  constexpr double end_of_scale = 0.85;
  if (shown->number() > end_of_scale) {
    reader.fail(Rule::bad_number, shown->span, "a refractometer's scale ends at 85 brix",
                "Write what it showed: `refractometer 48 brix`.");
    return;
  }
  stock.refractometer = *shown;
}

/// `hydrometer 1.085`, `hydrometer 20.4 brix`, `hydrometer 31 % abv`: the scale on which it was read.
void read_hydrometer(LineReader& reader, Stock& stock, bool) {
  auto shown = reader.quantity({Kind::count, Kind::mass_fraction, Kind::strength}, "`hydrometer`");
  if (!shown || !reader.expect_known_unit(*shown) || !reader.expect_end("hydrometer 1.085")) return;
  constexpr double lightest = 0.79, heaviest = 1.45;
  double value = shown->number();
  if (shown->kind == Kind::count ? value < lightest || value > heaviest : value > 1) {
    reader.fail(Rule::bad_number, shown->span, "no hydrometer floats there",
                "Write its specific gravity (water is 1.000), or the other scales with their unit: "
                "`hydrometer 1.085`, `hydrometer 20.4 brix`, `hydrometer 31 % abv`.");
    return;
  }
  stock.hydrometer = *shown;
}

/// `each 120 g`, `each leaf 0.15 g`, `each 30 ml ± 15 %`.
void read_each(LineReader& reader, Stock& stock, bool) {
  UnitId item;
  if (!reader.done() && !reader.at_quantity()) {
    auto match = reader.context().units.match(reader.line(), reader.at());
    if (!match.unit.valid() || !reader.context().units[match.unit].is_item_word) {
      reader.fail(Rule::unknown_word, reader.line().span(reader.at()),
                  "`each` takes an item word or a quantity",
                  "Write `each 120 g`, or `each leaf 0.15 g` (leaf, sprig, slice, wedge, wheel, twist …).");
      return;
    }
    item = match.unit;
    reader.move_to(reader.at() + match.tokens);
  }
  auto quantity = reader.quantity({Kind::mass, Kind::volume}, "`each`");
  if (quantity && reader.expect_end("each leaf 0.15 g")) stock.each[item] = *quantity;
}

/// `gives 45 ml lemon juice, 9 g lemon peel`.
void read_gives(LineReader& reader, Stock& stock, bool first) {
  if (first) stock.gives.clear();
  do {
    if (!reader.at_quantity()) {
      reader.fail(Rule::bad_line, reader.line().whole(), "`gives` lists amounts with what they are",
                  "Write `gives 45 ml lemon juice, 9 g lemon peel`.");
      return;
    }
    auto measured = read_measured(reader, UnknownName::report);
    if (!measured) return;
    stock.gives.push_back({measured->use, measured->quantity});
  } while (reader.take_comma());
  reader.expect_end("gives 45 ml lemon juice");
}

void read_allergen(LineReader& reader, Stock& stock, bool first) {
  if (first) {
    stock.allergens.clear();
    stock.allergens_stated = true;
  }
  if (reader.at_word("none")) {
    reader.take_word("none");
    reader.expect_end("allergen none");
    return;
  }
  bool may = reader.take_word("may");
  if (reader.done()) {
    reader.fail(Rule::bad_line, reader.line().whole(), "`allergen` names what is in it",
                "Write `allergen egg` or `allergen none`.");
    return;
  }
  for (auto& code : read_allergen_codes(reader)) stock.allergens.push_back({std::move(code), may});
}

/// `origin plant`, `origin milk, may be animal`, `origin not known`.
void read_origin(LineReader& reader, Stock& stock, bool first) {
  if (first) stock.origins.clear();
  stock.origin_stated = true;
  if (reader.take_word("not")) {
    if (reader.take_word("known"))
      reader.expect_end("origin not known");
    else
      reader.fail(Rule::unknown_word, reader.line().whole(), "an origin is a word, or `not known`",
                  "Write `origin plant`, `origin animal` or `origin not known`.");
    return;
  }
  std::vector<std::string_view> words;
  for (int i = 0; i <= static_cast<int>(Origin::animal); ++i)
    words.push_back(name_of(static_cast<Origin>(i)));
  do {
    bool may = reader.take_word("may");
    if (may) reader.take_word("be");
    auto origin = read_choice(reader, "where it comes from", words);
    if (!origin) return;
    stock.origins.push_back({static_cast<Origin>(*origin), may});
  } while (reader.take_comma());
  reader.expect_end("origin plant, may be animal");
}

void read_kind(LineReader& reader, Stock& stock, bool) {
  std::vector<std::string_view> kinds;
  for (int i = 1; i <= static_cast<int>(StockKind::garnish); ++i)
    kinds.push_back(name_of(static_cast<StockKind>(i)));
  if (reader.at_word("tea") || reader.at_word("coffee")) {
    reader.move_to(reader.line().size());
    stock.kind = StockKind::tea_coffee;
    return;
  }
  auto kind = read_choice(reader, "a kind", kinds);
  if (kind && reader.expect_end("kind spirit")) stock.kind = static_cast<StockKind>(*kind + 1);
}

template <std::optional<bool> Stock::*field>
void read_flag(LineReader& reader, Stock& stock, bool) {
  auto flag = read_yes_no(reader, fmt::format("`{}`", reader.written(reader.line().span(0, reader.at()))));
  if (flag && reader.expect_end("foams yes")) stock.*field = *flag;
}

template <std::optional<Quantity> Stock::*field>
void read_batch(LineReader& reader, Stock& stock, bool) {
  auto quantity =
      reader.quantity({Kind::volume, Kind::mass, Kind::count}, fmt::format("`{}`", reader.line().text(0)));
  if (quantity && reader.expect_known_unit(*quantity) && reader.expect_end("par 2 l"))
    stock.*field = *quantity;
}

void read_words(LineReader& reader, std::string& words) {
  words = reader.string_or_rest(fmt::format("`{}`", reader.line().text(0)));
}

/// `makes 610 ml`, `makes 24`, `makes 24 wheels`.
void read_makes(LineReader& reader, Stock& stock, bool) {
  auto quantity = reader.quantity({Kind::volume, Kind::mass, Kind::count}, "`makes`");
  if (!quantity || !reader.expect_known_unit(*quantity)) return;
  if (quantity->value <= 0) {
    reader.fail(Rule::bad_number, quantity->span, "a prep makes more than nothing",
                "Write the measured yield.");
    return;
  }
  // `makes 620`: of a liquid nobody counts pieces.
  constexpr int most_bare_pieces = 99;
  bool is_bare = quantity->kind == Kind::count && !quantity->unit.valid();
  if (is_bare && quantity->value > most_bare_pieces && stock.each.empty()) {
    std::string number(reader.line().text(1));
    reader.fail(Rule::wrong_kind, quantity->span, fmt::format("{} of what?", number),
                fmt::format("Write `makes {0} ml`, `makes {0} g` or `makes {0} pieces`.", number));
    return;
  }
  if (reader.expect_end("makes 610 ml")) stock.makes = *quantity;
}

const std::vector<PropertyReader<Stock>> ingredient_lines = {
    {"kind", read_kind},
    {"form",
     [](LineReader& reader, Stock& stock, bool) {
       auto form = read_choice(reader, "a form", {"liquid", "solid", "powder"});
       if (form && reader.expect_end("form liquid")) stock.form = static_cast<Form>(*form);
     }},
    {"strength",
     [](LineReader& reader, Stock& stock, bool) {
       auto strength = reader.quantity({Kind::strength}, "`strength`");
       if (strength && reader.expect_end("strength 40 % abv")) stock.strength = *strength;
     }},
    {"sugar", read_content<&Stock::sugar>},
    {"acid", read_acid},
    {"fat", read_content<&Stock::fat>},
    {"protein", read_content<&Stock::protein>},
    {"salt", read_content<&Stock::salt>},
    {"other", read_content<&Stock::other>},
    {"water", read_content<&Stock::water>},
    {"starch", read_content<&Stock::starch>},
    {"dextrin", read_content<&Stock::dextrin>},
    {"fibre", read_content<&Stock::fibre>},
    {"fiber", read_content<&Stock::fibre>},
    {"gum", read_content<&Stock::gum>},
    {"polyol", read_content<&Stock::polyol>},
    {"ash", read_content<&Stock::ash>},
    {"inert", read_content<&Stock::inert>},
    {"sugars", read_sugars},
    {"caffeine", read_content<&Stock::caffeine>},
    {"quinine", read_content<&Stock::quinine>},
    {"sulphites", read_content<&Stock::sulphites>},
    {"sulfites", read_content<&Stock::sulphites>},
    {"density",
     [](LineReader& reader, Stock& stock, bool) {
       auto density = reader.quantity({Kind::density}, "`density`");
       if (density && reader.expect_end("density 1.04 g/ml")) stock.density = *density;
     }},
    {"fizz",
     [](LineReader& reader, Stock& stock, bool) {
       auto fizz = reader.quantity({Kind::gas}, "`fizz`");
       if (fizz && reader.expect_end("fizz 3.5 vol")) stock.fizz = *fizz;
     }},
    {"pH",
     [](LineReader& reader, Stock& stock, bool) {
       auto ph = reader.plain_number("`pH`");
       if (ph && reader.expect_end("pH 2.3")) stock.ph = ph->number();
     }},
    {"each", read_each},
    {"gives", read_gives},
    {"allergen", read_allergen},
    {"origin", read_origin},
    {"keeps",
     [](LineReader& reader, Stock& stock, bool) {
       auto keeps = read_keeps(reader);
       // Nobody knows whether a prep stands in the fridge or on the shelf.
       if (keeps && stock.is_prep && reader.done() &&
           reader.line().kind(reader.at() - 1) == syntax::TokenKind::word &&
           !reader.line().is_word(reader.at() - 1, "ambient") &&
           !reader.line().is_word(reader.at() - 1, "chilled") &&
           !reader.line().is_word(reader.at() - 1, "frozen")) {
         std::string time = reader.written(keeps->duration.span);
         reader.fail(Rule::bad_line, reader.line().whole(),
                     fmt::format("it keeps {}, and nobody says where", time),
                     fmt::format("Write `keeps {0} chilled` or `keeps {0} ambient`.", time));
         return;
       }
       if (keeps && reader.expect_end("keeps 30 d chilled")) stock.keeps = *keeps;
     }},
    {"opened",
     [](LineReader& reader, Stock& stock, bool) {
       auto keeps = read_keeps(reader);
       if (keeps && reader.expect_end("opened 6 mo chilled")) stock.opened = *keeps;
     }},
    {"buy",
     [](LineReader& reader, Stock& stock, bool) {
       if (auto buy = read_buy(reader)) stock.buys.push_back(*buy);
     }},
    {"waste",
     [](LineReader& reader, Stock& stock, bool) {
       auto share = reader.share("`waste`");
       if (share && reader.expect_end("waste 3 %")) stock.waste = *share;
     }},
    {"treated", [](LineReader& reader, Stock& stock, bool) { read_words(reader, stock.treated); }},
    {"foams", read_flag<&Stock::foams>},
    {"holds fat", read_flag<&Stock::holds_fat>},
    {"colour", [](LineReader& reader, Stock& stock, bool) { stock.colour = read_colour(reader); }},
    {"color", [](LineReader& reader, Stock& stock, bool) { stock.colour = read_colour(reader); }},
    {"caution",
     [](LineReader& reader, Stock& stock, bool first) {
       if (first) stock.cautions.clear();
       stock.cautions.push_back(reader.string_or_rest("`caution`"));
     }},
    {"source", [](LineReader& reader, Stock& stock, bool) { read_words(reader, stock.head.source); }},
    {"aka", [](LineReader& reader, Stock&, bool) { reader.move_to(reader.line().size()); }},
};

const std::vector<PropertyReader<Stock>> prep_lines = [] {
  std::vector<PropertyReader<Stock>> lines = {
      {"makes", read_makes},
      {"par", read_batch<&Stock::par>},
      {"batch", read_batch<&Stock::largest_batch>},
      {"takes",
       [](LineReader& reader, Stock& stock, bool) {
         auto time = reader.quantity({Kind::time}, "`takes`");
         if (time && reader.expect_end("takes 20 min")) stock.takes = *time;
       }},
      {"station", [](LineReader& reader, Stock& stock, bool) { read_words(reader, stock.station); }},
      {"refractometer", read_refractometer},
      {"hydrometer", read_hydrometer},
      {"measured",
       [](LineReader& reader, Stock& stock, bool) {
         if (auto measured = read_measurement(reader, true)) stock.measured.push_back(std::move(*measured));
       }},
      {"expect",
       [](LineReader& reader, Stock& stock, bool) {
         if (auto expect = read_expect(reader)) stock.expects.push_back(*expect);
       }},
      {"loss",
       [](LineReader& reader, Stock&, bool) {
         reader.fail(Rule::unknown_word, reader.line().span(0), "a loss is worked out, not written",
                     "Write the measured yield instead: `makes 610 ml`.");
       }},
  };
  // What a prep holds follows from what goes in, and `water 200 ml` is an amount there.
  static constexpr std::string_view not_in_preps[] = {
      "buy",    "gives", "water", "starch", "dextrin",  "fibre",   "fiber",     "gum",
      "polyol", "ash",   "inert", "sugars", "caffeine", "quinine", "sulphites", "sulfites"};
  for (const auto& line : ingredient_lines)
    if (!base::is_any_of(line.keyword, not_in_preps)) lines.push_back(line);
  return lines;
}();

}  // namespace

std::vector<std::string_view> ingredient_keywords() { return keywords_of(ingredient_lines); }
std::vector<std::string_view> prep_keywords() { return keywords_of(prep_lines); }

void read_stock(DeclarationReader& lines, const Context& context, Stock& stock, bool is_variation) {
  const auto& table = stock.is_prep ? prep_lines : ingredient_lines;
  RecipeBuilder recipe(stock.recipe, stock.head, is_variation, true);
  auto read_line = [&](LineReader& reader, const std::string& text, Implied) {
    if (reader.line().size() > 0 && reader.line().kind(0) == syntax::TokenKind::word)
      stock.property_spans[base::lower_ascii(reader.line().text(0))] = reader.line().whole();
    if (stock.is_prep && recipe.read_line(reader, text)) return;
    if (!lines.read_property(reader, table, stock) &&
        report_unknown_line(reader, keywords_of(table), stock.is_prep, true))
      stock.head.has_amount_errors = true;
    lines.keep_text(text);
  };
  if (!stock.is_prep)
    return lines.each_line(
        [&](LineReader& reader, const std::string& text) { read_line(reader, text, Implied::no); });
  TradeForms forms(context, true);
  lines.each_recipe_line(forms, table, read_line);
  for (const auto& step : stock.recipe.steps)
    if (step.verb == Verb::bottle && step.amount) stock.bottle = step.amount;
}

}  // namespace gill::analysis
