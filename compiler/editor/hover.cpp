#include "editor/hover.h"

#include <fmt/format.h>

#include "analysis/verbs.h"
#include "base/percent.h"
#include "base/text.h"
#include "editor/page_parts.h"
#include "lint/pages.h"
#include "model/figures_table.h"
#include "render/document/pages.h"
#include "render/wording/measures.h"
#include "render/wording/numbers.h"
#include "syntax/line_view.h"

namespace gill::editor {

using symbols::DeclarationKind;
using namespace render::document;
namespace {

bool holds(const Span& span, const syntax::File& file, std::uint32_t offset) {
  return span.file_id == file.file_id && span.begin <= offset && offset <= span.end;
}

void add_section_of(const Page& from, const std::string& name, Page& to) {
  if (const auto* section = find_section(from.blocks, name)) to.blocks.push_back(Block(*section));
}

/// What stands first on a drink's page, its allergens, and the figures as served.
std::string drink_told(const HouseView& view, analysis::DrinkId id, Pictures pictures) {
  Page whole = drink_page(view.book(), id), told;
  told.title = whole.title;
  told.subtitle = whole.subtitle;
  if (!whole.blocks.empty()) told.blocks.push_back(whole.blocks.front());
  if (const auto* notices = find_group(whole.blocks, "notices")) told.blocks.push_back(Block(*notices));
  if (pictures == Pictures::inside) add_section_of(whole, "picture", told);
  add_section_of(whole, "served", told);
  add_section_of(whole, "money", told);
  told.path = whole.path;
  return small_markdown(std::move(told), pictures);
}

std::string stock_told(const HouseView& view, analysis::StockId id) {
  bool is_prep = view.specs()[id].is_prep;
  Page whole = is_prep ? prep_page(view.book(), id) : ingredient_page(view.book(), id), told;
  told.title = whole.title;
  told.subtitle = whole.subtitle;
  if (const auto* notices = find_group(whole.blocks, "notices")) told.blocks.push_back(Block(*notices));
  for (const char* name : {"served", "used", "keeping", "about"}) add_section_of(whole, name, told);
  return small_markdown(std::move(told));
}

/// An entry of the glossary; for what the house does not use yet, its name and its text.
std::string glossary_told(const HouseView& view, const std::string& anchor, const analysis::Head& head) {
  Page told;
  told.title = head.name;
  Page glossary = anchor.empty() ? Page() : glossary_page(view.book());
  if (const auto* section = anchor.empty() ? nullptr : find_section(glossary.blocks, anchor))
    told.blocks = section->blocks;
  else if (!head.text.empty())
    told.blocks.push_back(Prose{head.text});
  if (head.from_library) told.subtitle = Run("from the standard library");
  return small_markdown(std::move(told));
}

/// How a drink lies in the ranges of its family: a row for each figure that the family bounds.
std::string drink_in_family(const HouseView& view, analysis::FamilyId id, analysis::DrinkId drink_id) {
  const auto& family = view.specs()[id];
  const auto& facts = view.house().facts[drink_id];
  if (!facts.valid) return {};
  std::string rows;
  for (const auto& figure : model::drink_figures()) {
    if (!figure.family_range || !(family.*figure.family_range)) continue;
    auto value = model::value_of(figure, facts);
    if (!value) continue;
    rows += fmt::format(
        "| {} | {} | {}{} |\n", base::capitalised(std::string(figure.row.words)),
        render::wording::text_of(*(family.*figure.family_range), view.house().units),
        render::wording::with_tolerance(*value, model::tolerance_of(figure, facts), figure.row.places),
        model::unit_behind(figure.row));
  }
  if (rows.empty()) return {};
  return fmt::format("\n| | {} | {} |\n|---|---|---|\n{}", family.head.name, view.specs()[drink_id].head.name,
                     rows);
}

std::string family_told(const HouseView& view, analysis::FamilyId id, DeclarationId around) {
  std::string told = glossary_told(view, view.book().anchor_of(id), view.specs()[id].head);
  if (auto drink = view.drink(around)) told += drink_in_family(view, id, *drink);
  return told;
}

/// What one of a unit comes to, in the house's columns of its kind.
std::string unit_told(const HouseView& view, const units::Unit& unit) {
  const auto& house = view.house();
  std::string told = fmt::format("### 1 {}\n\n", unit.symbol);
  std::vector<std::string> columns;
  for (auto id : house.specs.house.show_drinks) {
    const auto& column = house.units[id];
    if (column.kind != unit.kind || column.symbol == unit.symbol) continue;
    columns.push_back(
        render::wording::text_of(render::wording::measure_in(base::to_double(unit.factor), column)));
  }
  if (columns.empty() && unit.kind == units::Kind::mass)
    columns.push_back(render::wording::trimmed(base::to_double(unit.factor), 3) + " g");
  if (columns.empty() && unit.kind == units::Kind::volume)
    columns.push_back(render::wording::trimmed(base::to_double(unit.factor), 3) + " ml");
  told += columns.empty() ? "Counted in " + unit.plural : base::join(columns, ", ");
  if (unit.tolerance)
    told += fmt::format(", give or take {} %",
                        render::wording::trimmed(base::percent_of_share(*unit.tolerance), 0));
  told += ".\n";
  if (!unit.source.empty()) told += fmt::format("\nSource: {}\n", unit.source);
  return told;
}

/// An amount as written, and in the columns in which the book prints it.
std::string amount_told(const HouseView& view, const analysis::Amount& amount, bool in_prep) {
  const auto& house = view.house();
  const auto& show = in_prep ? house.specs.house.show_preps : house.specs.house.show_drinks;
  std::string told = fmt::format("### {}\n\n", amount.as_written);
  std::vector<std::string> columns;
  for (auto id : show)
    if (house.units[id].kind == amount.quantity.kind)
      columns.push_back(
          render::wording::text_of(render::wording::measure_converted(amount.quantity, house.units[id])));
  told +=
      columns.empty() ? render::wording::text_of(amount.quantity, house.units) : base::join(columns, " · ");
  if (amount.quantity.unit.valid() && house.units[amount.quantity.unit].tolerance)
    told += "\n\n" + unit_told(view, house.units[amount.quantity.unit]);
  return told + "\n";
}

const analysis::Recipe* recipe_at(const HouseView& view, const std::optional<Holder>& holder) {
  return holder ? view.recipe(holder->id) : nullptr;
}

std::optional<Hover> amount_hover(const HouseView& view, const syntax::File& file, std::uint32_t offset,
                                  const std::optional<Holder>& holder) {
  const auto* recipe = recipe_at(view, holder);
  if (!recipe) return std::nullopt;
  bool in_prep = view.house().names[holder->id].kind != DeclarationKind::drink;
  for (const auto& amount : recipe->amounts) {
    auto span = view.house().sources.written(amount.quantity.span);
    if (amount.form == analysis::Amount::Form::measured && holds(span, file, offset))
      return Hover{amount_told(view, amount, in_prep), span};
  }
  return std::nullopt;
}

std::string verb_told(const analysis::VerbInfo& verb) {
  std::string told = fmt::format("### {}\n\n", verb.name);
  told += verb.in_drink && verb.in_prep ? "A step of drinks and preps."
          : verb.in_drink               ? "A step of drinks."
                                        : "A step of preps.";
  if (verb.usual_s > 0)
    told += fmt::format(" Where no time is written, {} s are used.", verb.usual_s);
  else if (verb.time == analysis::VerbInfo::Time::should)
    told += " It should say how long.";
  return told + "\n";
}

/// What the words of a line mean that are no name and no amount: a step, a unit, a rule that is allowed.
std::optional<Hover> word_hover(const HouseView& view, const syntax::File& file, std::uint32_t offset) {
  const auto& source = view.text(file);
  auto index = line_at(source, offset);
  if (index >= file.lines.size()) return std::nullopt;
  syntax::LineView line(source, file, index);
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (!holds(line.span(i), file, offset)) continue;
    if (i > 0 && line.is_word(0, "allow"))
      if (auto rule = diagnostics::find_rule(line.text(1)))
        if (auto page = lint::page_of(*rule)) return Hover{std::string(*page), line.span(1)};
    if (auto match = analysis::match_verb(line, 0); match && i < match->tokens)
      return Hover{verb_told(analysis::info(match->verb)), line.span(0, match->tokens)};
    if (i > 0 && line.kind(i - 1) == syntax::TokenKind::number)
      if (auto match = view.house().units.match(line, i); match.unit.valid())
        return Hover{unit_told(view, view.house().units[match.unit]), line.span(i, i + match.tokens)};
  }
  return std::nullopt;
}

void add_rule_page(const HouseView& view, const syntax::File& file, std::uint32_t offset,
                   std::optional<Hover>& hover) {
  for (const auto& finding : view.house().findings) {
    if (!holds(finding.span, file, offset)) continue;
    auto page = lint::page_of(finding.rule);
    if (!page) continue;
    if (!hover) hover = Hover{{}, finding.span};
    hover->markdown += (hover->markdown.empty() ? "" : "\n---\n\n") + std::string(*page);
    return;
  }
}

}  // namespace

std::string told_of(const HouseView& view, DeclarationId id, DeclarationId around, Pictures pictures) {
  const auto& specs = view.specs();
  auto index = specs.index_of[id.index()];
  switch (view.house().names[id].kind) {
    case DeclarationKind::drink:
      return drink_told(view, {index}, pictures);
    case DeclarationKind::ingredient:
    case DeclarationKind::prep:
      return stock_told(view, {index});
    case DeclarationKind::glass:
      return glossary_told(view, view.book().anchor_of(analysis::GlassId{index}), specs.glasses[index].head);
    case DeclarationKind::ice:
      return glossary_told(view, view.book().anchor_of(analysis::IceId{index}), specs.ices[index].head);
    case DeclarationKind::family:
      return family_told(view, {index}, around);
    case DeclarationKind::unit: {
      auto unit = view.house().units.find(view.house().names[id].name);
      return unit.valid() ? unit_told(view, view.house().units[unit]) : std::string();
    }
    case DeclarationKind::house:
    case DeclarationKind::prices:
    case DeclarationKind::menu:
      return {};
  }
  return {};
}

std::optional<Hover> hover(const HouseView& view, const syntax::File& file, std::uint32_t offset,
                           Pictures pictures) {
  auto holder = view.holder(file, offset);
  std::optional<Hover> told;
  if (const auto* name = view.names().at(file.file_id, offset)) {
    auto markdown = told_of(view, name->declaration, holder ? holder->id : DeclarationId{}, pictures);
    if (!markdown.empty()) told = Hover{std::move(markdown), name->span};
  }
  if (!told) told = amount_hover(view, file, offset, holder);
  if (!told) told = word_hover(view, file, offset);
  add_rule_page(view, file, offset, told);
  return told;
}

}  // namespace gill::editor
