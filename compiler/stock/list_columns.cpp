#include "stock/list_columns.h"

#include <fmt/format.h>

#include "base/text.h"

namespace gill::stock {

// In English, German, French, Spanish and Italian.
const Titles name_titles = {"name",
                            "item",
                            "ingredient",
                            "product",
                            "product name",
                            "item name",
                            "description",
                            "article",
                            "drink",
                            "stock",
                            "produkt",
                            "artikel",
                            "bezeichnung",
                            "ware",
                            "produit",
                            "désignation",
                            "libellé",
                            "producto",
                            "artículo",
                            "descripción",
                            "prodotto",
                            "articolo",
                            "descrizione",
                            "getränk",
                            "boisson",
                            "bebida",
                            "bevanda",
                            "cocktail",
                            "zutat",
                            "ingrédient",
                            "ingrediente",
                            "artikelbezeichnung",
                            "produktbezeichnung",
                            "warenbezeichnung",
                            "produktname",
                            "denominación",
                            "denominazione",
                            "concepto",
                            "nom",
                            "nombre",
                            "nome"};
const Titles size_titles = {"size",
                            "pack size",
                            "unit size",
                            "bottle size",
                            "volume",
                            "content",
                            "contents",
                            "format",
                            "pack",
                            "inhalt",
                            "gebinde",
                            "größe",
                            "packung",
                            "contenance",
                            "conditionnement",
                            "cond",
                            "condt",
                            "taille",
                            "tamaño",
                            "formato",
                            "contenido",
                            "envase",
                            "confezione",
                            "contenuto",
                            "capacità",
                            "gebindegröße",
                            "packungsgröße",
                            "verpackung",
                            "verpackungseinheit",
                            "ve",
                            "vpe",
                            "présentation",
                            "presentación",
                            "presentazione",
                            "pezzatura",
                            "embalaje",
                            "imballo",
                            "unité de vente",
                            "unidad de venta",
                            "unità di vendita",
                            "verkaufseinheit",
                            "unit of sale",
                            "sales unit",
                            "selling unit"};

bool lacks(const base::CsvTable& table, std::optional<std::size_t> column, std::string_view what,
           std::vector<base::RowProblem>& problems) {
  if (column) return false;
  problems.push_back(
      {table.header_line,
       table.header.empty()
           ? fmt::format("No column is titled {}: the titles are missing.", what)
           : fmt::format("No column is titled {}; the titles are {}. Change the title of the one that is "
                         "meant to one of these words.",
                         what, base::join_with_and(table.header))});
  return true;
}

NameColumn::NameColumn(const base::CsvTable& table, const House& house, symbols::NameSpace space,
                       const Titles& titles)
    : table_(table), column_(table.column(titles)), finder_(house, space) {}

std::string NameColumn::relation(const base::CsvRow& row) const { return finder_.relation(written(row)); }

std::optional<std::uint32_t> NameColumn::find(const base::CsvRow& row, std::string_view unnamed,
                                              std::string_view noun, std::vector<base::RowProblem>& problems,
                                              std::vector<base::RowProblem>& unmatched) const {
  auto name = written(row);
  if (name.empty()) {
    problems.push_back({row.line, std::string(unnamed)});
    return std::nullopt;
  }
  auto id = finder_.find(name);
  if (!id) unmatched.push_back({row.line, finder_.unmatched(name, noun)});
  return id;
}

}  // namespace gill::stock
