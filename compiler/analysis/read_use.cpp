#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>

#include "analysis/read_recipe.h"
#include "base/characters.h"
#include "base/text.h"

namespace gill::analysis {

using diagnostics::Rule;
using syntax::TokenKind;

namespace {

/// The word with several meanings that is written, in the singular or in the plural (`eggs`).
auto asked_word(const Context& context, const std::string& name) {
  const auto& asks = context.specs.house.asks;
  std::string folded = base::fold_name(name);
  auto found = asks.find(folded);
  if (found == asks.end() && folded.ends_with('s')) found = asks.find(folded.substr(0, folded.size() - 1));
  return found;
}

/// A word with several meanings is never guessed: the library's `ask` lines say what may be meant.
bool report_several_meanings(LineReader& reader, std::size_t first, std::size_t end,
                             const std::string& name) {
  const auto& asks = reader.context().specs.house.asks;
  auto found = asked_word(reader.context(), name);
  if (found == asks.end()) return false;
  std::vector<std::string> answers;
  for (const auto& answer : found->second) answers.push_back("`" + answer + "`");
  reader.fail(
      Rule::unknown_name, reader.line().span(first, end), fmt::format("`{}` can mean several things", name),
      fmt::format(
          "Write {}. A house can answer once for all its lines, in its house declaration: `mean {} = {}`.",
          base::join_with_or(answers), name, found->second.front()));
  return true;
}

/// `honey syrup or maple syrup`: a comma is missing before `or`.
bool report_missing_comma(LineReader& reader, std::size_t first, std::size_t end) {
  // Names have few words; a line of a million `or`s is not looked through.
  constexpr std::size_t max_words = 40;
  if (end - first > max_words) return false;
  const auto& line = reader.line();
  for (std::size_t i = first + 1; i + 1 < end; ++i) {
    if (!line.is_word(i, "or")) continue;
    if (!find_use(reader, first, i) || !find_use(reader, i + 1, end)) continue;
    reader.fail(Rule::unknown_name, line.span(first, end), "a substitute follows a comma",
                fmt::format("Write `{}, or {}`.", base::collapse_space(line.raw(first, i)),
                            base::collapse_space(line.raw(i + 1, end))));
    return true;
  }
  return false;
}

/// `whiskey, rye`: the same words in the order that the name has.
std::optional<std::string> turned_round(const LineReader& reader, std::size_t first, std::size_t end) {
  const auto& line = reader.line();
  std::string name = base::collapse_space(line.raw(first, end));
  if (line.kind(end) == TokenKind::comma && end < line.size()) {
    std::size_t last = end + 1;
    while (last < line.size() && line.kind(last) != TokenKind::comma) ++last;
    if (last > end + 1) name += " " + base::collapse_space(line.raw(end + 1, last));
  }
  return reader.context().names.same_words(symbols::NameSpace::stock, name);
}

/// True where both names say last what they are (`cherry syrup`, `cherry liqueur`) and do not say the same.
bool last_word_differs(std::string_view a, std::string_view b) {
  auto last = [](std::string_view name) {
    auto space = name.rfind(' ');
    return space == std::string_view::npos ? std::string()
                                           : base::fold_name(std::string(name.substr(space + 1)));
  };
  std::string of_a = last(a), of_b = last(b);
  constexpr std::size_t max_slips = 2;
  return !of_a.empty() && !of_b.empty() && base::edit_distance(of_a, of_b, max_slips + 1) > max_slips;
}

/// What a bottle's name ends or begins with, where the library knows it: `Grey Heron vodka` is a vodka. Only
/// what comes from a bottle with a label.
std::optional<std::string> nearest_relation(const LineReader& reader, std::size_t first, std::size_t end) {
  // No label holds more words: a line of thousands is looked through once, not once a word.
  constexpr std::size_t max_label_words = 12;
  if (end - first > max_label_words) return std::nullopt;
  auto bottle_called = [&](std::size_t from, std::size_t to) -> std::optional<std::string> {
    auto use = find_use(reader, from, to);
    if (!use || use->item.valid()) return std::nullopt;
    const auto& stock = reader.context().specs[use->stock];
    static constexpr StockKind bottled[] = {
        StockKind::spirit, StockKind::liqueur,   StockKind::bitters, StockKind::fortified_wine,
        StockKind::wine,   StockKind::sparkling, StockKind::beer,    StockKind::mixer};
    if (stock.is_prep || std::find(std::begin(bottled), std::end(bottled), stock.kind) == std::end(bottled))
      return std::nullopt;
    return stock.head.name;
  };
  for (std::size_t from = first + 1; from < end; ++from)
    if (auto name = bottle_called(from, end)) return name;
  for (std::size_t to = end - 1; to > first; --to)
    if (auto name = bottle_called(first, to)) return name;
  return std::nullopt;
}

/// True where the names differ by no more than a slip of the hand: a word of few letters that differs by two
/// is another word.
bool is_a_slip(std::string_view name, std::string_view near) {
  constexpr std::size_t letters_a_slip = 8;
  std::string a = base::fold_name(name), b = base::fold_name(near);
  // Another figure is another thing, and nobody slips on the first letter of a short word.
  auto figures = [](const std::string& one) {
    std::string digits;
    for (char c : one)
      if (base::is_digit(c)) digits += c;
    return digits;
  };
  constexpr std::size_t short_word = 6;
  if ((!figures(b).empty() && figures(a) != figures(b)) ||
      (std::min(a.size(), b.size()) < short_word && a[0] != b[0]))
    return false;
  std::size_t slips = 1 + std::min(a.size(), b.size()) / letters_a_slip;
  return base::edit_distance(a, b, slips + 1) <= slips;
}

bool find_stock_named(const LineReader& reader, std::string_view name) {
  return reader.context().names.find(symbols::NameSpace::stock, std::string(name)).valid();
}

/// How to say once what a bottle is that nobody knows.
std::string declaring_line(const LineReader& reader, std::size_t first, std::size_t end,
                           const std::string& name) {
  // `50 cachaca 40 coconut cream`: no bottle is called so. A line has few words; of thousands each would be
  // looked through once a word.
  constexpr std::size_t max_words = 40;
  for (std::size_t i = first; i < end && end - first <= max_words; ++i)
    if (reader.line().kind(i) == TokenKind::number && i + 1 < end && find_use(reader, i + 1, end))
      return "Each amount has its unit and a line of its own.";
  // `1 shot`: a measure, and nothing is named.
  if (auto measure = reader.explain_unit(name); !measure.units.empty() || !measure.millilitres.empty())
    return "Say what it is of, behind the measure.";
  auto relation = nearest_relation(reader, first, end);
  // What is dashed from a bottle that nobody knows is mostly bitters.
  bool is_dashed =
      first > 0 && (reader.line().is_word(first - 1, "dash") || reader.line().is_word(first - 1, "dashes"));
  if (!relation && is_dashed && find_stock_named(reader, "aromatic bitters") &&
      find_stock_named(reader, "hot sauce")) {
    std::string before = base::collapse_space(reader.line().raw(0, first)),
                behind = end < reader.line().size()
                             ? base::collapse_space(reader.line().raw(end, reader.line().size()))
                             : std::string();
    if (reader.line().is_word(end - 1, "bitters"))
      return fmt::format(
          "Write `{0} aromatic bitters{1}`, `{0} orange bitters{1}` or `{0} anise bitters{1}` if it is one "
          "of them. "
          "Else declare it once: `ingredient {2} like aromatic bitters`, and below it the `strength` that "
          "its label "
          "gives.",
          before, behind, name);
    return fmt::format(
        "Write `{0} aromatic bitters{1}` or `{0} hot sauce{1}` if it is one of them. Else declare it once, "
        "from its "
        "nearest relation: `ingredient {2} like aromatic bitters`, and below it the `strength` that its "
        "label gives.",
        before, behind, name);
  }
  if (relation)
    return fmt::format(
        "Declare it once, from its nearest relation: `ingredient {} like {}`, and below it the "
        "`strength` that its label gives.",
        name, *relation);
  return fmt::format(
      "Declare it: `ingredient {}` with its kind, or `prep {}`. A bottle may be declared like the "
      "thing of the library that is nearest to it, with the `strength` of its label.",
      name, name);
}

void report_unknown(LineReader& reader, std::size_t first, std::size_t end, const std::string& name) {
  auto turned = turned_round(reader, first, end);
  if (!turned &&
      (report_several_meanings(reader, first, end, name) || report_missing_comma(reader, first, end)))
    return;
  auto near = turned ? turned : reader.context().names.nearest(symbols::NameSpace::stock, name);
  // A syrup is no slip of a spirit, nor a word of the bar of another.
  if (!turned && near &&
      (reader.is_trade_word(name) || last_word_differs(name, *near) || !is_a_slip(name, *near)))
    near.reset();
  auto span = reader.line().span(first, end);
  // The rest of a name that is turned round stands behind the comma: it is no remark.
  if (turned && end < reader.line().size()) reader.move_to(reader.line().size());
  reader.mistake(Rule::unknown_name, span, fmt::format("no ingredient or prep is called `{}`", name),
                 near ? fmt::format("Did you mean `{}`?", *near) : declaring_line(reader, first, end, name),
                 turned ? std::nullopt : reader.name_fix(symbols::NameSpace::stock, span, name, near));
}

/// The stock whose name this is the plural of (`bird's eye chillies`), where no name is written so.
DeclarationId find_singular(const Context& context, const std::string& name) {
  struct Ending {
    std::string_view plural, singular;
  };
  static constexpr std::array<Ending, 5> endings = {
      {{"ies", "y"}, {"ies", "i"}, {"ves", "f"}, {"es", ""}, {"s", ""}}};
  constexpr std::size_t shortest = 4;
  if (name.size() < shortest || !name.ends_with('s')) return {};
  for (const auto& ending : endings) {
    if (!name.ends_with(ending.plural)) continue;
    auto id =
        context.names.find(symbols::NameSpace::stock,
                           name.substr(0, name.size() - ending.plural.size()) + std::string(ending.singular));
    if (id.valid()) return id;
  }
  return {};
}

/// The stock of that name; of a word with several meanings what the house means by it, if it says so.
DeclarationId find_stock(const Context& context, const std::string& name) {
  auto id = context.names.find(symbols::NameSpace::stock, name);
  if (id.valid() && !context.names[id].from_library) return id;
  const auto& house = context.specs.house;
  if (!id.valid() && !house.asks.contains(base::fold_name(name))) id = find_singular(context, name);
  if (house.asks.empty()) return id;
  std::string folded = base::fold_name(name);
  if (auto meant = house.means.find(folded); meant != house.means.end())
    return context.names.find(symbols::NameSpace::stock, meant->second);
  if (id.valid() || !house.asks.contains(folded)) return id;
  return {};
}

StockId stock_of(const Context& context, DeclarationId id) {
  return StockId{context.specs.index_of[id.index()]};
}

/// True where the declaration itself has that name, or says so in its `aka`.
bool is_called_so(const Context& context, DeclarationId id, const std::string& written) {
  const auto& declaration = context.names[id];
  std::string folded = base::fold_name(written);
  return base::fold_name(declaration.name) == folded ||
         std::any_of(declaration.aliases.begin(), declaration.aliases.end(),
                     [&](const auto& alias) { return base::fold_name(alias.name) == folded; });
}

}  // namespace

std::optional<Use> find_use(const LineReader& reader, std::size_t first, std::size_t end) {
  const auto& line = reader.line();
  const auto& context = reader.context();
  if (end <= first) return std::nullopt;
  std::size_t bad = 0;
  if (!syntax::is_plain_name(line, first, end, bad)) return std::nullopt;
  auto whole = find_stock(context, syntax::name_text(line, first, end));
  const bool is_of_house = whole.valid() && !context.specs[stock_of(context, whole)].head.from_library;
  if (is_of_house && is_called_so(context, whole, syntax::name_text(line, first, end)))
    return Use{stock_of(context, whole), {}, line.span(first, end)};
  // The item word behind the name: `lemon twist`, `orange half wheel`. `celery stick` is another name of
  // celery in the library, and says as well how much of it. `vanilla pod` is the bean by its other name.
  for (std::size_t words : {std::size_t{2}, std::size_t{1}}) {
    if (end - first < words + 1) continue;
    auto item = context.units.find(syntax::name_text(line, end - words, end));
    if (!item.valid() || !context.units[item].is_item_word) continue;
    std::string name = syntax::name_text(line, first, end - words);
    auto id = find_stock(context, name);
    if (!id.valid()) continue;
    const auto& stock = context.specs[stock_of(context, id)];
    // `OJ slice`: nobody cuts a juice.
    static constexpr std::string_view cut[] = {"slice", "wheel", "twist", "wedge",
                                               "peel",  "leaf",  "sprig", "strip"};
    if (stock.head.from_library && !stock.is_prep && stock.kind == StockKind::juice &&
        base::is_any_of(std::string_view(context.units[item].symbol), cut))
      continue;
    // Only the library is sure to be read before what names it: of the house's own nobody knows yet what its
    // pieces weigh, and another name of it that the library alone has says one.
    bool is_piece_of_it = id == whole && (is_of_house || stock.each.contains(item)) &&
                          base::fold_name(name) == base::fold_name(stock.head.name);
    if (!whole.valid() || is_piece_of_it) return Use{stock_of(context, id), item, line.span(first, end)};
  }
  if (whole.valid()) return Use{stock_of(context, whole), {}, line.span(first, end)};
  return std::nullopt;
}

const std::vector<std::string>* answers_to(const LineReader& reader, std::size_t first, std::size_t end) {
  std::size_t bad = 0;
  if (end <= first || !syntax::is_plain_name(reader.line(), first, end, bad)) return nullptr;
  auto found = asked_word(reader.context(), syntax::name_text(reader.line(), first, end));
  return found == reader.context().specs.house.asks.end() ? nullptr : &found->second;
}

bool is_asked_about(const LineReader& reader, std::size_t first, std::size_t end) {
  return answers_to(reader, first, end) != nullptr;
}

std::optional<Use> read_use(LineReader& reader, std::size_t end) {
  std::size_t first = reader.at();
  if (auto use = find_use(reader, first, end)) {
    reader.move_to(end);
    return use;
  }
  std::string name = reader.name(end, "ingredient or prep");
  if (!reader.failed()) report_unknown(reader, first, end, name);
  return std::nullopt;
}

}  // namespace gill::analysis
