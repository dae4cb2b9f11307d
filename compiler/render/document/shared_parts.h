#pragma once
#include "model/figures_table.h"
#include "render/document/book_index.h"
#include "render/wording/recipe_context.h"

/// Parts that pages of several kinds show in the same way.
namespace gill::render::document {

/// The allergens in words, with what each comes by, and the standing lines; with `origins` also what comes,
/// or may come, from an animal.
Notice allergens_notice(const BookIndex& index, const model::Allergens& allergens, bool known,
                        const analysis::Recipe& recipe, const model::Origins* origins = nullptr);

/// `egg, sulphites; may: almond (nut); not known`, for a cell or a line of an index; never empty.
Run allergens_in_brief(const model::Allergens& allergens, bool known);

/// What a rule of safety is called on pages and labels: `raw egg`, `cool it fast`; empty for any other rule.
std::string_view caution_words(diagnostics::Rule rule);

/// What is to be taken care of: findings of safety, what the declaration and its ingredients say, and the
/// house's notices.
struct Cautions {
  /// A word or two each, for the head of the page: `raw egg, nutmeg`; empty when there is nothing.
  std::string in_brief;
  /// The same for a label, where allergens stand by themselves and there is no page to see below: with what
  /// the declaration itself warns of, as sentences.
  std::string on_label;
  /// In full; without blocks when there is nothing.
  Notice notice;
};
Cautions cautions_of(const BookIndex& index, analysis::DrinkId id);
Cautions cautions_of(const BookIndex& index, analysis::StockId id);
/// Of what stands ready of a drink: `held` is what is in it, and what is not brings no caution.
Cautions cautions_of_bottle(const BookIndex& index, analysis::DrinkId id,
                            const std::vector<analysis::StockId>& held);

/// What its preps say of their making; without blocks when they say nothing.
Notice making_notice(const BookIndex& index, analysis::DrinkId id);

/// What is not sound, and where the spec says what; without blocks when all is sound.
Notice error_notice(const BookIndex& index, analysis::DrinkId id);
Notice error_notice(const BookIndex& index, analysis::StockId id);

/// A recipe told more often than once.
struct Scale {
  /// `×2`, `1 l`.
  std::string words;
  double factor = 1;
};
/// The recipe as written, two and ten times, and as much as makes a litre (or a kilogram); `makes` is what it
/// makes as written, in ml or g, 0 where that is not evaluated.
std::vector<Scale> scales_of(double makes, const std::string& whole_unit);

/// The build of a drink or prep: a column for each of the house's units, then what it is; at the first of the
/// scales, with the others beside it.
Table build_table(const BookIndex& index, const wording::RecipeContext& recipe, const std::string& caption,
                  const std::vector<analysis::StockId>& in_batch, const std::vector<Scale>& scales);

/// The method, numbered.
List method_list(const wording::RecipeContext& recipe);

/// A fact with one value, put at the end; not at all when the value is empty.
void add_fact(FactList& facts, const std::string& term, Run value);

/// What a law asks to be said of it, a line each.
void add_statements(std::vector<Block>& blocks, const BookIndex& index,
                    const std::vector<model::Statement>& statements);
/// A figure with its tolerance; `not evaluated` where the drink or prep is not
/// sound.
void add_figure(FactList& facts, const model::FigureRow& figure, double value, double tolerance, bool valid);

/// `a, b and c` as runs.
Run joined_with_and(const std::vector<Run>& runs);

/// A section with blocks, put at the end; not at all when there are none.
void add_section(std::vector<Block>& blocks, const std::string& name, const std::string& title,
                 std::vector<Block> parts);

}  // namespace gill::render::document
