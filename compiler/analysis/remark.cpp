#include "analysis/remark.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "analysis/forms/form_matcher.h"
#include "analysis/read_recipe.h"
#include "analysis/typo.h"
#include "analysis/verbs.h"
#include "base/characters.h"
#include "base/text.h"

namespace gill::analysis {

using diagnostics::Rule;
using syntax::LineView;
using syntax::TokenKind;

namespace {

/// Longest name that is looked for, in words.
constexpr std::size_t max_name_words = 5;

/// What would be lost if it were only a remark.
struct Hidden {
  Span span;
  std::string what;
};

/// Words of the label that are no ingredient's name by themselves.
constexpr std::array<std::string_view, 20> allergen_words = {
    "nut",    "nuts",   "peanut",    "peanuts", "almond", "almonds",   "hazelnut",
    "walnut", "cashew", "pistachio", "gluten",  "dairy",  "shellfish", "lactose",
    "soy",    "soya",   "sesame",    "wheat",   "fish",   "sulphites"};

/// Names that are also plain words of how a thing is done: `washed in water`, `the colour of honey` would be
/// told for nothing, but what goes into a drink by that name always has an amount.
constexpr std::array<std::string_view, 4> plain_words = {"water", "block", "sheet", "drink"};

/// Names of ice that are also words for how a thing is cut.
constexpr std::array<std::string_view, 4> cut_words = {"cubed", "crushed", "cracked", "shaved"};

/// Steps that a remark may not hide, beside the language's verbs.
constexpr std::array<std::string_view, 5> places = {"fridge", "freezer", "overnight", "walk-in", "sieve"};

/// What begins a step, though no verb of the language is called so: `fill with cold cola`.
constexpr std::array<std::string_view, 9> steps_by_other_names = {
    "fill", "pour", "lengthen", "drizzle", "combine", "blitz", "filter", "cap", "juiced"};

std::string singular(std::string name) {
  if (name.size() > 3 && name.back() == 's') name.pop_back();
  return name;
}

class RemarkReader {
 public:
  RemarkReader(const LineReader& reader, std::size_t first, std::size_t last)
      : reader_(reader), line_(reader.line()), first_(first), last_(last) {}

  std::optional<Hidden> hidden() const {
    if (auto found = modifier()) return found;
    for (std::size_t i = first_; i < last_; ++i) {
      if (auto found = quantity_at(i)) return found;
      if (auto found = name_at(i)) return found;
      for (auto place : places)
        if (line_.is_word(i, place)) return Hidden{line_.span(i), "a time or a place to stand"};
    }
    return step();
  }

 private:
  /// `chilled garnish none`: behind the modifier another line was run on.
  std::optional<Hidden> modifier() const {
    static constexpr std::array<std::string_view, 5> modifiers = {"chilled", "frozen", "hot", "optional",
                                                                  "sealed"};
    bool leads = std::any_of(modifiers.begin(), modifiers.end(),
                             [&](std::string_view word) { return line_.is_word(first_, word); });
    if (!leads || first_ + 1 >= last_) return std::nullopt;
    return Hidden{line_.span(first_), "how it goes in"};
  }

  std::optional<Hidden> quantity_at(std::size_t i) const {
    // `do not boil (70C)`
    if (line_.kind(i) == TokenKind::word && line_.text(i).size() > 2 && line_.text(i)[0] == '(' &&
        base::is_digit(line_.text(i)[1]))
      return Hidden{line_.span(i), "an amount, a time or a temperature"};
    if (auto loose = loose_measure_at(i)) return loose;
    if (line_.kind(i) != TokenKind::number) return std::nullopt;
    // `500 ml water, 2 times`: so often the amount.
    if (i == first_ && line_.is_word(i + 1, "times") && line_.kind(0) == TokenKind::number)
      return Hidden{line_.span(i, i + 2), "an amount"};
    auto match = reader_.context().units.match(line_, i + 1);
    if (!match.unit.valid() || i + 1 + match.tokens > last_) return std::nullopt;
    // `in 8 pieces`, `cut into 6 wedges`: how it is cut.
    if (i > first_ && (line_.is_word(i - 1, "in") || line_.is_word(i - 1, "into")) &&
        reader_.context().units[match.unit].is_item_word && i + 1 + match.tokens == last_ && is_of_solid())
      return std::nullopt;
    // `sliced 4 mm`: how thick is no amount.
    if (reader_.context().units[match.unit].kind == units::Kind::length) return std::nullopt;
    return Hidden{line_.span(i, i + 1 + match.tokens), "an amount, a time or a temperature"};
  }

  /// `just a splash`: how much of it.
  std::optional<Hidden> loose_measure_at(std::size_t i) const {
    if (!line_.is_word(i, "a") && !line_.is_word(i, "one") && !line_.is_word(i, "half")) return std::nullopt;
    auto match = reader_.context().units.match(line_, i + 1);
    if (!match.unit.valid() || i + 1 + match.tokens != last_) return std::nullopt;
    if (reader_.context().units[match.unit].kind != units::Kind::volume) return std::nullopt;
    return Hidden{line_.span(i, last_), "an amount"};
  }

  std::optional<Hidden> name_at(std::size_t i) const {
    const auto& names = reader_.context().names;
    for (std::size_t last = std::min(last_, i + max_name_words); last > i; --last) {
      std::size_t bad = 0;
      if (!syntax::is_plain_name(line_, i, last, bad)) continue;
      std::string name = base::fold_name(syntax::name_text(line_, i, last));
      bool is_plain = std::find(plain_words.begin(), plain_words.end(), name) != plain_words.end();
      if (!is_plain &&
          (find_use(reader_, i, last) || names.find(symbols::NameSpace::stock, singular(name)).valid()))
        return Hidden{line_.span(i, last), "an ingredient"};
      if (is_plain) continue;
      if (names.find(symbols::NameSpace::glass, name).valid()) return Hidden{line_.span(i, last), "a glass"};
      // `peeled and cubed` says how a thing is cut.
      bool is_cut = last == i + 1 && !line_.is_word(i + 1, "ice") && !line_.is_word(i + 1, "cubes") &&
                    std::find(cut_words.begin(), cut_words.end(), name) != cut_words.end() && is_of_solid();
      if (is_cut) continue;
      if (names.find(symbols::NameSpace::ice, name).valid() || name == "ice" || name == "ice cubes")
        return Hidden{line_.span(i, last), "ice"};
      if (std::find(allergen_words.begin(), allergen_words.end(), name) != allergen_words.end())
        return Hidden{line_.span(i, last), "an allergen"};
    }
    return std::nullopt;
  }

  /// The line is an amount of something that is cut.
  bool is_of_solid() const {
    std::size_t stop = 0;
    while (stop < first_ && line_.kind(stop) != TokenKind::comma) ++stop;
    auto use = use_of_amount(line_.part(0, stop), reader_.context());
    return use && reader_.context().specs[use->stock].effective_form() != Form::liquid;
  }

  /// A step stands first, or after `then`, `and`, `to`.
  std::optional<Hidden> step() const {
    for (std::size_t i = first_; i < last_; ++i) {
      // `salted half rim`, not `on the rim`.
      if (i > first_ && i + 1 == last_ && line_.is_word(i, "rim") && !is_place(i - 1))
        return Hidden{line_.span(i), "a step"};
      // `quick stir`: how stands before the step.
      bool is_led = i > first_ && i + 1 == last_;
      for (std::size_t k = first_; k < i && is_led; ++k) is_led = FormMatcher::is_how(line_.text(k));
      bool may_start = is_led || i == first_ || line_.is_word(i - 1, "then") ||
                       (i == first_ + 1 && line_.is_word(first_, "to"));
      if (!may_start) continue;
      auto verb = match_verb(line_, i);
      if (verb && i + verb->tokens <= last_ && verb->verb != Verb::do_ && verb->verb != Verb::add_ice)
        return Hidden{line_.span(i, i + verb->tokens), "a step"};
      for (auto word : steps_by_other_names)
        if (!verb && i == first_ && line_.is_word(i, word)) return Hidden{line_.span(i), "a step"};
    }
    return std::nullopt;
  }

  /// A word before the name of a place: `on the rim`, `salted rim` is none.
  bool is_place(std::size_t i) const {
    for (std::string_view word : {"the", "on", "over", "to", "round", "around", "of", "along", "inside",
                                  "from", "wipe", "no", "glass", "clean", "its"})
      if (line_.is_word(i, word)) return true;
    return false;
  }

  const LineReader& reader_;
  const LineView line_;
  std::size_t first_, last_;
};

}  // namespace

bool is_plain_remark(const LineReader& reader, std::size_t first, std::size_t end) {
  if (first >= end) return true;
  for (std::string_view where : {"in", "into", "over", "on", "to", "with", "without", "and", "then"})
    if (reader.line().is_word(first, where)) return false;
  return !RemarkReader(reader, first, end).hidden();
}

std::vector<Use> uses_named(const LineReader& reader, std::size_t first, std::size_t end) {
  const auto& line = reader.line();
  const auto& context = reader.context();
  std::vector<Use> uses;
  for (std::size_t i = first; i < end; ++i)
    for (std::size_t last = std::min(end, i + max_name_words); last > i; --last) {
      std::size_t bad = 0;
      if (!syntax::is_plain_name(line, i, last, bad)) continue;
      std::string name = base::fold_name(syntax::name_text(line, i, last));
      if (std::find(plain_words.begin(), plain_words.end(), name) != plain_words.end()) continue;
      auto use = find_use(reader, i, last);
      if (auto id = context.names.find(symbols::NameSpace::stock, singular(name)); !use && id.valid())
        use = Use{StockId{context.specs.index_of[id.index()]}, {}, line.span(i, last)};
      if (!use) continue;
      // `serve without the almonds`, `no nuts`
      bool is_denied = false;
      for (std::size_t back = 1; back <= 2 && i >= first + back; ++back)
        for (auto word : {"no", "not", "without"}) is_denied = is_denied || line.is_word(i - back, word);
      if (!is_denied) uses.push_back(*use);
      i = last - 1;
      break;
    }
  return uses;
}

bool report_misspelt_modifier(LineReader& reader, const std::vector<std::string_view>& modifiers,
                              std::string_view of) {
  const auto& line = reader.line();
  if (reader.comma_or_end() != reader.at() + 1 || line.kind(reader.at()) != TokenKind::word) return false;
  std::string written = base::lower_ascii(line.text(reader.at()));
  auto slips = one_typo_away(written);
  for (auto meant : modifiers)
    if (slips.count(std::string(meant)) > 0)
      return !reader.fail(Rule::unknown_word, line.span(reader.at()),
                          fmt::format("`{}` is no word of {}", written, of),
                          fmt::format("Did you mean `{}`?", meant),
                          word_fix(line.span(reader.at()), written, modifiers, meant));
  return false;
}

std::optional<std::string> read_remark(LineReader& reader, std::size_t end) {
  const auto& line = reader.line();
  std::size_t first = reader.at();
  if (end == first + 1 && line.kind(first) == TokenKind::string) {
    std::string remark = syntax::name_text(line, first, end);
    reader.move_to(end);
    return remark;
  }
  auto hidden = RemarkReader(reader, first, end).hidden();
  if (!hidden) {
    std::string remark = reader.words(end);
    if (reader.failed()) return std::nullopt;
    return remark;
  }
  std::string before = base::collapse_space(line.raw(0, first - 1)),
              remark = base::collapse_space(line.raw(first, end));
  std::string quoted = base::collapse_space(std::string(line.raw(0, first - 1))) + ", \"" + remark + "\"";
  if (end < line.size()) quoted += base::collapse_space(line.raw(end, line.size()));
  reader.fail(
      Rule::bad_line, hidden->span,
      fmt::format("`{}` is {}, and after a comma it would only be a remark", reader.written(hidden->span),
                  hidden->what),
      remark.find('"') == std::string::npos
          ? fmt::format(
                "What goes into the drink or is done to it has a line of its own. If it is only a remark, "
                "put it in quotes: `{}`.",
                quoted)
          : std::string("What goes into the drink or is done to it has a line of its own."));
  return std::nullopt;
}

}  // namespace gill::analysis
