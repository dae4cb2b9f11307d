#include <fmt/format.h>

#include "analysis/declaration_reader.h"
#include "analysis/groups.h"
#include "analysis/recipe_builder.h"
#include "analysis/remark.h"
#include "base/text.h"

namespace gill::analysis {

using diagnostics::Rule;
using units::Kind;

namespace {

bool says_warmed(std::string_view note) {
  for (std::string_view word : {"warm", "hot", "heat"})
    if (note.find(word) != std::string_view::npos) return true;
  return false;
}

/// The glass of that name, also without its last word: `cocktail` is the cocktail glass.
DeclarationId find_glass(const LineReader& reader, std::size_t end) {
  std::size_t bad = 0;
  if (end <= reader.at() || !syntax::is_plain_name(reader.line(), reader.at(), end, bad)) return {};
  std::string name = syntax::name_text(reader.line(), reader.at(), end);
  auto id = reader.context().names.find(symbols::NameSpace::glass, name);
  if (id.valid()) return id;
  for (const std::string& other :
       {name + " glass", name.substr(0, name.size() - (name.ends_with("es") ? 2 : 0)),
        name.substr(0, name.size() - (name.ends_with("s") ? 1 : 0))})
    if (id = reader.context().names.find(symbols::NameSpace::glass, other); id.valid()) return id;
  return id;
}

void read_glass_line(LineReader& reader, Drink& drink, bool) {
  std::size_t end = reader.comma_or_end();
  drink.glass_span = reader.line().span(reader.at(), end);
  auto id = find_glass(reader, end);
  bool chilled = false, frozen = false, warmed = false;
  // `glass chilled coupe`: how it comes, before its name.
  if (const auto& line = reader.line(); !id.valid() && reader.at() + 1 < end) {
    std::size_t at = reader.at();
    chilled = line.is_word(at, "chilled") || line.is_word(at, "cold");
    frozen = line.is_word(at, "frozen");
    warmed = line.is_word(at, "hot") || line.is_word(at, "warm") || line.is_word(at, "warmed") ||
             line.is_word(at, "preheated") || line.is_word(at, "heated");
    if (chilled || frozen || warmed) {
      reader.move_to(at + 1);
      id = find_glass(reader, end);
      if (!id.valid()) reader.move_to(at);
    }
  }
  if (id.valid()) {
    reader.context().notes.name_uses.push_back({reader.line().span(reader.at(), end), id});
    reader.move_to(end);
  } else {
    id = reader.declaration(symbols::NameSpace::glass, end);
  }
  if (reader.failed()) return;
  drink.glass = GlassId{reader.context().specs.index_of[id.index()]};
  drink.glass_chilled = chilled, drink.glass_frozen = frozen, drink.glass_warmed = warmed;
  drink.glass_notes.clear();
  while (reader.take_comma()) {
    if (report_misspelt_modifier(reader, {"chilled", "frozen", "warmed"}, "how a glass comes")) return;
    auto note = read_remark(reader, reader.comma_or_end());
    if (!note) return;
    if (*note == "chilled")
      drink.glass_chilled = true;
    else if (*note == "frozen")
      drink.glass_frozen = true;
    else if (!note->empty()) {
      drink.glass_warmed = drink.glass_warmed || says_warmed(*note);
      drink.glass_notes.push_back(*note);
    }
  }
}

void read_ice_line(LineReader& reader, Drink& drink, bool) {
  if (reader.at_word("none")) {
    reader.take_word("none");
    if (reader.expect_end("ice none")) drink.ice = {GlassIce::Kind::none, {}};
    return;
  }
  auto use = analysis::read_ice(reader, reader.comma_or_end());
  if (!use) return;
  while (reader.take_comma())
    if (!read_remark(reader, reader.comma_or_end())) return;
  drink.ice = {GlassIce::Kind::given, *use};
}

/// `batched rye whiskey, sweet vermouth, with water, bottle 750 ml`.
void read_batched(LineReader& reader, Drink& drink, bool) {
  Batched batched;
  batched.span = reader.line().whole();
  do {
    std::size_t end = reader.comma_or_end();
    if (reader.take_words({"with", "water"})) {
      batched.with_water = true;
    } else if (reader.at_word("bottle") &&
               units::QuantityReader::begins_quantity(reader.line(), reader.at() + 1)) {
      reader.take_word("bottle");
      batched.bottle = reader.quantity({Kind::volume}, "a batch's bottle");
    } else {
      auto use = read_use(reader, end);
      if (use) batched.uses.push_back(*use);
    }
  } while (!reader.failed() && reader.take_comma());
  if (reader.expect_end("batched A, B, with water, bottle 750 ml")) drink.batched = std::move(batched);
}

void read_status(LineReader& reader, Drink& drink, bool) {
  auto status = read_choice(reader, "a status", {"approved", "draft", "retired"});
  if (!status) return;
  drink.status = static_cast<Status>(*status);
  if (!reader.done()) {
    if (auto date = reader.date()) drink.approved_on = *date;
  }
  reader.expect_end("status approved 2026-03-01");
}

const std::vector<PropertyReader<Drink>> drink_lines = {
    {"family",
     [](LineReader& reader, Drink& drink, bool) {
       auto id = reader.declaration(symbols::NameSpace::family, reader.line().size());
       if (id.valid()) drink.family = FamilyId{reader.context().specs.index_of[id.index()]};
     }},
    {"glass", read_glass_line},
    {"ice", read_ice_line},
    {"cup",
     [](LineReader& reader, Drink& drink, bool) {
       auto id = reader.declaration(symbols::NameSpace::glass, reader.comma_or_end());
       if (id.valid()) drink.cup = GlassId{reader.context().specs.index_of[id.index()]};
       reader.expect_end("cup punch cup");
     }},
    {"serves",
     [](LineReader& reader, Drink& drink, bool) {
       auto number = reader.plain_number("`serves`");
       if (!number || !reader.expect_end("serves 10")) return;
       if (number->number() < 1 || number->number() > 100000) {
         reader.fail(Rule::bad_number, number->span, "a bowl serves one or more",
                     "Write how many cups it fills.");
         return;
       }
       drink.serves = number->number();
     }},
    {"right when",
     [](LineReader& reader, Drink& drink, bool first) {
       if (first) drink.right_when.clear();
       drink.right_when.push_back(reader.string_or_rest("`right when`"));
     }},
    {"expect",
     [](LineReader& reader, Drink& drink, bool) {
       if (auto expect = read_expect(reader)) drink.expects.push_back(*expect);
     }},
    {"alcohol",
     [](LineReader& reader, Drink& drink, bool) {
       auto range = reader.quantity({Kind::strength}, "`alcohol`");
       if (range && reader.expect_end("alcohol ..0.5 % abv")) drink.alcohol = *range;
     }},
    {"batched", read_batched},
    {"size",
     [](LineReader& reader, Drink& drink, bool) {
       auto size = reader.quantity({Kind::volume}, "`size`");
       if (size && reader.expect_end("size 90 ml")) drink.size = *size;
     }},
    {"station",
     [](LineReader& reader, Drink& drink, bool) { drink.station = reader.string_or_rest("`station`"); }},
    {"tag",
     [](LineReader& reader, Drink& drink, bool first) {
       if (first) drink.tags.clear();
       do {
         std::string tag = reader.words(reader.comma_or_end());
         if (!tag.empty()) drink.tags.push_back(tag);
       } while (reader.take_comma());
     }},
    {"guest", [](LineReader& reader, Drink& drink, bool) { drink.guest = reader.string_or_rest("`guest`"); }},
    {"was",
     [](LineReader& reader, Drink& drink, bool) { drink.was = reader.name(reader.line().size(), "drink"); }},
    {"author",
     [](LineReader& reader, Drink& drink, bool first) {
       if (first) drink.authors.clear();
       drink.authors.push_back(reader.string_or_rest("`author`"));
     }},
    {"since",
     [](LineReader& reader, Drink& drink, bool) {
       if (auto date = reader.date()) drink.since = *date;
       reader.expect_end("since 2026-03-01");
     }},
    {"tasted",
     [](LineReader& reader, Drink& drink, bool) {
       auto date = reader.date();
       if (!date) return;
       drink.tastings.push_back({*date, reader.done() ? std::string() : reader.string_or_rest("`tasted`")});
     }},
    {"measured",
     [](LineReader& reader, Drink& drink, bool) {
       if (auto measured = read_measurement(reader, false)) drink.measured.push_back(std::move(*measured));
     }},
    {"status", read_status},
    {"caution",
     [](LineReader& reader, Drink& drink, bool first) {
       if (first) drink.cautions.clear();
       drink.cautions.push_back(reader.string_or_rest("`caution`"));
     }},
    {"colour", [](LineReader& reader, Drink& drink, bool) { drink.colour = read_colour(reader); }},
    {"color", [](LineReader& reader, Drink& drink, bool) { drink.colour = read_colour(reader); }},
    {"source",
     [](LineReader& reader, Drink& drink, bool) { drink.head.source = reader.string_or_rest("`source`"); }},
};

/// The glass and the ice that steps say in passing, held against what the drink's own lines say.
class ImpliedService {
 public:
  ImpliedService(const Context& context, Drink& drink) : context_(context), drink_(drink) {}

  /// Notes that the drink's own line says it.
  void see(const syntax::LineView& line) {
    glass_stated_ = glass_stated_ || line.is_word(0, "glass");
    ice_stated_ = ice_stated_ || line.is_word(0, "ice");
  }
  void imply(const syntax::LineView& line, Implied implied) { lines_.push_back({line, implied}); }

  /// Puts what was implied into the drink; false when it contradicts what stands there (reported).
  bool settle() {
    bool agrees = true;
    for (const auto& line : lines_) {
      LineReader reader(line.view, context_);
      if (line.view.is_word(0, "glass"))
        settle_glass(reader);
      else
        settle_ice(reader, line.implied);
      agrees = agrees && !reader.is_wrong();
    }
    return agrees;
  }

 private:
  void settle_glass(LineReader& reader) {
    Drink said;
    reader.take_word("glass");
    read_glass_line(reader, said, true);
    if (reader.failed()) return;
    if (glass_stated_ && !(said.glass == drink_.glass)) {
      reader.fail(Rule::bad_line, reader.line().whole(),
                  fmt::format("the drink is poured into {} here, and its glass is {}",
                              name_of_glass(said.glass), name_of_glass(drink_.glass)),
                  "Name one glass: change the step or the `glass` line.");
      return;
    }
    drink_.glass = said.glass;
    drink_.glass_span = said.glass_span;
    drink_.glass_chilled = drink_.glass_chilled || said.glass_chilled;
    drink_.glass_warmed = drink_.glass_warmed || said.glass_warmed;
    drink_.glass_frozen = drink_.glass_frozen || said.glass_frozen;
    glass_stated_ = true;
  }

  void settle_ice(LineReader& reader, Implied implied) {
    Drink said;
    reader.take_word("ice");
    read_ice_line(reader, said, true);
    if (reader.failed()) return;
    bool has_ice = drink_.ice.kind == GlassIce::Kind::given;
    // `ice`, then a shake: it went into the tin.
    if (implied == Implied::tin_or_glass && is_worked_in_tin()) return;
    if (implied == Implied::tin_or_glass) implied = Implied::any_ice;
    bool agrees = implied == Implied::any_ice
                      ? has_ice
                      : drink_.ice.kind == said.ice.kind && drink_.ice.use.ice == said.ice.use.ice;
    if (ice_stated_ && !agrees) {
      reader.fail(Rule::bad_line, reader.line().whole(),
                  "the step says one ice to serve on, and the drink's `ice` line another",
                  "Say it once: change the step or the `ice` line.");
      return;
    }
    if (implied == Implied::any_ice && has_ice) return;
    drink_.ice = said.ice;
    ice_stated_ = true;
  }

  /// True where the drink is worked on ice and strained off it, and no line builds it in its glass.
  bool is_worked_in_tin() const {
    bool works = false, strained = false;
    for (const auto& step : drink_.recipe.steps) {
      if (step.verb == Verb::build) return false;
      works = works || (info(step.verb).takes_ice && step.verb != Verb::swizzle);
      strained = strained || (strains(step.verb) && !step.to_tin);
    }
    return works && strained;
  }

  std::string name_of_glass(GlassId id) const {
    return id.valid() ? fmt::format("`{}`", context_.specs[id].head.name) : std::string("not known");
  }

  const Context& context_;
  Drink& drink_;
  std::vector<ReadLine> lines_;
  bool glass_stated_ = false, ice_stated_ = false;
};

}  // namespace

std::vector<std::string_view> drink_keywords() { return keywords_of(drink_lines); }

void read_drink(DeclarationReader& lines, const Context& context, Drink& drink, bool is_variation) {
  RecipeBuilder recipe(drink.recipe, drink.head, is_variation, false);
  ImpliedService service(context, drink);
  TradeForms forms(context, false);
  lines.each_recipe_line(forms, drink_lines,
                         [&](LineReader& reader, const std::string& text, Implied implied) {
                           if (implied != Implied::no) return service.imply(reader.line(), implied);
                           service.see(reader.line());
                           if (recipe.read_line(reader, text)) return;
                           if (!lines.read_property(reader, drink_lines, drink) &&
                               report_unknown_line(reader, keywords_of(drink_lines), true, false))
                             drink.head.has_amount_errors = true;
                           lines.keep_text(text);
                         });
  if (!service.settle()) drink.head.has_errors = drink.head.has_build_errors = true;
}

}  // namespace gill::analysis
