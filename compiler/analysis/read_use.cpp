#include <fmt/format.h>

#include <array>

#include "analysis/read_recipe.h"
#include "base/text.h"

namespace gill::analysis {

using diagnostics::Rule;
using syntax::TokenKind;

namespace {

struct TwoMeanings {
  std::string_view name;
  std::string_view meanings;
};

// Names that people use for two things are never guessed.
constexpr std::array<TwoMeanings, 9> two_meanings = {{
    {"sugar syrup", "`simple syrup` (1:1 by mass) or `rich syrup` (2:1)"},
    {"cordial",
     "`lime cordial`, `elderflower cordial`, or a prep of your own by its whole name; a cordial can also be "
     "a liqueur"},
    {"lemonade", "`still lemonade` or `sparkling lemonade`"},
    {"cider", "`apple juice` or `dry cider`"},
    {"cream of coconut", "`coconut cream` (unsweetened) or `sweetened coconut cream`"},
    {"sour mix", "lemon juice and syrup by name; write both"},
    {"vermouth", "`sweet vermouth` or `dry vermouth`"},
    {"bitters", "`aromatic bitters` or `orange bitters`"},
    {"egg", "`whole egg`, `egg white` or `egg yolk`"},
}};

bool report_two_meanings(LineReader& reader, std::size_t first, std::size_t end, const std::string& name) {
  for (const auto& entry : two_meanings) {
    if (base::fold_name(name) != entry.name) continue;
    reader.fail(Rule::unknown_name, reader.line().span(first, end),
                fmt::format("`{}` is used for two things", name), fmt::format("Write {}.", entry.meanings));
    return true;
  }
  return false;
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
    reader.fail(Rule::unknown_name, line.span(first, end), "a stand-in follows a comma",
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

void report_unknown(LineReader& reader, std::size_t first, std::size_t end, const std::string& name) {
  if (report_two_meanings(reader, first, end, name) || report_missing_comma(reader, first, end)) return;
  auto turned = turned_round(reader, first, end);
  auto near = turned ? turned : reader.context().names.nearest(symbols::NameSpace::stock, name);
  auto span = reader.line().span(first, end);
  reader.mistake(Rule::unknown_name, span, fmt::format("no ingredient or prep is called `{}`", name),
                 near ? fmt::format("Did you mean `{}`?", *near)
                      : fmt::format("Declare it: `ingredient {}` with its kind, or `prep {}`.", name, name),
                 turned ? std::nullopt : reader.name_fix(symbols::NameSpace::stock, span, name, near));
}

StockId stock_of(const Context& context, DeclarationId id) {
  return StockId{context.specs.index_of[id.index()]};
}

}  // namespace

std::optional<Use> find_use(const LineReader& reader, std::size_t first, std::size_t end) {
  const auto& line = reader.line();
  const auto& context = reader.context();
  if (end <= first) return std::nullopt;
  std::size_t bad = 0;
  if (!syntax::is_plain_name(line, first, end, bad)) return std::nullopt;
  auto id = context.names.find(symbols::NameSpace::stock, syntax::name_text(line, first, end));
  if (id.valid()) return Use{stock_of(context, id), {}, line.span(first, end)};
  if (end - first < 2) return std::nullopt;
  auto item = context.units.find(line.text(end - 1));
  if (!item.valid() || !context.units[item].is_item_word) return std::nullopt;
  id = context.names.find(symbols::NameSpace::stock, syntax::name_text(line, first, end - 1));
  if (!id.valid()) return std::nullopt;
  return Use{stock_of(context, id), item, line.span(first, end)};
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
