#include "importer/recipe_table.h"

#include <algorithm>
#include <array>

#include "base/text.h"
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

bool is_any_column(const std::vector<std::string>& head, ColumnKind kind) {
  return std::any_of(head.begin(), head.end(), [&](const auto& one) { return column_kind_of(one) == kind; });
}

/// `-`, `n/a`: nothing.
bool says_nothing(const std::string& cell) { return cell.find_first_not_of("-–— ./") == std::string::npos; }

/// The unit that a column's head says for all its numbers: `ml`.
std::string unit_in_head(const std::string& head) {
  auto folded = base::fold_name(head);
  return folded == "ml" || folded == "cl" || folded == "oz" ? folded : std::string();
}

void add_cell(NamedList& spec, const std::string& cell, LabelRole role, PhraseReader& reader) {
  if (says_nothing(cell)) return;
  auto parts = role == LabelRole::none ? reader.parted(cell, {}) : std::vector<std::string>{};
  if (parts.empty()) parts = {cell};
  for (const auto& part : parts) spec.parts.push_back({{part, 0}, role, part});
}

/// Quantity, unit and ingredient, in this order, as one line.
std::string amount_of(const std::vector<std::string>& head, const std::vector<std::string>& cells) {
  std::string quantity, unit, thing;
  auto add = [](std::string& to, const std::string& words) {
    to += (to.empty() || words.empty() ? "" : " ") + words;
  };
  for (std::size_t i = 0; i < cells.size() && i < head.size(); ++i) {
    const auto kind = column_kind_of(head[i]);
    if (kind == ColumnKind::quantity && !says_nothing(cells[i])) {
      add(quantity, cells[i]);
      add(unit, unit_in_head(head[i]));
    }
    if (kind == ColumnKind::unit) add(unit, cells[i]);
    if (kind == ColumnKind::ingredient) add(thing, cells[i]);
  }
  return base::collapse_space(quantity + " " + unit + " " + thing);
}

}  // namespace

ColumnKind column_kind_of(const std::string& head) {
  auto folded = base::fold_name(base::trim(head));
  for (auto [word, kind] : column_words)
    if (word == folded) return kind;
  return label_of(folded + ":").role == LabelRole::none ? ColumnKind::other : ColumnKind::labelled;
}

TableRow table_row(const std::vector<std::string>& head, const std::vector<std::string>& cells,
                   PhraseReader& reader) {
  TableRow row;
  if (!is_any_column(head, ColumnKind::name)) return row;
  row.is_one_ingredient =
      is_any_column(head, ColumnKind::ingredient) && is_any_column(head, ColumnKind::quantity);
  auto& spec = row.spec;
  if (row.is_one_ingredient)
    if (auto amount = amount_of(head, cells); !amount.empty())
      spec.parts.push_back({{amount, 0}, LabelRole::none, amount});
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const auto kind = i < head.size() ? column_kind_of(head[i]) : ColumnKind::other;
    const bool is_taken = row.is_one_ingredient && (kind == ColumnKind::ingredient ||
                                                    kind == ColumnKind::quantity || kind == ColumnKind::unit);
    if (cells[i].empty() || is_taken) continue;
    if (kind == ColumnKind::name && spec.name.empty())
      spec.name = cells[i];
    else
      add_cell(spec, cells[i],
               kind == ColumnKind::labelled ? label_of(base::fold_name(head[i]) + ":").role : LabelRole::none,
               reader);
  }
  if (spec.parts.empty()) return {};
  return row;
}

}  // namespace gill::importer
