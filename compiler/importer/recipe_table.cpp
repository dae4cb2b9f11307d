#include "importer/recipe_table.h"

#include <fmt/format.h>

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
    {"cocktailname", ColumnKind::name},
    {"rezept", ColumnKind::name},
    {"recette", ColumnKind::name},
    {"receta", ColumnKind::name},
    {"ricetta", ColumnKind::name},
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
    {"produkt", ColumnKind::ingredient},
    {"produit", ColumnKind::ingredient},
    {"producto", ColumnKind::ingredient},
    {"prodotto", ColumnKind::ingredient},
    {"qty", ColumnKind::quantity},
    {"quantity", ColumnKind::quantity},
    {"amount", ColumnKind::quantity},
    {"measure", ColumnKind::quantity},
    {"menge", ColumnKind::quantity},
    {"quantité", ColumnKind::quantity},
    {"cantidad", ColumnKind::quantity},
    {"quantità", ColumnKind::quantity},
    {"dose", ColumnKind::quantity},
    {"dosis", ColumnKind::quantity},
    {"volume", ColumnKind::quantity},
    {"pour", ColumnKind::quantity},
    {"metric", ColumnKind::quantity},
    {"imperial", ColumnKind::quantity},
    {"ml", ColumnKind::quantity},
    {"cl", ColumnKind::quantity},
    {"dl", ColumnKind::quantity},
    {"oz", ColumnKind::quantity},
    {"fl oz", ColumnKind::quantity},
    {"g", ColumnKind::quantity},
    {"parts", ColumnKind::quantity},
    {"dashes", ColumnKind::quantity},
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

// Units in the head of a column, which its numbers leave out.
constexpr auto head_units =
    std::to_array<std::string_view>({"ml", "cl", "dl", "oz", "g", "parts", "dashes", "dash", "bsp", "tsp"});

bool is_unit_of_head(const std::string& word) {
  return std::find(head_units.begin(), head_units.end(), word) != head_units.end();
}

/// `amount` and `ml` of `Amount (ml)`, `Menge ml` and `Qty [ml] 2`; of `Ml` both are it.
std::pair<std::string, std::string> word_and_unit_of(const std::string& head) {
  const auto folded = base::fold_name(without_number(head));
  auto words = base::folded_words(folded);
  if (words.empty() || !is_unit_of_head(words.back())) return {folded, {}};
  const auto unit = words.back();
  if (words.size() > 1 && folded != "fl oz") words.pop_back();
  return {base::join(words, " "), unit};
}

void add_words(std::string& to, const std::string& words) {
  if (!to.empty() && !words.empty()) to += ' ';
  to += words;
}

/// The parts of a cell; each says in which column it stands.
void add_cell(std::vector<OldPart>& to, const std::string& cell, std::size_t column, LabelRole role,
              PhraseReader& reader) {
  if (says_nothing(cell)) return;
  auto parts = role == LabelRole::none ? reader.parted(cell, {}) : std::vector<std::string>{};
  if (parts.empty()) parts = {cell};
  for (const auto& part : parts) to.push_back({{part, column + 1}, role, part});
}

/// What the columns of one ingredient say.
struct AmountInRow {
  std::string quantity, unit, thing, other_measure;
  std::size_t column = 0;

  /// `2 oz`, and `60 ml` of a second column in another unit; false where it says no measure.
  bool add_quantity(const std::string& cell, const std::string& unit_of_head) {
    if (quantity.empty()) {
      quantity = cell;
      unit = unit_of_head;
      return true;
    }
    const bool has_unit =
        !unit_of_head.empty() || cell.find_first_not_of("0123456789.,/ ") != std::string::npos;
    if (!has_unit || !other_measure.empty()) return false;
    other_measure = fmt::format("= {} {}", cell, unit_of_head);
    return true;
  }

  /// Quantity, unit and ingredient, in this order. What an empty place is measured in says nothing.
  std::string text() const {
    if (quantity.empty() && thing.empty()) return {};
    return base::collapse_space(base::join({quantity, unit, other_measure, thing}, " "));
  }
};

/// Reads what a row says of one ingredient by its place in the head, from 0. Where all of them share one
/// column, that is theirs; where there are more measures than ingredients, each has several.
void add_amount(TableRow& row, const std::vector<std::string>& head, const std::vector<std::string>& cells,
                std::ptrdiff_t which) {
  AmountInRow amount;
  std::ptrdiff_t quantities = 0, units = 0, things = 0;
  const auto ingredients = columns_of(head, ColumnKind::ingredient);
  auto is_it = [&](ColumnKind kind, std::ptrdiff_t& seen) {
    const auto columns = columns_of(head, kind);
    return seen++ / std::max<std::ptrdiff_t>(columns / ingredients, 1) == which || columns == 1;
  };
  for (std::size_t i = 0; i < cells.size() && i < head.size(); ++i) {
    const auto kind = column_kind_of(head[i]);
    if (kind == ColumnKind::unit && is_it(kind, units)) add_words(amount.unit, cells[i]);
    if (kind == ColumnKind::ingredient && is_it(kind, things) && !cells[i].empty()) {
      add_words(amount.thing, cells[i]);
      amount.column = i;
    }
    if (kind != ColumnKind::quantity || !is_it(kind, quantities) || says_nothing(cells[i])) continue;
    const auto words = fmt::format("{}: {}", head[i], cells[i]);
    if (!amount.add_quantity(cells[i], word_and_unit_of(head[i]).second))
      row.said.push_back({{words, i + 1}, LabelRole::remark, words});
  }
  if (auto text = amount.text(); !text.empty())
    row.amounts.push_back({{text, amount.column + 1}, LabelRole::none, text});
}

/// A number below a head that no label is: so much of what the head names, or a remark.
void add_number(TableRow& row, const std::string& head, const std::string& cell, std::size_t column,
                PhraseReader& reader) {
  if (says_nothing(cell)) return;
  const bool has_unit = cell.find_first_not_of("0123456789.,/ ") != std::string::npos;
  const bool is_poured = has_unit || reader.is_stock(base::fold_name(head));
  const auto text = is_poured ? fmt::format("{} {}", cell, head) : fmt::format("{}: {}", head, cell);
  if (is_poured)
    row.amounts.push_back({{text, column + 1}, LabelRole::none, text});
  else
    row.said.push_back({{text, column + 1}, LabelRole::remark, text});
}

/// A number, with or without the unit of a measure, and nothing of what.
bool is_bare_amount(const std::string& cell) {
  auto number = leading_number(cell);
  if (!number) return false;
  const auto words = base::folded_words(std::string_view(cell).substr(number->bytes));
  return words.empty() || (words.size() == 1 && is_unit_of_head(words.front()));
}

}  // namespace

std::string without_number(const std::string& head) {
  auto text = std::string(base::trim(head));
  if (base::is_digit(text.empty() ? ' ' : text.front())) return text;
  auto end = text.find_last_not_of("0123456789#. ");
  return end == std::string::npos ? text : text.substr(0, end + 1);
}

ColumnKind column_kind_of(const std::string& head) {
  auto kind_of = [](const std::string& words) {
    auto one = std::find_if(column_words.begin(), column_words.end(),
                            [&](const ColumnWord& column) { return column.word == words; });
    return one == column_words.end() ? ColumnKind::other : one->kind;
  };
  const auto folded = base::fold_name(without_number(head));
  if (auto kind = kind_of(folded); kind != ColumnKind::other) return kind;
  if (label_of(folded + ":").role != LabelRole::none) return ColumnKind::labelled;
  return kind_of(word_and_unit_of(head).first);
}

namespace {

/// `Glass`, `Method`; of a remark the head says what it is about.
void add_labelled(TableRow& row, const std::string& head, const std::string& cell, std::size_t column,
                  PhraseReader& reader) {
  const auto role = label_of(base::fold_name(head) + ":").role;
  const auto words = role == LabelRole::remark ? fmt::format("{}: {}", head, cell) : cell;
  if (!says_nothing(cell)) add_cell(row.said, words, column, role, reader);
}

/// The cells of columns that say no ingredient by itself.
void add_other_cells(TableRow& row, const std::vector<std::string>& head,
                     const std::vector<std::string>& cells, bool is_parted, PhraseReader& reader) {
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const auto kind = i < head.size() ? column_kind_of(head[i]) : ColumnKind::other;
    if (cells[i].empty() || (is_parted && is_of_ingredient(kind))) continue;
    if (kind == ColumnKind::name && row.name.empty())
      row.name = cells[i];
    else if (kind == ColumnKind::other && i < head.size() && !head[i].empty() && is_bare_amount(cells[i]))
      add_number(row, head[i], cells[i], i, reader);
    else if (kind == ColumnKind::labelled)
      add_labelled(row, head[i], cells[i], i, reader);
    else
      add_cell(is_parted || kind == ColumnKind::other ? row.said : row.amounts, cells[i], i, LabelRole::none,
               reader);
  }
}

}  // namespace

TableRow table_row(const std::vector<std::string>& head, const std::vector<std::string>& cells,
                   PhraseReader& reader) {
  TableRow row;
  if (!is_any_column(head, ColumnKind::name)) return row;
  const auto ingredients = columns_of(head, ColumnKind::ingredient);
  const bool is_parted = ingredients > 0 && is_any_column(head, ColumnKind::quantity);
  const bool is_one = is_parted ? ingredients == 1 : ingredients + columns_of(head, ColumnKind::part) == 1;
  for (std::ptrdiff_t which = 0; is_parted && which < ingredients; ++which)
    add_amount(row, head, cells, which);
  add_other_cells(row, head, cells, is_parted, reader);
  row.parts = row.amounts;
  row.parts.insert(row.parts.end(), row.said.begin(), row.said.end());
  if (!is_parted)
    std::stable_sort(row.parts.begin(), row.parts.end(), [](const OldPart& one, const OldPart& other) {
      return one.what.line < other.what.line;
    });
  row.is_one_ingredient = is_one && row.amounts.size() < 2;
  return row;
}

}  // namespace gill::importer
