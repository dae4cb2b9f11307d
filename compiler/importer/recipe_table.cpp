#include "importer/recipe_table.h"

#include <algorithm>
#include <array>

#include "base/characters.h"
#include "base/text.h"
#include "importer/ingredient_line.h"
#include "importer/spec_labels.h"

namespace gill::importer {
namespace {

struct ColumnWord {
  std::string_view word;
  ColumnKind kind;
};

// Heads of columns in the sheets of bars (common practice, no source).
constexpr auto column_words = std::to_array<ColumnWord>({
    {"name", ColumnKind::name},
    {"drink", ColumnKind::name},
    {"cocktail", ColumnKind::name},
    {"drink name", ColumnKind::name},
    {"cocktail name", ColumnKind::name},
    {"recipe name", ColumnKind::name},
    {"getränk", ColumnKind::name},
    {"nom", ColumnKind::name},
    {"boisson", ColumnKind::name},
    {"nombre", ColumnKind::name},
    {"cóctel", ColumnKind::name},
    {"bebida", ColumnKind::name},
    {"nome", ColumnKind::name},
    {"bevanda", ColumnKind::name},
    {"spirit", ColumnKind::part},
    {"spirits", ColumnKind::part},
    {"base", ColumnKind::part},
    {"mod", ColumnKind::part},
    {"modifier", ColumnKind::part},
    {"modifiers", ColumnKind::part},
    {"citrus", ColumnKind::part},
    {"sour", ColumnKind::part},
    {"acid", ColumnKind::part},
    {"sweet", ColumnKind::part},
    {"sweetener", ColumnKind::part},
    {"syrup", ColumnKind::part},
    {"juice", ColumnKind::part},
    {"bitters", ColumnKind::part},
    {"mixer", ColumnKind::part},
    {"lengthener", ColumnKind::part},
    {"top", ColumnKind::part},
    {"other", ColumnKind::part},
    {"liqueur", ColumnKind::part},
    {"egg", ColumnKind::part},
    {"spirituose", ColumnKind::part},
    {"säure", ColumnKind::part},
    {"süße", ColumnKind::part},
    {"filler", ColumnKind::part},
    {"alcool", ColumnKind::part},
    {"sucre", ColumnKind::part},
    {"agrume", ColumnKind::part},
    {"ingredients", ColumnKind::part},
    {"spec", ColumnKind::part},
    {"recipe", ColumnKind::part},
    {"zutaten", ColumnKind::part},
    {"ingrédients", ColumnKind::part},
    {"ingredientes", ColumnKind::part},
    {"ingredienti", ColumnKind::part},
    {"ingredient", ColumnKind::ingredient},
    {"ingrédient", ColumnKind::ingredient},
    {"ingrediente", ColumnKind::ingredient},
    {"zutat", ColumnKind::ingredient},
    {"item", ColumnKind::ingredient},
    {"product", ColumnKind::ingredient},
    {"qty", ColumnKind::quantity},
    {"quantity", ColumnKind::quantity},
    {"amount", ColumnKind::quantity},
    {"measure", ColumnKind::quantity},
    {"menge", ColumnKind::quantity},
    {"quantité", ColumnKind::quantity},
    {"cantidad", ColumnKind::quantity},
    {"quantità", ColumnKind::quantity},
    {"dose", ColumnKind::quantity},
    {"ml", ColumnKind::quantity},
    {"cl", ColumnKind::quantity},
    {"oz", ColumnKind::quantity},
    {"unit", ColumnKind::unit},
    {"units", ColumnKind::unit},
    {"uom", ColumnKind::unit},
    {"einheit", ColumnKind::unit},
    {"unité", ColumnKind::unit},
    {"unidad", ColumnKind::unit},
    {"unità", ColumnKind::unit},
});

std::ptrdiff_t columns_of(const std::vector<std::string>& head, ColumnKind kind) {
  return std::count_if(head.begin(), head.end(),
                       [&](const auto& one) { return column_kind_of(one) == kind; });
}

bool is_any_column(const std::vector<std::string>& head, ColumnKind kind) {
  return columns_of(head, kind) > 0;
}

/// What of a row says one of its ingredients: the first, the second.
bool is_of_ingredient(ColumnKind kind) {
  return kind == ColumnKind::ingredient || kind == ColumnKind::quantity || kind == ColumnKind::unit;
}

/// `-`, `n/a`: nothing.
bool says_nothing(const std::string& cell) { return cell.find_first_not_of("-–— ./") == std::string::npos; }

/// The unit that a column's head says for all its numbers: `ml`.
std::string unit_in_head(const std::string& head) {
  auto folded = base::fold_name(without_number(head));
  return folded == "ml" || folded == "cl" || folded == "oz" ? folded : std::string();
}

void add_cell(NamedList& spec, const std::string& cell, LabelRole role, PhraseReader& reader) {
  if (says_nothing(cell)) return;
  auto parts = role == LabelRole::none ? reader.parted(cell, {}) : std::vector<std::string>{};
  if (parts.empty()) parts = {cell};
  for (const auto& part : parts) spec.parts.push_back({{part, 0}, role, part});
}

/// Quantity, unit and ingredient, in this order, as one line: of one ingredient by its place in the
/// head, from 0. Where all of them share one column, that is theirs.
std::string amount_of(const std::vector<std::string>& head, const std::vector<std::string>& cells,
                      std::ptrdiff_t which) {
  std::string quantity, unit, thing;
  std::ptrdiff_t quantities = 0, units = 0, things = 0;
  auto add = [](std::string& to, const std::string& words) {
    to += (to.empty() || words.empty() ? "" : " ") + words;
  };
  auto is_it = [&](ColumnKind kind, std::ptrdiff_t& seen) {
    return seen++ == which || columns_of(head, kind) == 1;
  };
  for (std::size_t i = 0; i < cells.size() && i < head.size(); ++i) {
    const auto kind = column_kind_of(head[i]);
    if (kind == ColumnKind::quantity && is_it(kind, quantities) && !says_nothing(cells[i])) {
      add(quantity, cells[i]);
      add(unit, unit_in_head(head[i]));
    }
    if (kind == ColumnKind::unit && is_it(kind, units)) add(unit, cells[i]);
    if (kind == ColumnKind::ingredient && is_it(kind, things)) add(thing, cells[i]);
  }
  // What an empty place is measured in says nothing.
  if (quantity.empty() && thing.empty()) return {};
  return base::collapse_space(quantity + " " + unit + " " + thing);
}

/// A number below a head that no label is: so much of what the head names, or a remark.
void add_number(NamedList& spec, const std::string& head, const std::string& cell, PhraseReader& reader) {
  if (says_nothing(cell)) return;
  const bool is_poured = reader.is_stock(base::fold_name(head));
  const std::string text = is_poured ? cell + " " + head : head + ": " + cell;
  spec.parts.push_back({{text, 0}, is_poured ? LabelRole::none : LabelRole::remark, text});
}

/// A number, with or without its unit, and nothing of what.
bool is_bare_amount(const std::string& cell) {
  auto number = leading_number(cell);
  return number && cell.find_first_not_of(" ", number->bytes) == std::string::npos;
}

}  // namespace

std::string without_number(const std::string& head) {
  auto text = std::string(base::trim(head));
  if (base::is_digit(text.empty() ? ' ' : text.front())) return text;
  auto end = text.find_last_not_of("0123456789#. ");
  return end == std::string::npos ? text : text.substr(0, end + 1);
}

ColumnKind column_kind_of(const std::string& head) {
  auto folded = base::fold_name(without_number(head));
  for (auto [word, kind] : column_words)
    if (word == folded) return kind;
  return label_of(folded + ":").role == LabelRole::none ? ColumnKind::other : ColumnKind::labelled;
}

TableRow table_row(const std::vector<std::string>& head, const std::vector<std::string>& cells,
                   PhraseReader& reader) {
  TableRow row;
  if (!is_any_column(head, ColumnKind::name)) return row;
  const auto ingredients = columns_of(head, ColumnKind::ingredient);
  const bool is_parted = ingredients > 0 && is_any_column(head, ColumnKind::quantity);
  row.is_one_ingredient = is_parted && ingredients == 1;
  auto& spec = row.spec;
  for (std::ptrdiff_t which = 0; is_parted && which < ingredients; ++which)
    if (auto amount = amount_of(head, cells, which); !amount.empty())
      spec.parts.push_back({{amount, 0}, LabelRole::none, amount});
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const auto kind = i < head.size() ? column_kind_of(head[i]) : ColumnKind::other;
    if (cells[i].empty() || (is_parted && is_of_ingredient(kind))) continue;
    if (kind == ColumnKind::name && spec.name.empty())
      spec.name = cells[i];
    else if (kind == ColumnKind::other && i < head.size() && !head[i].empty() && is_bare_amount(cells[i]))
      add_number(spec, head[i], cells[i], reader);
    else
      add_cell(spec, cells[i],
               kind == ColumnKind::labelled ? label_of(base::fold_name(head[i]) + ":").role : LabelRole::none,
               reader);
  }
  if (spec.parts.empty()) return {};
  return row;
}

}  // namespace gill::importer
